/**
 * Exact fractions, for angles and ratios of shafts. Whole numbers of any size, so that nothing is ever rounded.
 */

/** Always in lowest terms, the lower number over nought. */
export interface Fraction {
  readonly over: bigint;
  readonly under: bigint;
}

export const ZERO: Fraction = { over: 0n, under: 1n };
export const ONE: Fraction = { over: 1n, under: 1n };

const size = (whole: bigint): bigint => (whole < 0n ? -whole : whole);

/** The greatest whole number that divides both; that of 0 and 0 is 0. */
export function commonDivisor(a: bigint, b: bigint): bigint {
  let [more, less] = [size(a), size(b)];
  while (less > 0n) [more, less] = [less, more % less];
  return more;
}

/** The least whole number over nought that both divide; 0 where one of them is 0. */
export const commonMultiple = (a: bigint, b: bigint): bigint =>
  a === 0n || b === 0n ? 0n : size(a * b) / commonDivisor(a, b);

/** The fraction of two whole numbers, in lowest terms; null where the lower is nought. */
export function fraction(over: bigint, under: bigint): Fraction | null {
  if (under === 0n) return null;
  const divisor = commonDivisor(over, under) * (under < 0n ? -1n : 1n);
  return { over: over / divisor, under: under / divisor };
}

const lowest = (over: bigint, under: bigint): Fraction => fraction(over, under) ?? ZERO;

/** A whole number as a fraction; null for a figure that is not whole. */
export const whole = (figure: number): Fraction | null =>
  Number.isSafeInteger(figure) ? { over: BigInt(figure), under: 1n } : null;

/** `a/b` of whole numbers such as teeth; null where they are not whole or `b` is nought. */
export const ratioOf = (a: number, b: number): Fraction | null =>
  Number.isSafeInteger(a) && Number.isSafeInteger(b) ? fraction(BigInt(a), BigInt(b)) : null;

/**
 * The fraction that a decimal number is written as: 22.5 is 45/2, not the binary number next to it. Null where the text
 * is no plain decimal number.
 */
export function decimalFraction(text: string): Fraction | null {
  const [all, sign, before = "", after = ""] =
    /^([-+−]?)(\d{1,40})(?:\.(\d{1,40}))?$/u.exec(text.trim()) ?? [];
  if (all === undefined) return null;
  const size = lowest(BigInt(before + after), 10n ** BigInt(after.length));
  return sign === "-" || sign === "−" ? negated(size) : size;
}

/** A ratio as it is written, `1/2` or `0.5`; null where it is neither, or the divisor is nought. */
export function ratioIn(text: string): Fraction | null {
  const [over, under, ...more] = text.split("/").map(decimalFraction);
  if (!over || more.length > 0 || under === null) return null;
  return under === undefined ? over : dividedBy(over, under);
}

export const plus = (a: Fraction, b: Fraction): Fraction =>
  lowest(a.over * b.under + b.over * a.under, a.under * b.under);
export const negated = ({ over, under }: Fraction): Fraction => ({ over: -over, under });
export const less = (a: Fraction, b: Fraction): Fraction => plus(a, negated(b));
export const times = (a: Fraction, b: Fraction): Fraction => lowest(a.over * b.over, a.under * b.under);
/** Null where the divisor is nought. */
export const dividedBy = (a: Fraction, b: Fraction): Fraction | null =>
  fraction(a.over * b.under, a.under * b.over);
export const equal = (a: Fraction, b: Fraction): boolean => a.over === b.over && a.under === b.under;
/** Below nought, nought or over nought, as `a` is less than, equal to or more than `b`. */
export const compare = (a: Fraction, b: Fraction): number => {
  const difference = a.over * b.under - b.over * a.under;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
};
export const absolute = ({ over, under }: Fraction): Fraction => ({ over: size(over), under });

/** The greatest whole number not over it. */
export function floor({ over, under }: Fraction): bigint {
  const cut = over / under;
  return over < 0n && cut * under !== over ? cut - 1n : cut;
}

/** What is left of it over whole multiples of `step` (over nought): from 0 up to the step. */
export function remainder(of: Fraction, step: Fraction): Fraction {
  const steps = dividedBy(of, step);
  return steps === null ? of : less(of, times(step, { over: floor(steps), under: 1n }));
}

/** An angle as part of a turn: from 0 up to 1. */
export const partOfTurn = (turns: Fraction): Fraction => remainder(turns, ONE);

/** The nearest ordinary number. */
export function nearestNumber({ over, under }: Fraction): number {
  const [a, b] = [Number(over), Number(under)];
  if (Number.isFinite(a) && Number.isFinite(b)) return a / b;
  const shift = BigInt(Math.max(0, over.toString(2).length - 1000, under.toString(2).length - 1000));
  return Number(over >> shift) / Number(under >> shift || 1n);
}

/** `3`, `1/2`, `-2/3`: for keys and for saying it. */
export const textOf = ({ over, under }: Fraction): string => (under === 1n ? `${over}` : `${over}/${under}`);
