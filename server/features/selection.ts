/**
 * What may be selected around a place, from the word outwards: what fills a slot, the clause, the line, the block.
 */
import type { Position } from "../../grammar";
import type { FileModel } from "../model";
import { blocksAround, lineAt } from "./cursor";

/** A stretch of a text, over lines or not. */
export interface Selection {
  readonly start: Position;
  readonly end: Position;
}

/** Stretches around a position, each within the next, the innermost first; none on a line that is not there. */
export function selections(file: FileModel, position: Position): readonly Selection[] {
  const line = lineAt(file, position.line);
  if (!line) return [];
  const { lines } = file.document;
  const endOf = (row: number): Position => ({ line: row, character: lines[row]?.text.length ?? 0 });
  const onLine = (start: number, end: number): Selection => ({
    start: { line: position.line, character: start },
    end: { line: position.line, character: end },
  });
  const phrases = line.statement?.phrases ?? [];
  const spans = [
    wordAround(line.text, position.character),
    ...phrases.flatMap((p) => p.slots.flatMap(({ span }) => [inQuotes(line.text, span), span])),
    ...phrases.map((p) => p.span),
    { start: line.indent, end: line.text.trimEnd().length },
    { start: 0, end: line.text.length },
  ];
  const own = spans
    .filter((s) => s.start <= position.character && position.character <= s.end && s.start < s.end)
    .map((s) => onLine(s.start, s.end));
  const blocks = [...blocksAround(file.document.tree, position.line)].reverse().flatMap(({ block, row }) => {
    const last = row + block.lineCount - 1;
    const first = block.head ? row + 1 : row;
    const inner = block.closed ? last - 1 : last;
    const inside = { start: { line: first, character: 0 }, end: endOf(inner) };
    const whole = { start: { line: row, character: 0 }, end: endOf(last) };
    return first <= position.line && position.line <= inner ? [inside, whole] : [whole];
  });
  const all = { start: { line: 0, character: 0 }, end: endOf(lines.length - 1) };
  return growing([...own, ...blocks, all]);
}

/** Each stretch that is larger than the one before and holds it. */
function growing(found: readonly Selection[]): readonly Selection[] {
  const kept: Selection[] = [];
  for (const one of found) {
    const before = kept.at(-1);
    if (!before || (holds(one, before) && !holds(before, one))) kept.push(one);
  }
  return kept;
}

const atMost = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character <= b.character);
const holds = (a: Selection, b: Selection): boolean => atMost(a.start, b.start) && atMost(b.end, a.end);

interface Span {
  readonly start: number;
  readonly end: number;
}

function wordAround(text: string, character: number): Span {
  const before = /[\p{L}\p{M}\p{N}_-]*$/u.exec(text.slice(0, character))?.[0].length ?? 0;
  const behind = /^[\p{L}\p{M}\p{N}_-]*/u.exec(text.slice(character))?.[0].length ?? 0;
  return { start: Math.min(character, text.length) - before, end: character + behind };
}

function inQuotes(text: string, span: Span): Span {
  const quoted = span.end - span.start > 1 && text[span.start] === '"' && text[span.end - 1] === '"';
  return quoted ? { start: span.start + 1, end: span.end - 1 } : span;
}
