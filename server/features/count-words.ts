/**
 * Figures of any size for people: digits in threes, and what is longer than anybody reads as a power of ten.
 */
import { waysPhrase } from "../phrases/ways";

/** More digits than these are not written out. */
const MOST_DIGITS = 21;

/** A whole number as text: `12,345`, or `about 1.10 × 10^30`. */
export function countWords(count: bigint): string {
  const digits = `${count}`;
  if (digits.length <= MOST_DIGITS) return digits.replace(/\B(?=(\d{3})+$)/g, ",");
  const figure = `${digits[0]}.${digits.slice(1, 3)}`;
  return waysPhrase("about", { figure, power: `${digits.length - 1}` });
}
