/**
 * One figure with its unit: made from a written number, added up from a mixed one (`3 h 30 min`), compared
 * with another within rounding, and converted without claiming more than the writer did.
 */

import { type Decimal, round, roundedDecimal } from "./decimal";
import { sameDimension } from "./dimension";
import { convert, fromSi, toSi, type Unit } from "./unit";

/** One figure with its unit. */
export interface Amount {
  readonly decimal: Decimal;
  readonly unit: Unit;
  /** Coherent SI units (see `Unit.factor`). */
  readonly si: number;
  /** Only for a mixed figure: its parts, coarse to fine; `decimal` and `unit` are then in the finest. */
  readonly parts?: readonly Amount[];
}

/** A written number with its unit. */
export function makeAmount(decimal: Decimal, unit: Unit): Amount {
  return { decimal, unit, si: toSi(decimal.value, unit) };
}

/**
 * A mixed figure as one amount: `3 h 30 min`, `2 ft 6 in`, `-1° 15′` (a sign before the first part holds for
 * all). Null where the parts are of several kinds, do not get finer, carry a sign of their own, or are points
 * on the temperature scale. One part is returned as it is.
 */
export function sumAmounts(parts: readonly Amount[]): Amount | null {
  const [first, ...rest] = parts;
  const last = parts.at(-1);
  if (first === undefined || last === undefined) return null;
  if (rest.length === 0) return first;
  const signed = rest.some((part) => /^\D/.test(part.decimal.text) && !part.decimal.text.startsWith("."));
  const finer = rest.every((part, index) => part.unit.factor < (parts[index] as Amount).unit.factor);
  const oneKind = rest.every((part) => sameDimension(part.unit.kind, first.unit.kind));
  if (signed || !finer || !oneKind || first.unit.kind === "temperature") return null;
  const sign = /^[-\u2212]/.test(first.decimal.text) ? -1 : 1;
  const si = sign * parts.reduce((sum, part) => sum + Math.abs(part.si), 0);
  return { decimal: inUnitOf(last, si), unit: last.unit, si, parts };
}

/** An SI value written like the given amount: the same digits, or the same denominator. */
function inUnitOf(like: Amount, si: number): Decimal {
  const value = fromSi(si, like.unit);
  if (like.decimal.fraction === undefined) return roundedDecimal(value, like.decimal.digits);
  const { denominator } = like.decimal.fraction;
  const numerator = Math.round(value * denominator);
  return {
    ...like.decimal,
    text: `${numerator}/${denominator}`,
    value,
    fraction: { numerator, denominator },
  };
}

/** One step of the figure's last written digit, in SI units; 0 for a fraction, which is exact. */
export function stepOf(amount: Amount): number {
  return amount.decimal.fraction === undefined ? 10 ** -amount.decimal.digits * amount.unit.factor : 0;
}

/**
 * Whether two figures given for the same thing (`47 N·m`, `35 lb·ft`) mean the same: they differ by no more
 * than one step of the last digit of the coarser one. False where the kinds differ.
 */
export function sameWithinRounding(a: Amount, b: Amount): boolean {
  if (!sameDimension(a.unit.kind, b.unit.kind)) return false;
  return Math.abs(a.si - b.si) <= Math.max(stepOf(a), stepOf(b)) + slack(a.si, b.si);
}

/** What binary arithmetic may lose on figures of this size: far under any digit a person writes. */
export function slack(...values: readonly number[]): number {
  return 1e-9 * Math.max(...values.map(Math.abs));
}

/**
 * A target step up to this many times the writer's step still counts as the same precision: one lb·ft is
 * 1.36 N·m, and the trade prints whole ones beside whole N·m (common practice, no source).
 */
const stepLeeway = 1.5;
/**
 * A step up to this many times the writer's will do where the result leads back to the writer's own figure: 0.05 mm is 0.002 in,
 * at 2.5 times. Three times is what NIST SP 811, B.7.2, rejects: 36 ft is 11.0 m, not 11 m.
 */
const backLeeway = 3;
/** No figure in a workshop has more digits after the point. */
const mostDigits = 9;
/** From here on a double no longer holds every whole number, and text would turn to exponents. */
const largest = 1e15;

/**
 * An amount in another unit, as exact as the writer meant it: 47 N·m is 35 lb·ft, 0.05 mm is 0.002 in. The
 * fewest digits are taken whose step is no coarser than the writer's, or which lead back to the writer's own
 * figure (see `backLeeway`), or which lose nothing. The rule is this project's own, held to the examples of
 * NIST SP 811. Null where the kinds differ or the result is 1e15 or more.
 */
export function convertForPrint(amount: Amount, unit: Unit): Amount | null {
  return convertTogether([[amount, unit]])?.[0] ?? null;
}

/**
 * Converts the figures of one statement (the two ends of a range, a value and its tolerance), each to its
 * unit, with one number of digits for all: as many as any of them needs. Null as for `convertForPrint`.
 */
export function convertTogether(pairs: readonly (readonly [Amount, Unit])[]): Amount[] | null {
  const found: { value: number; unit: Unit }[] = [];
  let digits = 0;
  for (const [amount, unit] of pairs) {
    const value = convert(amount.decimal.value, amount.unit, unit);
    if (value === null || Math.abs(value) >= largest) return null;
    found.push({ value, unit });
    digits = Math.max(digits, digitsNeeded(amount, unit, value, digitsMeant(amount, pairs)));
  }
  return found.map(({ value, unit }) => makeAmount(roundedDecimal(value, digits), unit));
}

/** `20 ± 0.5 mm` means 20.0: a figure has the digits of the finest one that stands in a unit of its size. */
function digitsMeant(amount: Amount, pairs: readonly (readonly [Amount, Unit])[]): number {
  const alike = pairs.filter(([other]) => other.unit.factor === amount.unit.factor);
  return Math.max(...alike.map(([other]) => other.decimal.digits));
}

function digitsNeeded(amount: Amount, unit: Unit, value: number, written: number): number {
  const ratio = unit.factor / amount.unit.factor;
  const step = 10 ** -written;
  const exact = amount.decimal.fraction !== undefined;
  for (let digits = 0; digits < mostDigits; digits += 1) {
    if (10 ** -digits * ratio <= step * stepLeeway) return digits;
    const back = convert(round(value, digits), unit, amount.unit) ?? Number.NaN;
    if (Math.abs(back - amount.decimal.value) <= slack(back)) return digits;
    const near = 10 ** -digits * ratio <= step * backLeeway;
    const same = exact
      ? Math.abs(back - amount.decimal.value) <= step / 2
      : near && leadsBack(back, amount, written);
    if (same) return digits;
  }
  return mostDigits;
}

function leadsBack(back: number, amount: Amount, digits: number): boolean {
  return round(back, digits) === round(amount.decimal.value, digits);
}
