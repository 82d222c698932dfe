/**
 * Blocks of an indented text that are sound in themselves: their braces balance, their closing brace stands under their
 * head, every line in them may stand there, and so may the line behind them. Mending leaves them whole, so it costs what
 * is near the slip.
 */
import type { Context } from "../constructs";
import { isSaid } from "../layout";
import type { Line } from "../statement";
import {
  type Block,
  blockOf,
  contextOf,
  DEEPEST,
  fits,
  levelOf,
  mayStandTogether,
  mustOpen,
  type Node,
} from "../tree";
import { heightOf, keepSound, knownSound } from "./sound";

interface Frame {
  readonly head: Line | null;
  readonly at: number;
  readonly context: Context | undefined;
  readonly level: number;
  readonly children: Node[];
  lines: number;
  height: number;
  sound: boolean;
}

/** The sound blocks of a text by the line of their head; of those within others perhaps only the outer ones. */
export function solidBlocks(lines: readonly Line[]): Map<number, Block> {
  const solids = new Map<number, Block>();
  const stack = [ROOT()];
  for (let at = 0; at < lines.length; ) {
    const line = lines[at] as Line;
    const top = stack[stack.length - 1] as Frame;
    const known = line.opens ? knownSound(lines, at, top.context, top.level) : undefined;
    if (known && stack.length + heightOf(known) <= DEEPEST && endsSoundly(known, lines, at)) {
      add(top, known);
      solids.set(at, known);
      at += known.lineCount;
      continue;
    }
    at++;
    if (line.kind === "close" && stack.length > 1) {
      stack.pop();
      addLine(top, line);
      const parent = stack[stack.length - 1] as Frame;
      const block = top.sound ? blockOfFrame(top, parent) : undefined;
      if (block && endsSoundly(block, lines, top.at)) {
        add(parent, block);
        solids.set(top.at, block);
      } else parent.sound = false;
      continue;
    }
    if (isSaid(line) && !isSound(line, top)) top.sound = false;
    if (line.opens && stack.length <= DEEPEST) stack.push(open(line, at - 1, top));
    else addLine(top, line);
  }
  return solids;
}

const ROOT = (): Frame => {
  return { head: null, at: 0, context: "file", level: 0, children: [], lines: 0, height: 0, sound: false };
};

function addLine(frame: Frame, line: Line): void {
  if (line.opens) frame.sound = false;
  frame.children.push(line);
  frame.lines++;
}

function add(frame: Frame, block: Block): void {
  frame.children.push(block);
  frame.lines += block.lineCount;
  frame.height = Math.max(frame.height, heightOf(block) + 1);
}

function blockOfFrame({ head, children, lines, height }: Frame, { context, level }: Frame): Block {
  const block: Block = { type: "block", head, children, lineCount: lines, closed: true };
  keepSound(block, { context, level, height });
  return block;
}

function open(head: Line, at: number, { context, level }: Frame): Frame {
  const holds = contextOf(head);
  return {
    head,
    at,
    context: holds === "same" ? context : holds,
    level: Math.max(level, levelOf(head)),
    children: [],
    lines: 1,
    height: 1,
    sound: head.kind === "statement" && blockOf(head) !== "never",
  };
}

/** Whether a line stands rightly in a block, as far as can be seen of it. */
function isSound(line: Line, { head, context, level }: Frame): boolean {
  if (line.kind === "broken" || (mustOpen(line) && !line.opens) || !fits(line, context)) return false;
  const own = levelOf(line);
  return (own === 0 || own > level) && (!head || line.indent > head.indent);
}

/** Whether a block's brace stands under its head, and the next line may stand behind it. */
function endsSoundly({ head, children, lineCount }: Block, lines: readonly Line[], at: number): boolean {
  const close = children[children.length - 1] as Line;
  if (!head || close.indent !== head.indent) return false;
  const next = nextSaid(lines, at + lineCount);
  if (!next) return true;
  if (next.kind === "close") return next.indent < head.indent;
  return mayStandTogether(head, next) && next.indent === head.indent;
}

function nextSaid(lines: readonly Line[], from: number): Line | undefined {
  let at = from;
  while (at < lines.length && !isSaid(lines[at] as Line)) at++;
  return lines[at];
}
