/**
 * Lines → blocks. Braces decide; where they do not balance, indentation is a hint, so that one broken line leaves
 * every other line in the chain of blocks it was in. A head lost to an error leaves a headless block.
 */
import { type Context, constructs } from "./constructs";
import type { Line } from "./statement";

/** A head with what stands under it; `head` is null where the head was lost. */
export interface Block {
  readonly type: "block";
  readonly head: Line | null;
  readonly children: readonly Node[];
  /** How many lines the block takes, head and closing brace included. */
  readonly lineCount: number;
  readonly closed: boolean;
}

export type Node = Line | Block;

/** What is wrong with the shape of a text, by line number from 0. */
export interface ShapeProblem {
  readonly line: number;
  readonly message: "block-not-closed" | "brace-missing" | "brace-stray" | "block-not-here" | "too-deep";
}

/** A text as a tree. */
export interface Tree {
  readonly children: readonly Node[];
  readonly problems: readonly ShapeProblem[];
}

export const DEEPEST = 32;

export function isBlock(node: Node): node is Block {
  return "children" in node;
}

interface OpenBlock {
  head: Line | null;
  headLine: number;
  indent: number;
  children: Node[];
  lines: number;
}

type Problems = ShapeProblem[];

/** Assembles lines into blocks; never fails. Blocks of `before` that did not change are used again. */
export function assemble(lines: readonly Line[], before?: Tree): Tree {
  const byBraces = assembleByBraces(lines);
  const tree = byBraces.unbalanced && indentationHolds(lines) ? assembleByIndent(lines) : byBraces.tree;
  return before ? shareWith(before, tree) : tree;
}

const wantsBlock = (line: Line): boolean => line.kind === "statement" && constructs.get(line.head)?.block === "must";
const mayHaveBlock = (line: Line): boolean => {
  if (line.kind === "broken" && (line.head === "" || line.head.startsWith("+"))) return line.head === "";
  return (constructs.get(line.head)?.block ?? (line.head === "+pulley" ? "may" : "never")) !== "never";
};

/** How far out a head closes what is open: a section ends a step, a procedure ends a section. */
const LEVELS: Readonly<Record<string, number>> = { machine: 1, procedure: 1, section: 2, step: 3, check: 3 };
const level = (line: Line | null): number | undefined => (line ? LEVELS[line.head] : undefined);

function newRoot(): OpenBlock {
  return { head: null, headLine: -1, indent: -1, children: [], lines: 0 };
}

/** Closes the innermost block into its parent. */
function closeTop(stack: OpenBlock[], closed: boolean, problems: Problems): void {
  const top = stack.pop() as OpenBlock;
  const parent = stack[stack.length - 1] as OpenBlock;
  parent.children.push({ type: "block", head: top.head, children: top.children, lineCount: top.lines, closed });
  parent.lines += top.lines;
  if (!closed && top.head) problems.push({ line: top.headLine, message: "block-not-closed" });
}

function checkHead(line: Line, at: number, problems: Problems): void {
  if (line.opens && line.kind === "statement" && !mayHaveBlock(line)) problems.push({ line: at, message: "block-not-here" });
}

function assembleByBraces(lines: readonly Line[]): { tree: Tree; unbalanced: boolean } {
  const stack = [newRoot()];
  const problems: Problems = [];
  const top = (): OpenBlock => stack[stack.length - 1] as OpenBlock;
  for (let at = 0; at < lines.length; at++) {
    const line = lines[at] as Line;
    if (line.kind === "close") {
      if (stack.length === 1) {
        problems.push({ line: at, message: "brace-stray" });
        top().children.push(line);
        top().lines++;
        continue;
      }
      top().children.push(line);
      top().lines++;
      closeTop(stack, true, problems);
      continue;
    }
    const own = level(line);
    if (own !== undefined) closeDownTo(stack, own, problems);
    checkHead(line, at, problems);
    const opens = line.opens || wantsBlock(line);
    if (opens && !line.opens) problems.push({ line: at, message: "brace-missing" });
    if (opens && stack.length > DEEPEST) {
      problems.push({ line: at, message: "too-deep" });
      top().children.push(line);
      top().lines++;
    } else if (opens) {
      stack.push({ head: line, headLine: at, indent: line.indent, children: [], lines: 1 });
    } else {
      top().children.push(line);
      top().lines++;
    }
  }
  while (stack.length > 1) closeTop(stack, false, problems);
  return { tree: { children: top().children, problems }, unbalanced: problems.length > 0 };
}

function closeDownTo(stack: OpenBlock[], own: number, problems: Problems): void {
  let outer = -1;
  for (let i = 1; i < stack.length; i++) {
    const open = level((stack[i] as OpenBlock).head);
    if (open !== undefined && open >= own) {
      outer = i;
      break;
    }
  }
  if (outer < 0) return;
  while (stack.length > outer) closeTop(stack, false, problems);
}

/** Whether most closing braces stand under the head they close, so that indentation may be trusted. */
function indentationHolds(lines: readonly Line[]): boolean {
  const open: number[] = [];
  let closes = 0;
  let matched = 0;
  let indented = 0;
  for (const line of lines) {
    if (line.kind === "blank" || line.kind === "comment") continue;
    if (line.indent > 0) indented++;
    if (line.kind === "close") {
      closes++;
      while (open.length > 0 && (open[open.length - 1] as number) > line.indent) open.pop();
      if (open[open.length - 1] === line.indent) {
        matched++;
        open.pop();
      }
    } else if (line.opens) open.push(line.indent);
  }
  return indented > 0 && matched * 5 >= closes * 4;
}

/** The step of indentation: the least by which a line stands deeper than a head before it. */
function indentStep(lines: readonly Line[]): number {
  const counts = new Map<number, number>();
  let head: Line | null = null;
  for (const line of lines) {
    if (line.kind === "blank" || line.kind === "comment") continue;
    if (head && line.indent > head.indent) counts.set(line.indent - head.indent, (counts.get(line.indent - head.indent) ?? 0) + 1);
    head = line.opens ? line : null;
  }
  let best = 2;
  let most = 0;
  for (const [step, count] of counts) if (count > most) [best, most] = [step, count];
  return best;
}

function assembleByIndent(lines: readonly Line[]): Tree {
  const step = indentStep(lines);
  const stack = [newRoot()];
  const problems: Problems = [];
  const top = (): OpenBlock => stack[stack.length - 1] as OpenBlock;
  const add = (line: Line): void => {
    top().children.push(line);
    top().lines++;
  };
  for (let at = 0; at < lines.length; at++) {
    const line = lines[at] as Line;
    if (line.kind === "blank" || line.kind === "comment") {
      add(line);
    } else if (line.kind === "close") {
      while (stack.length > 1 && top().indent > line.indent) closeTop(stack, false, problems);
      if (stack.length > 1 && top().indent === line.indent) {
        add(line);
        closeTop(stack, true, problems);
      } else {
        problems.push({ line: at, message: "brace-stray" });
        add(line);
      }
    } else {
      while (stack.length > 1 && top().indent >= line.indent) closeTop(stack, false, problems);
      const expected = stack.length === 1 ? 0 : top().indent + step;
      if (line.indent > expected && stack.length <= DEEPEST) openLostHead(stack, expected, at, problems);
      checkHead(line, at, problems);
      if (wantsBlock(line) && !line.opens) problems.push({ line: at, message: "brace-missing" });
      if ((line.opens || wantsBlock(line)) && stack.length <= DEEPEST) {
        stack.push({ head: line, headLine: at, indent: line.indent, children: [], lines: 1 });
      } else {
        if (line.opens) problems.push({ line: at, message: "too-deep" });
        add(line);
      }
    }
  }
  while (stack.length > 1) closeTop(stack, false, problems);
  return { children: top().children, problems };
}

/** A line stands deeper than its block: the line before it lost its brace, or the head between is gone. */
function openLostHead(stack: OpenBlock[], indent: number, at: number, problems: Problems): void {
  const parent = stack[stack.length - 1] as OpenBlock;
  let last = parent.children.length - 1;
  const passable = (node: Node | undefined): boolean => !!node && !isBlock(node) && (node.kind === "blank" || node.kind === "comment");
  while (passable(parent.children[last])) last--;
  const candidate = parent.children[last];
  if (candidate && !isBlock(candidate) && candidate.kind !== "close" && candidate.kind !== "prose" && candidate.indent === indent && mayHaveBlock(candidate)) {
    const moved = parent.children.splice(last);
    parent.lines -= moved.length;
    const headLine = at - moved.length;
    if (candidate.kind === "statement") problems.push({ line: headLine, message: "brace-missing" });
    stack.push({ head: candidate, headLine, indent, children: moved.slice(1), lines: moved.length });
    return;
  }
  stack.push({ head: null, headLine: at, indent, children: [], lines: 0 });
}

/** What a node's children may be, from the head of the block; `same` is resolved by the caller. */
export function contextOf(head: Line | null): Context | "same" | undefined {
  if (!head) return undefined;
  return head.head === "+pulley" ? "pulley" : constructs.get(head.head)?.holds;
}

/** Puts blocks of the old tree in place of equal new ones, so that what was worked out for them stands. */
function shareWith(before: Tree, after: Tree): Tree {
  const known = new Map<Line | null, Block[]>();
  const collect = (nodes: readonly Node[]): void => {
    for (const node of nodes) {
      if (!isBlock(node)) continue;
      const list = known.get(node.head);
      if (list) list.push(node);
      else known.set(node.head, [node]);
      collect(node.children);
    }
  };
  collect(before.children);
  const used = new Map<Line | null, number>();
  const share = (node: Node): Node => {
    if (!isBlock(node)) return node;
    const children = node.children.map(share);
    const list = known.get(node.head) ?? [];
    const from = used.get(node.head) ?? 0;
    // Equal heads come in the order of the text, so the next unused one is nearly always the one.
    for (let i = from; i < Math.min(list.length, from + 4); i++) {
      const old = list[i] as Block;
      if (old.closed === node.closed && sameNodes(old.children, children)) {
        used.set(node.head, i + 1);
        return old;
      }
    }
    used.set(node.head, from + 1);
    return { ...node, children };
  };
  return { children: after.children.map(share), problems: after.problems };
}

function sameNodes(a: readonly Node[], b: readonly Node[]): boolean {
  return a.length === b.length && a.every((node, i) => node === b[i]);
}
