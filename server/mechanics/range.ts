/**
 * A range of a figure that is not known exactly: friction, preload, the size of a head. What the mechanics of
 * fasteners answers is a range, so that a rule speaks only where the whole of it says the same.
 */

/** Both ends belong to it; low is never over high. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

/** The range that is one figure. */
export const exactly = (value: number): Range => ({ low: value, high: value });

/** The smallest range that holds all the figures; of none, a range that is not usable. */
export const spanOf = (values: readonly number[]): Range => ({
  low: Math.min(...values),
  high: Math.max(...values),
});

/** The smallest range that holds both. */
export const union = (a: Range, b: Range): Range => spanOf([a.low, a.high, b.low, b.high]);

/** A range times a positive figure. */
export const scaled = ({ low, high }: Range, by: number): Range => ({ low: low * by, high: high * by });

/** Whether both ends are finite and over nought, the right way round: what every figure here has to be. */
export function isPositive({ low, high }: Range): boolean {
  return low > 0 && low <= high && Number.isFinite(high);
}

/** Whether a figure lies within, the ends included. */
export const holds = ({ low, high }: Range, value: number): boolean => value >= low && value <= high;
