/**
 * Texts from files made fit for a terminal: nothing in them can steer it, and columns can be counted.
 */

const TAB = "    ";
/** Control characters, line separators, and signs that turn the direction of writing. */
const STEERS = /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}\ufeff]/gu;
const NO_WIDTH = /^(?:\p{M}|\p{Cf})$/u;
/** The wide signs of East Asian writing (the half-wide forms are not), and emoji. From memory of Unicode TR 11. */
const WIDE =
  /^(?![\uff61-\uffdc])(?:[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\u3000-\u303f\uff01-\uffe6]|\p{Emoji_Presentation})$/u;

/** A text in which nothing steers the terminal; tabs become spaces, line ends stay when asked for. */
export function harmless(text: string, keepLines = false): string {
  return text.replace(/\t/g, TAB).replace(STEERS, (sign) => (keepLines && sign === "\n" ? sign : "\ufffd"));
}

/** The columns a harmless text takes on a terminal. */
export function columns(text: string): number {
  let wide = 0;
  for (const sign of text) if (!NO_WIDTH.test(sign)) wide += WIDE.test(sign) ? 2 : 1;
  return wide;
}

/** A stretch of a line that fits a width, with marks under a part of it. */
export interface Window {
  readonly text: string;
  /** Columns before the marks, and how many marks; at least one. */
  readonly before: number;
  readonly marks: number;
}

/**
 * Cuts a line so that the part from `start` to `end` is seen.
 *
 * @param start UTF-16 offset in the line, `end` likewise, not included
 * @param most the columns there are
 */
export function windowOn(line: string, start: number, end: number, most: number): Window {
  const from = Math.max(0, Math.min(start, line.length));
  const to = Math.max(from, Math.min(end, line.length));
  const first =
    columns(harmless(line.slice(0, Math.min(from, 4 * most)))) <= most / 2 ? 0 : Math.max(0, from - 20);
  const lead = first > 0 ? "…" : "";
  const before = lead + harmless(line.slice(first, from));
  const text = lead + harmless(line.slice(first, first + 4 * most));
  const marks = columns(harmless(line.slice(from, Math.min(to, from + 4 * most))));
  return {
    text: cut(text, most),
    before: columns(before),
    marks: Math.max(1, Math.min(marks, most - columns(before))),
  };
}

/** The beginning of a text that takes at most so many columns. */
function cut(text: string, most: number): string {
  let wide = 0;
  let kept = "";
  for (const sign of text) {
    wide += columns(sign);
    if (wide > most) return `${kept}…`;
    kept += sign;
  }
  return kept;
}

/** The first sentence of a text. */
export function firstSentence(text: string): string {
  return /^.*?[.!?](?=\s|$)/s.exec(text)?.[0] ?? text;
}
