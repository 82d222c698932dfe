/**
 * Lines → blocks where the braces balance. With the tree of an earlier text, blocks outside the change are taken over
 * whole, so that an edit costs what it changed.
 */
import type { Line } from "./statement";
import {
  type Block,
  blockOf,
  DEEPEST,
  isBlock,
  levelOf,
  mustOpen,
  type Node,
  type ShapeProblem,
  sizeOf,
  type Tree,
} from "./tree";

/** An earlier text whose braces balanced, with its tree. */
export interface Earlier {
  readonly lines: readonly Line[];
  readonly tree: Tree;
}

interface Frame {
  readonly head: Line | null;
  readonly children: Node[];
  lines: number;
  /** The deepest level of a head that is open. */
  readonly level: number;
  /** The children of the same block in the earlier tree, and how far they have been passed. */
  readonly old: readonly Node[];
  passed: number;
  passedLines: number;
}

/** The tree that the braces make; null where they do not balance or a head cannot stand where they put it. */
export function assembleByBraces(lines: readonly Line[], earlier?: Earlier): Tree | null {
  const change = earlier ? changeOf(earlier.lines, lines) : null;
  const root = frame(null, 0, change ? (earlier as Earlier).tree.children : [], 0);
  const stack = [root];
  const problems: ShapeProblem[] = [];
  let skipped = 0;
  for (let at = 0; at < lines.length; ) {
    const line = lines[at] as Line;
    const top = stack[stack.length - 1] as Frame;
    const old = change ? oldNode(top, change, at) : undefined;
    if (old && isBlock(old) && outside(change as Change, top.passedLines, old)) {
      top.children.push(old);
      top.lines += old.lineCount;
      at += old.lineCount;
      continue;
    }
    at++;
    if (line.opens && line.kind === "statement" && blockOf(line) === "never")
      problems.push({ line: at - 1, message: "block-not-here" });
    if (line.kind === "close" && skipped === 0) {
      if (stack.length === 1) return null;
      top.children.push(line);
      close(stack);
    } else if (line.opens && stack.length <= DEEPEST) {
      const own = levelOf(line);
      if (own > 0 && own <= top.level) return null;
      const kept = old && isBlock(old) && old.head === line ? old.children : [];
      stack.push(frame(line, Math.max(own, top.level), kept, top.passedLines + 1));
    } else {
      if (mustOpen(line) && !line.opens) return null;
      if (line.opens && skipped++ === 0) problems.push({ line: at - 1, message: "too-deep" });
      if (line.kind === "close") skipped--;
      top.children.push(line);
      top.lines++;
    }
  }
  if (stack.length > 1 || skipped > 0) return null;
  return { children: root.children, problems, balanced: true };
}

function frame(head: Line | null, level: number, old: readonly Node[], passedLines: number): Frame {
  return { head, children: [], lines: 1, level, old, passed: 0, passedLines };
}

function close(stack: Frame[]): void {
  const { head, children, lines } = stack.pop() as Frame;
  const parent = stack[stack.length - 1] as Frame;
  const lineCount = lines + 1;
  const block: Block = { type: "block", head, children, lineCount, closed: true };
  parent.children.push(block);
  parent.lines += lineCount;
}

/** The lines of a text that an edit changed: from `start`, up to `oldEnd` before it and `newEnd` after it. */
interface Change {
  readonly start: number;
  readonly oldEnd: number;
  readonly newEnd: number;
}

function changeOf(before: readonly Line[], after: readonly Line[]): Change {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  let same = 0;
  while (same < most - start && before[before.length - 1 - same] === after[after.length - 1 - same]) same++;
  return { start, oldEnd: before.length - same, newEnd: after.length - same };
}

/** The node of the earlier tree that began at the line now at `at`, in the same block; its line is `passedLines`. */
function oldNode(top: Frame, change: Change, at: number): Node | undefined {
  if (at >= change.start && at < change.newEnd) return undefined;
  const was = at < change.start ? at : at - change.newEnd + change.oldEnd;
  while (top.passed < top.old.length && top.passedLines < was) {
    top.passedLines += sizeOf(top.old[top.passed] as Node);
    top.passed++;
  }
  return top.passedLines === was ? top.old[top.passed] : undefined;
}

function outside(change: Change, from: number, block: Block): boolean {
  return from + block.lineCount <= change.start || from >= change.oldEnd;
}
