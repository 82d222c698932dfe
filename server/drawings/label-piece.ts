/**
 * The lines of a label: how large it is, and how it is written.
 */
import type { Placed } from "./labels";
import { line, text } from "./svg";
import { widthOf, wrapped } from "./text";

/** A line of a label and the size of its type. */
export interface LabelLine {
  readonly words: string;
  readonly size: number;
}

/** From one line to the next, in sizes of type. */
const LEADING = 1.22;

/** A text as lines no wider than `most`. */
export const linesOf = (words: string, size: number, most: number): readonly LabelLine[] =>
  wrapped(words, size, most).map((own) => ({ words: own, size }));

/** The room that lines take, in millimetres. */
export function sizeOf(lines: readonly LabelLine[]): { readonly width: number; readonly height: number } {
  return {
    width: Math.max(1, ...lines.map(({ words, size }) => widthOf(words, size))),
    height: Math.max(
      1,
      lines.reduce((sum, { size }) => sum + size * LEADING, 0),
    ),
  };
}

/** A label at its place, with its leader. */
export function labelPiece({ box, leader, side }: Placed, lines: readonly LabelLine[]): string {
  const left = box.centre.x - box.halfWidth;
  const at = side === "left" ? left + 2 * box.halfWidth : side === "right" ? left : box.centre.x;
  const anchor = side === "left" ? "end" : side === "right" ? "start" : "middle";
  let base = box.centre.y - box.halfHeight;
  const words = lines.map(({ words: own, size }) => {
    base += size * LEADING;
    return text({ x: at, y: base - size * 0.3 }, own, size, { "text-anchor": anchor });
  });
  return (
    (leader ? line(leader.start, leader.end, { stroke: "#000", "stroke-width": 0.2 }) : "") + words.join("")
  );
}
