/**
 * What has become of a quantity: whether it still means the same, and if not, which way it went.
 */
import type { QuantityValue } from "./form";

/** What binary arithmetic may lose. */
const close = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));

/**
 * Whether two quantities mean the same, written otherwise: `40 N·m` and `40.0 N·m`, `47 N·m` and `35 lb·ft`. A figure in
 * another system of units is the same within half of the finer one's last digit; else it has to be exactly the same.
 */
export function sameAmount(a: QuantityValue, b: QuantityValue): boolean {
  if (a.shape === "unread" || b.shape === "unread") return a.text === b.text;
  if (a.shape !== b.shape || a.ends[0] !== b.ends[0] || a.ends[1] !== b.ends[1]) return false;
  const room = a.system === b.system ? 0 : Math.min(a.step, b.step) / 2;
  const figure = (x: number | null, y: number | null): boolean =>
    x === null || y === null ? x === y : close(x, y) || Math.abs(x - y) <= room * (1 + 1e-9);
  return figure(a.low, b.low) && figure(a.high, b.high) && figure(a.nominal, b.nominal);
}

/** Which way a quantity went. `percent` is how far from what it was, where that can be said. */
export type Course =
  | { readonly course: "higher" | "lower"; readonly percent: number | null }
  | { readonly course: "widened" | "narrowed" | "shifted" };

/** Which way a quantity went; null where it cannot be told. */
export function courseOf(a: QuantityValue, b: QuantityValue): Course | null {
  if (a.shape === "unread" || b.shape === "unread") return null;
  const [one, other] = [pointOf(a), pointOf(b)];
  if (one !== null && other !== null) {
    if (close(one, other)) return null;
    const percent = one > 0 ? Math.abs(other - one) / one : null;
    return {
      course: other > one ? "higher" : "lower",
      percent: percent === null ? null : Math.round(percent * 1000) / 10,
    };
  }
  const [low, high] = [end(b.low, a.low, -1), end(b.high, a.high, 1)];
  if (low === 0 && high === 0) return null;
  if (low >= 0 && high >= 0) return { course: "widened" };
  if (low <= 0 && high <= 0) return { course: "narrowed" };
  return { course: "shifted" };
}

/** The one figure of a quantity that is exact, or about. */
function pointOf({ low, high }: QuantityValue): number | null {
  return low !== null && high !== null && close(low, high) ? low : null;
}

/** Whether an end went outwards (1), inwards (-1), or stayed. An open end lies beyond all others. */
function end(now: number | null, was: number | null, outwards: 1 | -1): number {
  const [a, b] = [was ?? outwards * Number.POSITIVE_INFINITY, now ?? outwards * Number.POSITIVE_INFINITY];
  if (a === b || close(a, b)) return 0;
  return (b - a) * outwards > 0 ? 1 : -1;
}
