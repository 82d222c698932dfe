/**
 * What a torque wrench is set to where an adapter lengthens its lever.
 */
import { type Amount, makeAmount } from "../units/amount";
import { roundedDecimal } from "../units/decimal";
import { makeQuantity, type Quantity } from "../units/quantity";

/** A setting is printed with so many figures: half a per cent, finer than any click wrench is read. */
const FIGURES = 3;

/**
 * The setting of a wrench for a wanted torque: wanted × L / (L + E), by the balance of moments, with the adapter in
 * line with the wrench. Its shape is the torque's; a tolerance is left to the torque itself.
 *
 * @param lever L, from the wrench's drive to the middle of its grip, in metres
 * @param extension E, from the wrench's drive to the fastener, in metres
 * @returns null where the lever or a figure is missing or makes no sense
 */
export function wrenchSetting(torque: Quantity, lever: number, extension: number): Quantity | null {
  if (!(lever > 0) || !(extension >= 0)) return null;
  const scale = lever / (lever + extension);
  const { shape, nominal, low, high, lowIncluded, highIncluded } = torque;
  const first = shape === "range" ? low : (nominal ?? low ?? high);
  if (first === null) return null;
  const second = shape === "range" && high ? { second: scaled(high, scale) } : {};
  return makeQuantity({
    shape: shape === "tolerance" ? "exact" : shape,
    first: scaled(first, scale),
    ...second,
    lowIncluded,
    highIncluded,
    text: "",
  });
}

function scaled({ decimal, unit }: Amount, scale: number): Amount {
  const value = decimal.value * scale;
  const before = value === 0 ? 1 : Math.floor(Math.log10(Math.abs(value))) + 1;
  return makeAmount(roundedDecimal(value, Math.max(0, FIGURES - before)), unit);
}
