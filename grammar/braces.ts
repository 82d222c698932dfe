/**
 * Lines → blocks where the braces balance. With the tree of an earlier text, blocks outside the change are taken over
 * whole, so that an edit costs what it changed.
 */
import {
  type Around,
  endsSoundly,
  heightOf,
  isKnownSound,
  isSound,
  keepSound,
  knownSound,
  mayBeSound,
  within,
} from "./sound";
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

interface Frame extends Around {
  readonly children: Node[];
  lines: number;
  height: number;
  sound: boolean;
  /** The children of the same block in the earlier tree, and how far they have been passed. */
  readonly old: readonly Node[];
  passed: number;
  passedLines: number;
}

const FILE: Around = { head: null, context: "file", level: 0 };

/** The tree that the braces make; null where they do not balance or a head cannot stand where they put it. */
export function assembleByBraces(lines: readonly Line[], earlier?: Earlier): Tree | null {
  const change = earlier ? changeOf(earlier.lines, lines) : null;
  const root = frame(FILE, change ? (earlier as Earlier).tree.children : [], 0);
  const stack = [root];
  const problems: ShapeProblem[] = [];
  let skipped = 0;
  for (let at = 0; at < lines.length; ) {
    const line = lines[at] as Line;
    const top = stack[stack.length - 1] as Frame;
    const level = levelOf(line);
    if (line.opens && level > 0 && level <= top.level && stack.length <= DEEPEST) return null;
    const old = change ? oldNode(top, change, at) : undefined;
    const whole = wholeBlock(lines, at, stack, change, old);
    if (line.kind !== "close" && !isSound(line, top)) top.sound = false;
    if (whole) {
      addBlock(top, whole, lines, at);
      at += whole.lineCount;
      continue;
    }
    at++;
    if (line.opens && line.kind === "statement" && blockOf(line) === "never")
      problems.push({ line: at - 1, message: "block-not-here" });
    if (line.kind === "close" && skipped === 0) {
      if (stack.length === 1) return null;
      close(stack, lines, at);
    } else if (line.opens && stack.length <= DEEPEST) {
      const kept = old && isBlock(old) && old.head === line ? old.children : [];
      stack.push(frame(within(line, top), kept, top.passedLines + 1));
    } else {
      if (mustOpen(line) && !line.opens) return null;
      if (line.opens && skipped++ === 0) problems.push({ line: at - 1, message: "too-deep" });
      if (line.kind === "close") skipped--;
      if (line.opens) top.sound = false;
      top.children.push(line);
      top.lines++;
    }
  }
  if (stack.length > 1 || skipped > 0) return null;
  return { children: root.children, problems, balanced: true };
}

function frame({ head, context, level }: Around, old: readonly Node[], passedLines: number): Frame {
  const sound = head !== null && mayBeSound(head);
  // Every field by name: copying the rest of an object is slow, and this is done for every block.
  return { head, context, level, children: [], lines: 1, height: 1, sound, old, passed: 0, passedLines };
}

/** A block that is taken over as it is: one of the earlier tree outside the change, or one that is known as sound. */
function wholeBlock(
  lines: readonly Line[],
  at: number,
  stack: readonly Frame[],
  change: Change | null,
  old: Node | undefined,
): Block | undefined {
  const top = stack[stack.length - 1] as Frame;
  if (old && change && isBlock(old) && outside(change, top.passedLines, old)) return old;
  if (!lines[at]?.opens) return undefined;
  const known = knownSound(lines, at, top);
  return known && stack.length + heightOf(known) <= DEEPEST + 1 ? known : undefined;
}

function addBlock(frame: Frame, block: Block, lines: readonly Line[], at: number): void {
  frame.children.push(block);
  frame.lines += block.lineCount;
  frame.height = Math.max(frame.height, heightOf(block) + 1);
  if (frame.sound && !(isKnownSound(block, frame) && endsSoundly(block, lines, at))) frame.sound = false;
}

/** Closes the innermost block; its `}` stands before line `end`. */
function close(stack: Frame[], lines: readonly Line[], end: number): void {
  const { head, children, lines: count, sound, height } = stack.pop() as Frame;
  const parent = stack[stack.length - 1] as Frame;
  children.push(lines[end - 1] as Line);
  const block: Block = { type: "block", head, children, lineCount: count + 1, closed: true };
  if (sound) keepSound(block, parent, height);
  addBlock(parent, block, lines, end - block.lineCount);
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
