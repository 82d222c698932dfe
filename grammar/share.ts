/**
 * Puts blocks of an earlier tree in place of equal new ones, so that what was worked out for them stands.
 */
import { adopt } from "./mend/sound";
import type { Line } from "./statement";
import { type Block, isBlock, type Node, type Tree } from "./tree";

/** The new tree, with every block that the earlier tree had too as the same object. */
export function shareWith(before: Tree, after: Tree): Tree {
  const spare = new Map<Line | null, Block[]>();
  collectSpare(before.children, after.children, spare);
  return { ...after, children: shareNodes(before.children, after.children, spare) };
}

type Spare = Map<Line | null, Block[]>;

/** How many blocks with the same head are compared: more would only matter to a text of equal blocks. */
const TRIES = 16;

/** How many children at the front and at the back belong together: the same line, or blocks with the same head. */
function pairs(old: readonly Node[], now: readonly Node[]): { front: number; back: number } {
  const most = Math.min(old.length, now.length);
  let front = 0;
  while (front < most && isPair(old[front] as Node, now[front] as Node)) front++;
  let back = 0;
  while (
    back < most - front &&
    isPair(old[old.length - 1 - back] as Node, now[now.length - 1 - back] as Node)
  )
    back++;
  return { front, back };
}

function isPair(a: Node, b: Node): boolean {
  return a === b || (isBlock(a) && isBlock(b) && a.head === b.head);
}

/** Collects the blocks of the earlier tree that have no partner: they may have moved. */
function collectSpare(old: readonly Node[], now: readonly Node[], spare: Spare): void {
  const { front, back } = pairs(old, now);
  for (let i = 0; i < front; i++) collectInPair(old[i] as Node, now[i] as Node, spare);
  for (let i = 1; i <= back; i++)
    collectInPair(old[old.length - i] as Node, now[now.length - i] as Node, spare);
  for (let i = front; i < old.length - back; i++) addSpare(old[i] as Node, spare);
}

function collectInPair(a: Node, b: Node, spare: Spare): void {
  if (a !== b && isBlock(a) && isBlock(b)) collectSpare(a.children, b.children, spare);
}

function addSpare(node: Node, spare: Spare): void {
  if (!isBlock(node)) return;
  const list = spare.get(node.head);
  if (list) list.push(node);
  else spare.set(node.head, [node]);
  for (const child of node.children) addSpare(child, spare);
}

function shareNodes(old: readonly Node[], now: readonly Node[], spare: Spare): readonly Node[] {
  const { front, back } = pairs(old, now);
  const shared = now.map((node, i) => {
    const fromEnd = now.length - i;
    const partner = i < front ? old[i] : fromEnd <= back ? old[old.length - fromEnd] : undefined;
    return shareNode(node, partner, spare);
  });
  return sameNodes(shared, old) ? old : shared;
}

function shareNode(node: Node, partner: Node | undefined, spare: Spare): Node {
  if (node === partner || !isBlock(node)) return node;
  const old = partner && isBlock(partner) ? partner : undefined;
  const children = shareNodes(old?.children ?? [], node.children, spare);
  if (old && old.closed === node.closed && sameNodes(old.children, children)) return adopt(node, old);
  const list = spare.get(node.head) ?? [];
  const at = list
    .slice(0, TRIES)
    .findIndex((other) => other.closed === node.closed && sameNodes(other.children, children));
  if (at >= 0) return adopt(node, list.splice(at, 1)[0] as Block);
  return sameNodes(children, node.children) ? node : adopt(node, { ...node, children });
}

function sameNodes(a: readonly Node[], b: readonly Node[]): boolean {
  return a === b || (a.length === b.length && a.every((node, i) => node === b[i]));
}
