/**
 * A file's text as lines and blocks, and what an edit makes of it. Immutable; an edit reads only the lines it
 * touches and keeps every block it leaves alone.
 */
import { assemble, reassemble, type Tree } from "./blocks";
import { parseLine } from "./line";
import type { Line } from "./statement";
import { splitText, type TextShape } from "./text";

export interface Document {
  readonly lines: readonly Line[];
  readonly shape: TextShape;
  readonly tree: Tree;
}

/** A place in a text: line from 0, and UTF-16 offset in the line. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

/** A text to put in place of a range. */
export interface Edit {
  readonly start: Position;
  readonly end: Position;
  readonly text: string;
}

/** Reads a text. Never throws. */
export function readDocument(text: string): Document {
  const { lines, shape } = splitText(text);
  const read = lines.map(parseLine);
  return { lines: read, shape, tree: assemble(read) };
}

/** The text of a document, as it would be written. */
export function documentText(document: Document): string {
  return (
    (document.shape.bom ? "\ufeff" : "") + document.lines.map((line) => line.text).join(document.shape.eol)
  );
}

/** Applies edits one after the other, each to the outcome of the one before. Positions outside are clamped. */
export function applyEdits(document: Document, edits: readonly Edit[]): Document {
  const lines = [...document.lines];
  for (const edit of edits) {
    const [start, end] = inOrder(clamp(lines, edit.start), clamp(lines, edit.end));
    const first = lines[start.line] as Line;
    const last = lines[end.line] as Line;
    const text = first.text.slice(0, start.character) + edit.text + last.text.slice(end.character);
    lines.splice(start.line, end.line - start.line + 1, ...text.split(/\r\n|\n|\r/).map(parseLine));
  }
  return { lines, shape: document.shape, tree: reassemble(lines, document) };
}

function inOrder(a: Position, b: Position): [Position, Position] {
  return a.line < b.line || (a.line === b.line && a.character <= b.character) ? [a, b] : [b, a];
}

function clamp(lines: readonly Line[], at: Position): Position {
  const line = Math.max(0, Math.min(at.line, lines.length - 1));
  const length = (lines[line] as Line).text.length;
  if (at.line > line) return { line, character: length };
  return { line, character: Math.max(0, Math.min(at.character, length)) };
}
