/**
 * Lines → blocks. Braces decide; where they do not balance the tree is mended, so that one broken line leaves every
 * other line in the chain of blocks it was in. A head lost to an error leaves a headless block.
 */
import { assembleByBraces, type Earlier } from "./braces";
import { mend } from "./mend";
import { shareWith } from "./share";
import type { Line } from "./statement";
import type { Tree } from "./tree";

export { type Block, contextOf, DEEPEST, isBlock, type Node, type ShapeProblem, type Tree } from "./tree";

/** Assembles lines into blocks; never fails. Blocks of `before` that did not change are used again. */
export function assemble(lines: readonly Line[], before?: Tree): Tree {
  const tree = assembleByBraces(lines) ?? mend(lines);
  return before ? shareWith(before, tree) : tree;
}

/** As `assemble`, from an earlier text and its tree: only what changed between the two is assembled anew. */
export function reassemble(lines: readonly Line[], earlier: Earlier): Tree {
  const { tree: before } = earlier;
  // Problems carry line numbers, so a tree with any is made afresh.
  const usable = before.balanced && before.problems.length === 0;
  const tree = assembleByBraces(lines, usable ? earlier : undefined) ?? mend(lines);
  return shareWith(before, tree);
}
