/**
 * Text as it stands in a file: split into lines and put together again without losing a byte
 * (byte order mark, kind of line end, last line with or without an end).
 */

/** A stretch of one line, as UTF-16 offsets from the line's start; `end` is not included. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** What a text looked like before it was split. */
export interface TextShape {
  readonly bom: boolean;
  readonly eol: "\n" | "\r\n";
}

/**
 * Splits a text into its lines, without line ends. LF, CRLF and a lone CR all end a line; the shape
 * remembers which of LF and CRLF the text used more, so that writing gives it back.
 */
export function splitText(text: string): { lines: string[]; shape: TextShape } {
  const bom = text.charCodeAt(0) === 0xfeff;
  const body = bom ? text.slice(1) : text;
  const lines = body.split(/\r\n|\n|\r/);
  const crlf = body.split("\r\n").length - 1;
  const lf = body.split("\n").length - 1 - crlf;
  return { lines, shape: { bom, eol: crlf > lf ? "\r\n" : "\n" } };
}

/** The inverse of {@link splitText} for a text with one kind of line end. */
export function joinText(lines: readonly string[], shape: TextShape): string {
  return (shape.bom ? "\ufeff" : "") + lines.join(shape.eol);
}
