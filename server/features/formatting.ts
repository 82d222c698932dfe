/**
 * Formatting: the least edits that bring a text into its usual form, a line at a time, so that an editor keeps its
 * cursor, its folds and its marks.
 */
import { type Document, type Edit, formatDocument, type SpellUnit } from "../../grammar";

/**
 * The edits that format a document, in the order of its lines; none where it is formatted. Null where its braces do
 * not balance: nobody can tell where its lines belong, and it is left as it is.
 */
export function formatting(document: Document, spell: SpellUnit): readonly Edit[] | null {
  if (!document.tree.balanced) return null;
  const { bom, eol } = document.shape;
  const printed = formatDocument(document, spell);
  return editsTo(document, printed.slice(bom ? 1 : 0).split(eol));
}

/** Every line is printed as one line, but for blank ones that go. */
function editsTo({ lines, shape }: Document, printed: readonly string[]): Edit[] {
  const edits: Edit[] = [];
  let at = 0;
  let line = 0;
  while (line < lines.length) {
    const { kind, text } = lines[line] as { kind: string; text: string };
    const goes = kind === "blank" && printed[at] !== "";
    if (!goes) {
      const change = lineEdit(line, text, printed[at++] ?? "");
      if (change) edits.push(change);
      line++;
      continue;
    }
    const first = line;
    while (line < lines.length && lines[line]?.kind === "blank") line++;
    edits.push(removal(lines, first, line));
  }
  if (at < printed.length) edits.push(ending(lines, printed.slice(at), shape.eol));
  return edits;
}

/** Changes only the stretch of a line between what is the same at its start and at its end. */
function lineEdit(line: number, before: string, after: string): Edit | null {
  if (before === after) return null;
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  let same = 0;
  while (same < most - start && before[before.length - 1 - same] === after[after.length - 1 - same]) same++;
  return {
    start: { line, character: start },
    end: { line, character: before.length - same },
    text: after.slice(start, after.length - same),
  };
}

/** Takes lines away, the last line of the text with the line end before it. */
function removal(lines: Document["lines"], first: number, end: number): Edit {
  if (end < lines.length)
    return { start: { line: first, character: 0 }, end: { line: end, character: 0 }, text: "" };
  const before = Math.max(0, first - 1);
  return {
    start: { line: before, character: first === 0 ? 0 : (lines[before]?.text.length ?? 0) },
    end: { line: end - 1, character: lines[end - 1]?.text.length ?? 0 },
    text: "",
  };
}

/** Adds what stands behind the last line: the line end that is missing. */
function ending(lines: Document["lines"], more: readonly string[], eol: string): Edit {
  const last = { line: lines.length - 1, character: lines[lines.length - 1]?.text.length ?? 0 };
  return { start: last, end: last, text: eol + more.join(eol) };
}
