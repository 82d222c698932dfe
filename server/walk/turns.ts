/**
 * Angles as exact parts of a turn, as the writer put them.
 */
import { decimalFraction, type Fraction, fraction, plus, times, ZERO } from "../mechanics/fractions";
import type { Amount } from "../units/amount";
import type { Quantity } from "../units/quantity";

/** Parts of a turn in units of angle; others are not exact. */
const PARTS: Readonly<Record<string, Fraction>> = {
  turn: { over: 1n, under: 1n },
  "°": { over: 1n, under: 360n },
  "′": { over: 1n, under: 21600n },
};

/** An exact angle as part of a turn; null for a range, and where the unit gives none. */
export function partOf(quantity: Quantity): Fraction | null {
  return quantity.shape === "exact" && quantity.nominal ? partOfAmount(quantity.nominal) : null;
}

function partOfAmount({ decimal, unit, parts }: Amount): Fraction | null {
  if (parts) {
    const each = parts.map(partOfAmount);
    return each.includes(null) ? null : (each as Fraction[]).reduce(plus, ZERO);
  }
  const one = PARTS[unit.id];
  const written = decimal.fraction
    ? fraction(BigInt(decimal.fraction.numerator), BigInt(decimal.fraction.denominator))
    : decimalFraction(decimal.text);
  return one && written ? times(one, written) : null;
}
