/**
 * Sound blocks: their braces balance, every line in them may stand there and stands deeper than its head, and blocks in
 * them are sound and end under their head. What is sound is kept with the block, so that reading the next text passes
 * over it; that changes how fast a text is read and never what is read.
 */
import type { Context } from "./constructs";
import { isSaid } from "./layout";
import type { Line } from "./statement";
import { type Block, blockOf, contextOf, fits, isBlock, levelOf, mayStandTogether, mustOpen } from "./tree";

/** What a line's soundness depends on: the block around it, its kind, and the deepest level of a head that is open. */
export interface Around {
  readonly head: Line | null;
  readonly context: Context | undefined;
  readonly level: number;
}

/** What the lines of a head's block stand in. */
export function within(head: Line, { context, level }: Around): Around {
  const holds = contextOf(head);
  return { head, context: holds === "same" ? context : holds, level: Math.max(level, levelOf(head)) };
}

/** Whether a line stands rightly in a block, as far as can be seen of it, and deeper than its head. */
export function isSound(line: Line, { head, context, level }: Around): boolean {
  if (!isSaid(line)) return true;
  if (line.kind === "broken" || (mustOpen(line) && !line.opens) || !fits(line, context)) return false;
  const own = levelOf(line);
  return (own === 0 || own > level) && (!head || line.indent > head.indent);
}

/** Whether a head may have a sound block. */
export function mayBeSound(head: Line): boolean {
  return head.kind === "statement" && blockOf(head) !== "never";
}

interface Soundness {
  readonly context: Context | undefined;
  readonly level: number;
  /** How many blocks deep it is. */
  readonly height: number;
}

const soundness = new WeakMap<Block, Soundness>();
/** The block last found under a head. */
const lastUnder = new WeakMap<Line, Block>();

/** Remembers a block as sound in the block around it. */
export function keepSound(block: Block, { context, level }: Around, height: number): void {
  keep(block, { context, level, height });
}

function keep(block: Block, known: Soundness): void {
  soundness.set(block, known);
  if (block.head) lastUnder.set(block.head, block);
}

/** The block that begins at a line, where it is known as sound in the block around it. */
export function knownSound(
  lines: readonly Line[],
  at: number,
  { context, level }: Around,
): Block | undefined {
  const block = lastUnder.get(lines[at] as Line);
  const known = block && soundness.get(block);
  if (!known || known.context !== context || known.level !== level) return undefined;
  return isAt(block, lines, at) ? block : undefined;
}

/** Whether a block is known as sound in the block around it. */
export function isKnownSound(block: Block, { context, level }: Around): boolean {
  const known = soundness.get(block);
  return known !== undefined && known.context === context && known.level === level;
}

/** How many blocks deep a sound block is. */
export function heightOf(block: Block): number {
  return soundness.get(block)?.height ?? 0;
}

/** Takes an equal block in place of one that was made anew, and what is known of it with it. */
export function adopt(made: Block, instead: Block): Block {
  const known = soundness.get(made);
  if (known) keep(instead, known);
  return instead;
}

function isAt(block: Block, lines: readonly Line[], at: number): boolean {
  if (lines[at] !== block.head) return false;
  let line = at + 1;
  for (const node of block.children) {
    if (!isBlock(node)) {
      if (lines[line] !== node) return false;
      line++;
    } else {
      if (!isAt(node, lines, line)) return false;
      line += node.lineCount;
    }
  }
  return true;
}

/** Whether a block's brace stands under its head, and the next line may stand behind it. */
export function endsSoundly(
  { head, children, lineCount }: Block,
  lines: readonly Line[],
  at: number,
): boolean {
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
