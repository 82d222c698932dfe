/**
 * Quantities as procedures state them: a value, a range, a limit, a value with its tolerance, with the same
 * in another unit beside it or not. The figures are kept as written; what they mean is in SI units.
 */

import { type Amount, sameWithinRounding, slack } from "./amount";
import { type Kind, sameDimension } from "./dimension";
import { differenceUnit } from "./lookup";
import { fromSi, toSi, type Unit } from "./unit";

/** How the figures are to be read: `47`, `44 to 50`, `at least`, `at most`, `over`, `under`, `47 ± 3`, `about`. */
export type Shape = "exact" | "range" | "at-least" | "at-most" | "over" | "under" | "tolerance" | "about";

/** A quantity. */
export interface Quantity {
  readonly shape: Shape;
  readonly kind: Kind;
  /** The unit of the first figure written. */
  readonly unit: Unit;
  /** The limits; null on a side that has none, and on both for `about`. For `exact` both are the value. */
  readonly low: Amount | null;
  readonly high: Amount | null;
  /** Whether the limit itself still belongs to the quantity. */
  readonly lowIncluded: boolean;
  readonly highIncluded: boolean;
  /** The value meant, for `exact`, `tolerance` and `about`. */
  readonly nominal: Amount | null;
  /** For `tolerance` alone: the figure after ±, in a unit that measures a difference. */
  readonly tolerance: Amount | null;
  /** As it stands in the source. */
  readonly text: string;
  /** The value in brackets behind it. */
  readonly other: Quantity | null;
}

/** What a reader of the source has in hand to make a quantity. */
export interface Written {
  readonly shape: Shape;
  /** The value, the limit, the lower end, or the figure before ±. */
  readonly first: Amount;
  /** The upper end, or the figure after ±. */
  readonly second?: Amount;
  /** False for `over 0.55 to 0.65 mm`. Only read for a range. */
  readonly lowIncluded?: boolean;
  readonly highIncluded?: boolean;
  readonly text: string;
  readonly other?: Quantity | null;
}

/** `about` is taken to mean within a tenth either way (common practice, no source). */
export const aboutShare = 0.1;

/**
 * A quantity from its figures. Null where a range or a tolerance lacks its second figure, or the two figures
 * are of different kinds. Ends that are the wrong way round are kept as written.
 */
export function makeQuantity(written: Written): Quantity | null {
  const { shape, first, second, text, other = null } = written;
  const twoFigures = shape === "range" || shape === "tolerance";
  if (twoFigures && (second === undefined || !comparable(first, second, shape))) return null;
  const base: Quantity = {
    shape,
    kind: first.unit.kind,
    unit: first.unit,
    low: null,
    high: null,
    lowIncluded: true,
    highIncluded: true,
    nominal: null,
    tolerance: null,
    text,
    other,
  };
  if (shape === "range" && second !== undefined) {
    const { lowIncluded = true, highIncluded = true } = written;
    return { ...base, low: first, high: second, lowIncluded, highIncluded };
  }
  if (shape === "tolerance" && second !== undefined) return withTolerance(base, first, second);
  if (shape === "at-least" || shape === "over") return { ...base, low: first, lowIncluded: shape !== "over" };
  if (shape === "at-most" || shape === "under") {
    return { ...base, high: first, highIncluded: shape !== "under" };
  }
  if (shape === "about") return { ...base, nominal: first };
  return { ...base, low: first, high: first, nominal: first };
}

function comparable(first: Amount, second: Amount, shape: Shape): boolean {
  const kind = shape === "tolerance" ? differenceUnit(second.unit).kind : second.unit.kind;
  const wanted = shape === "tolerance" ? differenceUnit(first.unit).kind : first.unit.kind;
  return sameDimension(kind, wanted);
}

function withTolerance(base: Quantity, nominal: Amount, written: Amount): Quantity {
  const unit = differenceUnit(written.unit);
  const si = toSi(written.decimal.value, unit);
  const tolerance: Amount = unit === written.unit ? written : { decimal: written.decimal, unit, si };
  const limit = (by: number): Amount => movedBy(nominal, tolerance, by);
  return { ...base, nominal, tolerance, low: limit(-si), high: limit(si) };
}

/** The nominal figure moved by a difference in SI units, with the digits of the finer of the two figures. */
function movedBy(nominal: Amount, tolerance: Amount, by: number): Amount {
  const si = nominal.si + by;
  const value = fromSi(si, nominal.unit);
  const digits = Math.max(nominal.decimal.digits, tolerance.decimal.digits);
  return { decimal: { text: String(Number(value.toFixed(9))), value, digits }, unit: nominal.unit, si };
}

/** Whether an SI value lies within the quantity's limits. False for a value that is not a number. */
export function contains(quantity: Quantity, si: number): boolean {
  if (Number.isNaN(si)) return false;
  const { low, high, nominal } = quantity;
  if (quantity.shape === "about" && nominal !== null) {
    return Math.abs(si - nominal.si) <= aboutShare * Math.abs(nominal.si) + slack(nominal.si);
  }
  return aboveLow(low, quantity.lowIncluded, si) && belowHigh(high, quantity.highIncluded, si);
}

function aboveLow(low: Amount | null, included: boolean, si: number): boolean {
  if (low === null) return true;
  return included ? si >= low.si - slack(low.si) : si > low.si + slack(low.si);
}

function belowHigh(high: Amount | null, included: boolean, si: number): boolean {
  if (high === null) return true;
  return included ? si <= high.si + slack(high.si) : si < high.si - slack(high.si);
}

/** Whether the ends are the wrong way round (`1.2 to 0.5 mm`). */
export function limitsReversed({ low, high }: Quantity): boolean {
  return low !== null && high !== null && low.si > high.si + slack(low.si, high.si);
}

/** Whether no value at all can lie within: the ends are equal and one of them does not belong. */
export function limitsEmpty({ low, high, lowIncluded, highIncluded }: Quantity): boolean {
  if (low === null || high === null || (lowIncluded && highIncluded)) return false;
  return Math.abs(low.si - high.si) <= slack(low.si, high.si);
}

/**
 * Whether a quantity and the one in brackets behind it say the same within rounding: the same shape, and
 * every figure one step of the coarser one's last digit or less apart.
 */
export function quantitiesAgree(a: Quantity, b: Quantity): boolean {
  const sides = a.lowIncluded === b.lowIncluded && a.highIncluded === b.highIncluded;
  if (a.shape !== b.shape || !sides || !sameDimension(a.kind, b.kind)) return false;
  return figuresAgree(a.low, b.low) && figuresAgree(a.high, b.high) && figuresAgree(a.nominal, b.nominal);
}

function figuresAgree(a: Amount | null, b: Amount | null): boolean {
  return a === null || b === null ? a === b : sameWithinRounding(a, b);
}

/** Whether some value lies within both. False where the kinds differ, or for a quantity said `about`. */
export function overlaps(a: Quantity, b: Quantity): boolean {
  if (!sameDimension(a.kind, b.kind) || a.shape === "about" || b.shape === "about") return false;
  return reaches(a, b) && reaches(b, a);
}

/** Whether the lower end of one is at or under the upper end of the other. */
function reaches(a: Quantity, b: Quantity): boolean {
  if (a.low === null || b.high === null) return true;
  const between = b.high.si - a.low.si;
  const close = slack(a.low.si, b.high.si);
  return Math.abs(between) <= close ? a.lowIncluded && b.highIncluded : between > 0;
}

/**
 * Whether a value could fall between a quantity and the next higher one: `0.50 to 0.55` and `0.56 to 0.60`
 * leave a gap, `0.50 to 0.55` and `over 0.55 to 0.60` do not. False where either is open on that side.
 */
export function leavesGap(lower: Quantity, upper: Quantity): boolean {
  if (!sameDimension(lower.kind, upper.kind) || lower.high === null || upper.low === null) return false;
  const between = upper.low.si - lower.high.si;
  const close = slack(upper.low.si, lower.high.si);
  return Math.abs(between) <= close ? !lower.highIncluded && !upper.lowIncluded : between > 0;
}
