/**
 * What a torque wrench is set to where an adapter lengthens its lever.
 */
import { type Amount, makeAmount } from "../units/amount";
import { roundedDecimal } from "../units/decimal";
import { makeQuantity, type Quantity } from "../units/quantity";

/** A setting is printed with so many figures: half a per cent, finer than any click wrench is read. */
const FIGURES = 3;

/**
 * The share of the wanted torque that a wrench is set to: L / (L + E cos φ), by the balance of moments: the hand's force acts on the
 * grip at right angles to the wrench, and the adapter adds only what it reaches along it. In line (0) that is L / (L + E); at right
 * angles it is 1; turned back towards the grip it is more than 1.
 * The same formula stands in TM 9-254, chapter 4, “Angled Extension”.
 *
 * @param lever L, from the wrench's drive to the middle of its grip, in metres
 * @param extension E, from the wrench's drive to the fastener, in metres
 * @param angle φ, between the adapter and the line of the wrench, in radians: 0 in line, π turned back over the wrench
 * @returns null where a figure is missing or makes no sense, such as an angle over π, or the fastener would lie behind the grip
 */
export function settingShare(lever: number, extension: number, angle = 0): number | null {
  if (!(lever > 0) || !(extension >= 0) || !(Math.abs(angle) <= Math.PI * (1 + 1e-12))) return null;
  // cos 90° is not quite nought in binary.
  const along = Math.abs(Math.cos(angle)) < 1e-12 ? 0 : Math.cos(angle);
  const reach = lever + extension * along;
  const share = lever / reach;
  return reach > 0 && share > 0 && Number.isFinite(share) ? share : null;
}

/**
 * The setting of a wrench for a wanted torque under an adapter (see `settingShare`, whose figures these are). Its shape is the torque's; a
 * tolerance is left to the torque itself.
 *
 * @returns null where the lever or a figure is missing or makes no sense
 */
export function wrenchSetting(
  torque: Quantity,
  lever: number,
  extension: number,
  angle = 0,
): Quantity | null {
  const scale = settingShare(lever, extension, angle);
  if (scale === null) return null;
  const { shape, nominal, low, high, lowIncluded, highIncluded } = torque;
  const first = shape === "range" ? low : (nominal ?? low ?? high);
  if (first === null) return null;
  const second = shape === "range" && high ? { second: scaled(high, scale) } : {};
  return makeQuantity({
    shape: shape === "tolerance" || shape === "deviations" ? "exact" : shape,
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
