/**
 * The paper that drawings share: one column of an A4 page, with notes at the foot.
 */
import { TYPE, text } from "./svg";
import { wrapped } from "./text";

/**
 * The width of a drawing, in millimetres: it fits an A4 or Letter page where a step is, also within a check, its outcome and a
 * condition in that. So it is printed as large as it is made, and its scale is true.
 */
export const PAPER = 150;

const LINE = TYPE.note * 1.35;

/** Lines of notes below `top`, from the left edge. `bottom` is where the paper may end. */
export function notesBelow(
  notes: readonly string[],
  top: number,
): { readonly svg: string; readonly bottom: number } {
  const lines = notes.flatMap((note) => wrapped(note, TYPE.note, PAPER - 2));
  const svg = lines
    .map((own, index) => text({ x: 1, y: top + LINE * (index + 0.8) }, own, TYPE.note))
    .join("");
  return { svg, bottom: top + LINE * lines.length + 1 };
}

/** Sentences one after the other, each with its full stop; empty ones are left out. */
export function sentences(...all: readonly string[]): string {
  return all
    .map((sentence) => sentence.trim())
    .filter((sentence) => sentence !== "")
    .map((sentence) => (/[.!?:。]$/u.test(sentence) ? sentence : `${sentence}.`))
    .join(" ");
}
