/** How the kinds find lines of a procedure. */
import { headsAround, type Kind } from "../change";
import { bareLine } from "../nodes";
import { inProcedure, onLines } from "./figures";

/** The lines that look so, of those behind a line and before another. */
export function linesThat(
  lines: readonly string[],
  pattern: RegExp,
  after = -1,
  before = lines.length,
): number[] {
  return lines.flatMap((line, i) =>
    i > after && i < before && pattern.test(bareLine(line).replace(/ +/g, " ")) ? [i] : [],
  );
}

/** The next line that looks so; -1 where none is. */
export const nextThat = (lines: readonly string[], at: number, pattern: RegExp): number =>
  linesThat(lines, pattern, at)[0] ?? -1;

export const word = (name: string): string => `(?<![\\w-])${name}(?![\\w-])`;

/** A line left out, with the lines where it then shows. */
export const leftOut = (
  name: string,
  proof: string,
  pattern: RegExp,
  code: string,
  shows: (lines: readonly string[], at: number, match: RegExpExecArray) => readonly number[],
): Kind =>
  inProcedure(name, proof, pattern, [code], (lines, at, match) => ({
    edits: new Map([[at, null]]),
    lines: shows(lines, at, match),
  }));

/** A word of a line left out, found on the line. */
export const saidLess = (
  name: string,
  proof: string,
  pattern: RegExp,
  words: RegExp,
  codes: readonly string[],
): Kind => onLines(name, proof, pattern, codes, (line) => line.replace(words, ""));

/** A line changed, found at the next line that looks so. */
export function onLinesBefore(
  name: string,
  proof: string,
  pattern: RegExp,
  code: string,
  shows: RegExp,
  change: (line: string) => string,
): Kind {
  return inProcedure(name, proof, pattern, [code], (lines, at) => {
    const below = nextThat(lines, at, shows);
    // What a check asks is found at its head.
    const next = /^\s*marks /.test(lines[below] ?? "") ? (headsAround(lines, below)[0] ?? -1) : below;
    const now = change(lines[at] as string);
    // In another block it may be about something else.
    if (headsAround(lines, at)[0] !== headsAround(lines, below)[0]) return null;
    return next < 0 || now === lines[at] ? null : { edits: new Map([[at, now]]), lines: [next] };
  });
}
