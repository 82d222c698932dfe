/**
 * What an editor may fold away: blocks, comments of several lines, and the files that are used.
 */
import { isBlock, type Line, type Node } from "../../grammar";
import type { FileModel } from "../model";

/** Lines that fold into the first of them. */
export interface Fold {
  readonly line: number;
  readonly lastLine: number;
  readonly kind: "block" | "comment" | "uses";
}

/** The folds of a file, in the order of their first lines. The closing brace of a block stays in sight. */
export function folding(file: FileModel): readonly Fold[] {
  const folds: Fold[] = [];
  foldNodes(file.document.tree.children, 0, folds);
  return folds;
}

function foldNodes(nodes: readonly Node[], first: number, folds: Fold[]): void {
  let row = first;
  let run: Fold["kind"] | null = null;
  let length = 0;
  const endRun = (): void => {
    if (run && length > 1) folds.push({ line: row - length, lastLine: row - 1, kind: run });
    run = null;
    length = 0;
  };
  for (const node of nodes) {
    if (!isBlock(node)) {
      const kind = runOf(node);
      if (kind !== run) endRun();
      run = kind;
      length++;
      row++;
      continue;
    }
    endRun();
    const last = row + node.lineCount - 1 - (node.closed ? 1 : 0);
    if (node.head && last > row) folds.push({ line: row, lastLine: last, kind: "block" });
    foldNodes(node.children, row + (node.head ? 1 : 0), folds);
    row += node.lineCount;
  }
  endRun();
}

/** Lines of these sorts fold when several follow each other. */
function runOf(line: Line): "comment" | "uses" | null {
  if (line.kind === "comment") return "comment";
  return line.head === "use" ? "uses" : null;
}
