/**
 * What a unit is, and the one way from a figure in one unit to the figure in another.
 */

import { type Kind, sameDimension } from "./dimension";

/**
 * The side of the workshop a unit belongs to. `neutral` units (time, volts, degrees of angle) are the same
 * on both, so nothing is shown beside them.
 */
export type System = "metric" | "imperial" | "neutral";

/** A unit. SI value = figure × factor + offset. */
export interface Unit {
  /** Unique. The print spelling, with ` difference` after it where a temperature unit measures a difference. */
  readonly id: string;
  /** The one spelling the formatter and the sheet use. */
  readonly print: string;
  /** The print spelling for more than one, where the unit is a word (`turns`). */
  readonly plural?: string;
  /** Whether the sign stands against the figure without a space (`60°`). */
  readonly tight: boolean;
  readonly kind: Kind;
  readonly system: System;
  /** Coherent SI units (radian for angle, radian a second for rotation speed, 1 for percentage). */
  readonly factor: number;
  /** Kelvin; 0 for everything but points on the temperature scale. */
  readonly offset: number;
  /** Where the factor comes from. */
  readonly source: string;
  /** Other accepted spellings, normalised; the print spellings are accepted too. */
  readonly spellings: readonly string[];
}

/** A figure in a unit as its SI value. */
export function toSi(value: number, unit: Unit): number {
  return value * unit.factor + unit.offset;
}

/** An SI value as a figure in a unit. */
export function fromSi(si: number, unit: Unit): number {
  return (si - unit.offset) / unit.factor;
}

/** A figure in another unit, unrounded; null where the kinds differ or the figure is not finite. */
export function convert(value: number, from: Unit, to: Unit): number | null {
  if (!sameDimension(from.kind, to.kind)) return null;
  const result = from === to ? value : fromSi(toSi(value, from), to);
  return Number.isFinite(result) ? result : null;
}
