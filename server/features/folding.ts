/**
 * What an editor may fold away: blocks, and comments of several lines.
 */
import { isBlock, type Node } from "../../grammar";
import type { FileModel } from "../model";

/** Lines that fold into the first of them. */
export interface Fold {
  readonly line: number;
  readonly lastLine: number;
  readonly kind: "block" | "comment";
}

/** The folds of a file, in the order of their first lines. The closing brace of a block stays in sight. */
export function folding(file: FileModel): readonly Fold[] {
  const folds: Fold[] = [];
  foldNodes(file.document.tree.children, 0, folds);
  return folds;
}

function foldNodes(nodes: readonly Node[], first: number, folds: Fold[]): void {
  let row = first;
  let comments = 0;
  const endComments = (): void => {
    if (comments > 1) folds.push({ line: row - comments, lastLine: row - 1, kind: "comment" });
    comments = 0;
  };
  for (const node of nodes) {
    if (!isBlock(node)) {
      if (node.kind === "comment") comments++;
      else endComments();
      row++;
      continue;
    }
    endComments();
    const last = row + node.lineCount - 1 - (node.closed ? 1 : 0);
    if (node.head && last > row) folds.push({ line: row, lastLine: last, kind: "block" });
    foldNodes(node.children, row + (node.head ? 1 : 0), folds);
    row += node.lineCount;
  }
  endComments();
}
