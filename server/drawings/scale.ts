/**
 * From a machine's millimetres to the paper's: a round scale, and y turned down.
 */
import type { Point } from "../mechanics/belts";

/** How a thing is put on paper. */
export interface Scale {
  /** Millimetres on paper for one of the machine. */
  readonly factor: number;
  /** Size of the thing on paper, in millimetres. */
  readonly width: number;
  readonly height: number;
  /** A place of the view on paper, when the thing's upper left corner lies at `origin`. */
  readonly place: (point: Point, origin: Point) => Point;
}

/** The round figures a scale may have, times a power of ten. */
const ROUND = [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8];

/** The largest scale, 5 : 1: what is smaller still, or a single place, is not blown up further. */
const LARGEST = 5;

/** The next rounder figure at or over a ratio over nought: 1 : 2.3 becomes 1 : 2.5. */
function roundUp(ratio: number): number {
  const ten = 10 ** Math.floor(Math.log10(ratio));
  const found = ROUND.find((figure) => figure * ten >= ratio * (1 - 1e-9));
  return (found ?? 10) * ten;
}

/** A scale written as people write it: `1 : 2.5` as ["down", 2.5]. */
export function scaleWords(factor: number): { readonly way: "up" | "down"; readonly n: number } {
  return factor > 1
    ? { way: "up", n: Number(factor.toPrecision(3)) }
    : { way: "down", n: Number((1 / factor).toPrecision(3)) };
}

/**
 * The largest round scale at which everything fits into a space on the paper.
 *
 * @param circles what has to fit; a place alone has radius 0
 */
export function scaleFor(
  circles: readonly { readonly centre: Point; readonly radius: number }[],
  most: { readonly width: number; readonly height: number },
): Scale {
  const left = Math.min(...circles.map((c) => c.centre.x - c.radius));
  const right = Math.max(...circles.map((c) => c.centre.x + c.radius));
  const top = Math.max(...circles.map((c) => c.centre.y + c.radius));
  const bottom = Math.min(...circles.map((c) => c.centre.y - c.radius));
  const needed = Math.max((right - left) / most.width, (top - bottom) / most.height, 1 / LARGEST);
  const factor = 1 / roundUp(needed);
  return {
    factor,
    width: (right - left) * factor,
    height: (top - bottom) * factor,
    place: ({ x, y }, origin) => ({ x: origin.x + (x - left) * factor, y: origin.y + (top - y) * factor }),
  };
}
