/**
 * What is known of blocks that were found sound: kept with the block, so that mending the next text passes over them.
 */
import type { Context } from "../constructs";
import type { Line } from "../statement";
import { type Block, isBlock } from "../tree";

/** Where a block is sound: it depends on the kind of block around it and the deepest level of a head there. */
export interface Soundness {
  readonly context: Context | undefined;
  readonly level: number;
  /** How many blocks deep it is. */
  readonly height: number;
}

const soundness = new WeakMap<Block, Soundness>();
/** The block last found under a head. */
const lastUnder = new WeakMap<Line, Block>();

/** Remembers a block as sound. */
export function keepSound(block: Block, known: Soundness): void {
  soundness.set(block, known);
  if (block.head) lastUnder.set(block.head, block);
}

/** The block that begins at a line, where it is known as sound there. */
export function knownSound(
  lines: readonly Line[],
  at: number,
  context: Context | undefined,
  level: number,
): Block | undefined {
  const block = lastUnder.get(lines[at] as Line);
  const known = block && soundness.get(block);
  if (!known || known.context !== context || known.level !== level) return undefined;
  return isAt(block, lines, at) ? block : undefined;
}

/** How many blocks deep a sound block is. */
export function heightOf(block: Block): number {
  return soundness.get(block)?.height ?? 0;
}

/** Takes an equal block in place of one that was made anew, and what is known of it with it. */
export function adopt(made: Block, instead: Block): Block {
  const known = soundness.get(made);
  if (known) keepSound(instead, known);
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
