/**
 * A text as a tree of blocks and lines, and what the table of constructs says of a line's place in it.
 */
import { type Context, clausesWithin, constructs } from "./constructs";
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
  /** In the order of the lines. */
  readonly problems: readonly ShapeProblem[];
  /** The braces alone made the tree; where they do not balance, it was mended. */
  readonly balanced: boolean;
}

/** The deepest a block may stand. */
export const DEEPEST = 32;

export function isBlock(node: Node): node is Block {
  return "children" in node;
}

/** How many lines a node takes. */
export function sizeOf(node: Node): number {
  return isBlock(node) ? node.lineCount : 1;
}

/** What a block's children may be, from its head; `same` is for the caller to resolve. */
export function contextOf(head: Line | null): Context | "same" | undefined {
  if (!head) return undefined;
  return head.head === "+pulley" ? "pulley" : constructs.get(head.head)?.holds;
}

/** Whether a line's head has a block. */
export function blockOf(line: Line): "never" | "may" | "must" {
  if (line.head === "+pulley") return "may";
  return constructs.get(line.head)?.block ?? "never";
}

/** Whether a line is one that always has a block. */
export function mustOpen(line: Line): boolean {
  return line.kind === "statement" && blockOf(line) === "must";
}

/** How far out a head stands: none of these stands in one of its own level or of a deeper one. */
const LEVELS: Readonly<Record<string, number>> = { machine: 1, procedure: 1, section: 2, step: 3, check: 3 };
/** The level of steps and checks. */
export const STEP = 3;

/** The level of a line's head; 0 where it has none. */
export function levelOf(line: Line): number {
  return line.kind === "statement" ? (LEVELS[line.head] ?? 0) : 0;
}

/** Whether a line may stand in a block of this context; unknown contexts and lines that could not be read fit. */
export function fits(line: Line, context: Context | undefined): boolean {
  if (!context || line.kind === "broken") return true;
  if (line.kind === "prose") return context !== "file";
  if (line.kind !== "statement") return true;
  if (line.head.startsWith("+")) return clausesWithin.get(context)?.has(line.head.slice(1)) ?? false;
  const within = constructs.get(line.head)?.within ?? [];
  return within.length === 0 || within.includes(context);
}

/** Whether some kind of block may hold both lines. */
export function mayStandTogether(a: Line, b: Line): boolean {
  if (b.kind !== "statement") return b.kind === "prose";
  const within = constructs.get(a.head)?.within;
  if (!within) return [...clausesWithin.keys()].some((context) => fits(a, context) && fits(b, context));
  return within.length === 0 || within.some((context) => fits(b, context));
}
