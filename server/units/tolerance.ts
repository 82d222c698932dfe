/**
 * How far a figure may lie from the value meant: `± 3 N·m`, `+3/-1 N·m`, `± 10 %`. The upper deviation is written first, as ISO 129-1
 * (formerly ISO 406) has it (from memory); both may lie on one side, as the limits of ISO 286 fits do.
 */

import type { Amount } from "./amount";
import { shortestDecimal } from "./decimal";
import { sameDimension } from "./dimension";
import { differenceUnit } from "./lookup";
import { fromSi, toSi } from "./unit";

/** The two deviations of a value, each with its sign in its text; nought above has a plus and nought below a minus. */
export interface Deviations {
  readonly upper: Amount;
  readonly lower: Amount;
}

/** Whether a deviation is a share of the value (`30 N·m ± 10 %`); of a percentage, percent are points of it. */
export function isShare(nominal: Amount, deviation: Amount): boolean {
  return deviation.unit.kind === "percentage" && nominal.unit.kind !== "percentage";
}

/**
 * A figure written behind a value as its deviation: in a unit that measures a difference, and with a sign where `nought` says that it has
 * one, and which nought has. Null where it measures something else, or is a share of a temperature, which has no nought of its own.
 */
export function deviationFrom(nominal: Amount, written: Amount, nought?: "+" | "-"): Amount | null {
  const share = isShare(nominal, written);
  const unit = differenceUnit(written.unit);
  const fits = share
    ? nominal.unit.kind !== "temperature"
    : sameDimension(unit.kind, differenceUnit(nominal.unit).kind);
  if (!fits) return null;
  const { decimal } = written;
  const si = unit === written.unit ? written.si : toSi(decimal.value, unit);
  const sign = decimal.value === 0 ? nought : decimal.value < 0 ? "-" : "+";
  const text = nought === undefined ? decimal.text : `${sign}${decimal.text.replace(/^[-+\u2212]/, "")}`;
  return { ...written, decimal: { ...decimal, text }, unit, si };
}

/**
 * The value moved by a deviation, or against it, in the value's unit. It has as many digits as the finer of the two, and where the
 * deviation is a share, as many as it takes.
 */
export function movedBy(nominal: Amount, deviation: Amount, by: 1 | -1): Amount {
  const share = isShare(nominal, deviation);
  const si = nominal.si + by * deviation.si * (share ? Math.abs(nominal.si) : 1);
  const value = fromSi(si, nominal.unit);
  const { text, digits: needed } = shortestDecimal(value, 9);
  const digits = share ? needed : deviation.decimal.digits;
  return {
    decimal: { text, value, digits: Math.max(nominal.decimal.digits, digits) },
    unit: nominal.unit,
    si,
  };
}
