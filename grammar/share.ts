/**
 * Puts blocks of an earlier tree in place of equal new ones, so that what was worked out for them stands. Blocks are
 * equal when their heads and all that stands in them are; where one moved to does not matter.
 */
import { adopt } from "./sound";
import { type Block, isBlock, type Node, type Tree } from "./tree";

/** The new tree, with every block that the earlier tree had too as the same object. */
export function shareWith(before: Tree, after: Tree): Tree {
  const sharing = new Sharing();
  sharing.collect(before.children, after.children);
  return { ...after, children: sharing.share(before.children, after.children) };
}

/** How many nodes at the front and at the back belong together: the same line, or blocks with the same head. */
function pairs(old: readonly Node[], now: readonly Node[]): { front: number; back: number } {
  const most = Math.min(old.length, now.length);
  let front = 0;
  while (front < most && isPair(old[front] as Node, now[front] as Node)) front++;
  let back = 0;
  while (back < most - front && isPair(old.at(-1 - back) as Node, now.at(-1 - back) as Node)) back++;
  return { front, back };
}

function isPair(a: Node, b: Node): boolean {
  return a === b || (isBlock(a) && isBlock(b) && a.head === b.head);
}

class Sharing {
  private readonly known = new Map<string, Block>();
  private readonly ids = new Map<Node | null, number>();
  /** The block that stands for others equal to it. */
  private readonly chosen = new Map<Block, Block>();

  /** Learns the blocks of the earlier tree that are not still in their place. */
  collect(old: readonly Node[], now: readonly Node[]): void {
    const { front, back } = pairs(old, now);
    old.forEach((node, i) => {
      const fromEnd = old.length - i;
      const partner = i < front ? now[i] : fromEnd <= back ? now[now.length - fromEnd] : undefined;
      if (!isBlock(node) || node === partner) return;
      this.collect(node.children, partner && isBlock(partner) ? partner.children : []);
      this.learn(node, node.children);
    });
  }

  /** The new nodes, with the earlier blocks in place of equal ones. */
  share(old: readonly Node[], now: readonly Node[]): readonly Node[] {
    const { front, back } = pairs(old, now);
    const shared = now.map((node, i) => {
      const fromEnd = now.length - i;
      const partner = i < front ? old[i] : fromEnd <= back ? old[old.length - fromEnd] : undefined;
      if (node === partner || !isBlock(node)) return node;
      const children = this.share(partner && isBlock(partner) ? partner.children : [], node.children);
      return adopt(node, this.learn(node, children));
    });
    return shared.every((node, i) => node === now[i]) ? now : shared;
  }

  /** The block that stands for this one with these children: an equal one that is known, else itself. */
  private learn(block: Block, children: readonly Node[]): Block {
    const parts = children.map((node) => this.idOf(isBlock(node) ? (this.chosen.get(node) ?? node) : node));
    const key = `${this.idOf(block.head)} ${block.closed} ${parts.join()}`;
    const known = this.known.get(key);
    const own = known ?? (children === block.children ? block : { ...block, children });
    if (!known) this.known.set(key, own);
    this.chosen.set(block, own);
    return own;
  }

  private idOf(node: Node | null): number {
    const id = this.ids.get(node) ?? this.ids.size;
    this.ids.set(node, id);
    return id;
  }
}
