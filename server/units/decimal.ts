/**
 * Numbers exactly as a writer wrote them. How many digits stand after the point says how exact the writer
 * meant the figure, so the text is kept beside the value.
 */

/** A number as written. */
export interface Decimal {
  readonly text: string;
  readonly value: number;
  /** Digits after the point; for a fraction, the digits it is taken to be worth (`fractionDigits`). */
  readonly digits: number;
  /** Only where a fraction was written; then the value is exact. `1 1/2` is 3/2. */
  readonly fraction?: { readonly numerator: number; readonly denominator: number };
}

/** A fraction of an inch or a turn is worth about two decimals (common practice, no source). */
export const fractionDigits = 2;

const plain = /^[+\-\u2212]?(?:\d{1,15}(?:\.\d{1,15})?|\.\d{1,15})$/;
const fractional = /^([+\-\u2212])?(?:(\d{1,9})[ \u00a0-])?(\d{1,9})\/(\d{1,9})$/;

/**
 * Reads `47`, `0.05`, `.020`, `-10` (hyphen or minus sign), `1/6`, `1 1/2`, `1-1/2`. Null for anything else:
 * nothing at all, an exponent, a decimal comma, more than 15 digits, a fraction over 0.
 */
export function parseDecimal(text: string): Decimal | null {
  if (plain.test(text)) {
    const value = Number(text.replace("\u2212", "-"));
    return { text, value: value === 0 ? 0 : value, digits: text.split(".")[1]?.length ?? 0 };
  }
  const match = fractional.exec(text);
  if (match === null || Number(match[4]) === 0) return null;
  const denominator = Number(match[4]);
  const magnitude = Number(match[2] ?? 0) * denominator + Number(match[3]);
  const numerator = match[1] === "-" || match[1] === "\u2212" ? 0 - magnitude : magnitude;
  return {
    text,
    value: numerator / denominator,
    digits: fractionDigits,
    fraction: { numerator, denominator },
  };
}

/** A number rounded to so many digits after the point, half away from zero, as a `Decimal`. */
export function roundedDecimal(value: number, digits: number): Decimal {
  const rounded = round(value, digits);
  return { text: rounded.toFixed(digits), value: rounded, digits };
}

/** A number with as many digits behind the point as it has, and no more than `most`. */
export function shortestDecimal(value: number, most = 12): Decimal {
  const text = value.toFixed(most).replace(/(?:\.0*|(\.\d*?)0+)$/, "$1");
  return { text, value: Number(text), digits: text.split(".")[1]?.length ?? 0 };
}

/**
 * Rounds half away from zero. A value that misses the half by what binary arithmetic loses (6.35 is held
 * as a little less) counts as the half.
 */
export function round(value: number, digits: number): number {
  const scale = 10 ** digits;
  const magnitude = Math.floor(Math.abs(value) * scale * (1 + 1e-12) + 0.5) / scale;
  return value < 0 && magnitude > 0 ? -magnitude : magnitude;
}
