/**
 * Figures that are worked out, in the writer's unit with the other one beside it, to as many digits as they are good for.
 */
import { makeAmount } from "../units/amount";
import { roundedDecimal } from "../units/decimal";
import { formatQuantity } from "../units/format";
import { unitById } from "../units/lookup";
import { makeQuantity, type Quantity } from "../units/quantity";
import { fromSi, type Unit } from "../units/unit";

/** A quantity with its other unit behind it, as the source would spell it. */
export function inBothUnits(quantity: Quantity): string {
  return formatQuantity(quantity, { plain: true, units: "both" });
}

/** In metres: the places of pulleys and clips are hardly known to less. */
const STEP = 1e-3;
/** Below so many metres a tenth of that counts. */
const SMALL = 1e-2;

/** A length in millimetres, in a unit of length or, where there is none, in millimetres: `848 mm (33.4 in)`. */
export const lengthText = (millimetres: number, unit: Unit | null): string =>
  lengthsText([millimetres], unit);

/** A length, or two that others lie between: `844 to 853 mm (33.2 to 33.6 in)`. */
export function lengthsText(millimetres: readonly [number, number?], unit: Unit | null): string {
  const own = unit?.kind === "length" ? unit : unitById("mm");
  if (!own) return "";
  const metres = millimetres.map((figure) => (figure ?? 0) / 1000);
  const step = Math.max(...metres.map(Math.abs)) < SMALL ? STEP / 10 : STEP;
  const digits = Math.max(0, Math.ceil(Math.log10(own.factor / step) - 1e-9));
  const [first, second] = metres.map((si) => makeAmount(roundedDecimal(fromSi(si, own), digits), own));
  if (!first) return "";
  const isRange = second !== undefined && second.decimal.text !== first.decimal.text;
  const quantity = makeQuantity(
    isRange ? { shape: "range", first, second, text: "" } : { shape: "exact", first, text: "" },
  );
  return quantity ? inBothUnits(quantity) : "";
}

/** An angle in radians, in whole degrees. */
export const angleText = (radians: number): string => `${Math.round((radians * 180) / Math.PI)}°`;
