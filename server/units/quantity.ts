/**
 * Quantities as procedures state them: a value, a range, a limit, a value with its tolerance, with the same
 * in another unit beside it or not. The figures are kept as written; what they mean is in SI units.
 */

import { type Amount, sameWithinRounding, slack } from "./amount";
import { type Kind, sameDimension } from "./dimension";
import { type Deviations, deviationFrom, isShare, movedBy } from "./tolerance";
import type { Unit } from "./unit";

/**
 * How the figures are to be read: `47`, `44 to 50`, `at least`, `at most`, `over`, `under`, `47 ± 3`, `30 +3/-1`, `about`.
 */
export type Shape =
  | "exact"
  | "range"
  | "at-least"
  | "at-most"
  | "over"
  | "under"
  | "tolerance"
  | "deviations"
  | "about";

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
  /** The value meant, for `exact`, `tolerance`, `deviations` and `about`. */
  readonly nominal: Amount | null;
  /** For `tolerance` alone: the figure after ±, in a unit that measures a difference, or a share of the value in per cent. */
  readonly tolerance: Amount | null;
  /** For `deviations` alone, in such units too. */
  readonly deviations: Deviations | null;
  /** As it stands in the source. */
  readonly text: string;
  /** The value in brackets behind it. */
  readonly other: Quantity | null;
}

/** What a reader of the source has in hand to make a quantity. */
export interface Written {
  readonly shape: Shape;
  /** The value, the limit, the lower end, or the figure before the tolerance. */
  readonly first: Amount;
  /** The upper end, the figure after ±, or the upper deviation. */
  readonly second?: Amount;
  /** The lower deviation. */
  readonly third?: Amount;
  /** False for `over 0.55 to 0.65 mm`. Only read for a range. */
  readonly lowIncluded?: boolean;
  readonly highIncluded?: boolean;
  readonly text: string;
  readonly other?: Quantity | null;
}

/** `about` is taken to mean within a tenth either way (common practice, no source). */
export const aboutShare = 0.1;

/**
 * A quantity from its figures. Null where a range or a tolerance lacks a figure, or the figures are of different kinds. Ends and
 * deviations that are the wrong way round are kept as written.
 */
export function makeQuantity(written: Written): Quantity | null {
  const { shape, first, second, third, text, other = null } = written;
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
    deviations: null,
    text,
    other,
  };
  if (shape === "range") {
    if (second === undefined || !sameDimension(first.unit.kind, second.unit.kind)) return null;
    const { lowIncluded = true, highIncluded = true } = written;
    return { ...base, low: first, high: second, lowIncluded, highIncluded };
  }
  if (shape === "tolerance") return second === undefined ? null : withTolerance(base, first, second);
  if (shape === "deviations")
    return second === undefined || third === undefined ? null : withDeviations(base, first, second, third);
  if (shape === "at-least" || shape === "over") return { ...base, low: first, lowIncluded: shape !== "over" };
  if (shape === "at-most" || shape === "under") {
    return { ...base, high: first, highIncluded: shape !== "under" };
  }
  if (shape === "about") return { ...base, nominal: first };
  return { ...base, low: first, high: first, nominal: first };
}

function withTolerance(base: Quantity, nominal: Amount, written: Amount): Quantity | null {
  const tolerance = deviationFrom(nominal, written);
  if (tolerance === null) return null;
  const low = movedBy(nominal, tolerance, -1);
  return { ...base, nominal, tolerance, low, high: movedBy(nominal, tolerance, 1) };
}

function withDeviations(base: Quantity, nominal: Amount, above: Amount, below: Amount): Quantity | null {
  const [upper, lower] = [deviationFrom(nominal, above, "+"), deviationFrom(nominal, below, "-")];
  if (upper === null || lower === null) return null;
  const [low, high] = [movedBy(nominal, lower, 1), movedBy(nominal, upper, 1)];
  return { ...base, nominal, deviations: { upper, lower }, low, high };
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
 * every figure one step of the coarser one's last digit or less apart. A tolerance in per cent is the same share in any unit.
 */
export function quantitiesAgree(a: Quantity, b: Quantity): boolean {
  const sides = a.lowIncluded === b.lowIncluded && a.highIncluded === b.highIncluded;
  if (shapeSaid(a) !== shapeSaid(b) || !sides || !sameDimension(a.kind, b.kind)) return false;
  const [mine, yours] = [sharesOf(a), sharesOf(b)];
  if (mine !== null && yours !== null)
    return mine.every((share, i) => share === yours[i]) && figuresAgree(a.nominal, b.nominal);
  return figuresAgree(a.low, b.low) && figuresAgree(a.high, b.high) && figuresAgree(a.nominal, b.nominal);
}

/** `30 +3/-3` says the same as `30 ± 3`. */
export const shapeSaid = ({ shape }: Pick<Quantity, "shape">): Shape =>
  shape === "deviations" ? "tolerance" : shape;

/** The lower and the upper deviation where both are shares of the value. */
function sharesOf({ nominal, tolerance, deviations }: Quantity): readonly number[] | null {
  const [lower, upper] = tolerance ? [tolerance, tolerance] : [deviations?.lower, deviations?.upper];
  if (!nominal || !lower || !upper || !isShare(nominal, lower) || !isShare(nominal, upper)) return null;
  return [tolerance ? -lower.si : lower.si, upper.si];
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
