/**
 * In which blocks each line of a text stands.
 */
import { isBlock, type Node, type Tree } from "../../grammar";

/** For each line, the line numbers of the heads around it from the outermost in; -1 for a head that is lost. */
export function chainsOf(tree: Tree): number[][] {
  const chains: number[][] = [];
  const walk = (nodes: readonly Node[], chain: number[]): void => {
    for (const node of nodes) {
      if (!isBlock(node)) chains.push(chain);
      else {
        const inside = [...chain, node.head ? chains.length : -1];
        if (node.head) chains.push(chain);
        walk(node.children, inside);
      }
    }
  };
  walk(tree.children, []);
  return chains;
}

/** The first line other than `broken` that stands in other blocks than before; a lost head may stand for the broken line. */
export function movedLine(
  before: readonly number[][],
  after: readonly number[][],
  broken: number,
): number | undefined {
  const at = before.findIndex((chain, i) => i !== broken && !sameChain(chain, after[i] ?? [], broken));
  return at < 0 ? undefined : at;
}

function sameChain(before: readonly number[], after: readonly number[], broken: number): boolean {
  return (
    before.length === after.length &&
    before.every((head, i) => after[i] === head || (head === broken && after[i] === -1))
  );
}
