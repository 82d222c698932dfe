/**
 * The grammar as the rest of the house sees it: text → lines → blocks, and the table of constructs.
 */
import type { Line } from "./statement";

export {
  assemble,
  type Block,
  contextOf,
  DEEPEST,
  isBlock,
  type Node,
  type ShapeProblem,
  type Tree,
} from "./blocks";
export {
  type Clause,
  CONSTRUCTS,
  type Construct,
  type Context,
  clauses,
  clausesWithin,
  constructs,
  elementsOf,
  formsByHead,
  KEYWORDS,
} from "./constructs";
export { applyEdits, type Document, documentText, type Edit, type Position, readDocument } from "./document";
export { parseLine, readIn } from "./line";
export { nearest } from "./nearest";
export type { Element, SlotElement, SlotKind } from "./pattern";
export { wordsOf } from "./pattern";
export { formatDocument, formatLines, type SpellUnit, type UnitSpelling } from "./printer";
export * from "./statement";
export { joinText, type Span, splitText, type TextShape } from "./text";

/** Whether a line is a clause standing alone, which belongs to the block's head. */
export function phraseLike(line: Line): boolean {
  return line.kind === "statement" && line.head.startsWith("+");
}
