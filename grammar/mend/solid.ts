/**
 * Blocks of an indented text that are sound, also by the line behind them. Mending leaves them whole, so it costs what is
 * near the slip.
 */
import {
  type Around,
  endsSoundly,
  heightOf,
  isSound,
  keepSound,
  knownSound,
  mayBeSound,
  within,
} from "../sound";
import type { Line } from "../statement";
import { type Block, DEEPEST, type Node } from "../tree";

interface Frame extends Around {
  readonly at: number;
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
    if (line.kind !== "close" && !isSound(line, top)) top.sound = false;
    const known = line.opens ? knownSound(lines, at, top) : undefined;
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

function blockOfFrame({ head, children, lines, height }: Frame, around: Frame): Block {
  const block: Block = { type: "block", head, children, lineCount: lines, closed: true };
  keepSound(block, around, height);
  return block;
}

function open(line: Line, at: number, around: Frame): Frame {
  const { head, context, level } = within(line, around);
  return { head, context, level, at, children: [], lines: 1, height: 1, sound: mayBeSound(line) };
}
