/**
 * What the rules about braces and blocks share: the problems of a file's shape that carry one code.
 */
import { type Block, isBlock, type Node, type ShapeProblem } from "../../grammar";
import type { FileModel, Place } from "../model";

/** A problem of a file's shape: where its line is, and the text of that line. */
export interface ShapeFault {
  readonly place: Place;
  readonly text: string;
  /** The block that begins on this line, with the line after its last. */
  readonly block: { readonly node: Block; readonly end: number } | null;
}

/** The shape problems of a file with this message, in order. */
export function shapeFaults(file: FileModel, message: ShapeProblem["message"]): ShapeFault[] {
  const problems = file.document.tree.problems.filter((p) => p.message === message);
  return problems.map(({ line }) => {
    const text = file.document.lines[line]?.text ?? "";
    const comment = file.document.lines[line]?.comment;
    const code = text.slice(0, comment?.start ?? text.length).trimEnd();
    const place = { file: file.path, line, start: text.length - text.trimStart().length, end: code.length };
    return { place, text: code.trim(), block: blockAt(file.document.tree.children, 0, line) };
  });
}

/** The place just behind the last sign of a line, where a brace can be added. */
export function endOf(place: Place): Place {
  return { ...place, start: place.end };
}

function blockAt(nodes: readonly Node[], from: number, line: number): ShapeFault["block"] {
  let row = from;
  for (const node of nodes) {
    const lines = isBlock(node) ? node.lineCount : 1;
    if (isBlock(node) && line < row + lines) {
      if (row === line && node.head) return { node, end: row + lines };
      return blockAt(node.children, row + (node.head ? 1 : 0), line);
    }
    row += lines;
    if (row > line) return null;
  }
  return null;
}
