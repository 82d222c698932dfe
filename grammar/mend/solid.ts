/**
 * Blocks that are sound in themselves: their braces balance, their closing brace stands under their head, every line in
 * them may stand there, and so may the line behind them. Mending leaves them whole, so it costs what is near the slip.
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

/** A sound block, and how many blocks deep it is. */
export interface Solid {
  readonly block: Block;
  readonly height: number;
}

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

/** The sound blocks of a text by the line of their head, those within sound blocks too. */
export function solidBlocks(lines: readonly Line[], indented: boolean): Map<number, Solid> {
  const solids = new Map<number, Solid>();
  const root: Frame = {
    head: null,
    at: -1,
    context: "file",
    level: 0,
    children: [],
    lines: 0,
    height: 0,
    sound: false,
  };
  const stack = [root];
  for (let at = 0; at < lines.length; at++) {
    const line = lines[at] as Line;
    const top = stack[stack.length - 1] as Frame;
    if (line.kind === "close" && stack.length > 1) {
      stack.pop();
      top.children.push(line);
      top.lines++;
      const sound = top.sound && endsSoundly(top.head as Line, line, nextSaid(lines, at + 1), indented);
      addTo(stack[stack.length - 1] as Frame, top, sound ? solids : undefined);
      continue;
    }
    if (isSaid(line) && !isSound(line, top, indented)) top.sound = false;
    if (line.opens && stack.length <= DEEPEST) stack.push(open(line, at, top));
    else {
      if (line.opens) top.sound = false;
      top.children.push(line);
      top.lines++;
    }
  }
  return solids;
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
function isSound(line: Line, { head, context, level }: Frame, indented: boolean): boolean {
  if (line.kind === "broken" || (mustOpen(line) && !line.opens) || !fits(line, context)) return false;
  const own = levelOf(line);
  return (own === 0 || own > level) && (!indented || !head || line.indent > head.indent);
}

function endsSoundly(head: Line, close: Line, next: Line | undefined, indented: boolean): boolean {
  if (indented && close.indent !== head.indent) return false;
  if (!next) return true;
  if (next.kind === "close") return !indented || next.indent < head.indent;
  return mayStandTogether(head, next) && (!indented || next.indent === head.indent);
}

/** Puts a block that has ended into the one around it; a sound one among the sound ones. */
function addTo(
  parent: Frame,
  { head, at, children, lines, height }: Frame,
  solids?: Map<number, Solid>,
): void {
  parent.lines += lines;
  parent.height = Math.max(parent.height, height + 1);
  if (!solids) {
    parent.sound = false;
    return;
  }
  const block: Block = { type: "block", head, children, lineCount: lines, closed: true };
  solids.set(at, { block, height });
  parent.children.push(block);
}

function nextSaid(lines: readonly Line[], from: number): Line | undefined {
  let at = from;
  while (at < lines.length && !isSaid(lines[at] as Line)) at++;
  return lines[at];
}
