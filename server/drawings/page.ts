/**
 * The paper that drawings share: one column of an A4 page, with notes at the foot.
 */
import { TYPE, text } from "./svg";
import { wrapped } from "./text";

/** The width of a drawing: a column of an A4 or Letter page, in millimetres. */
export const PAPER = 170;

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
