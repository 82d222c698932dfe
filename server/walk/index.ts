/**
 * The walk-through as the rest of the house sees it: every way through a procedure, followed thing by thing.
 */
import type { Procedure } from "../model";
import { type Numbered, numbering } from "./numbering";

export { followed, type Numbered, numbering, numbersByLine } from "./numbering";

/** What following every way through a procedure showed. */
export interface Walk {
  readonly procedure: Procedure;
  readonly numbered: readonly Numbered[];
}

/** Follows every way through a procedure. It must not be doubtful. */
export function followProcedure(procedure: Procedure): Walk {
  return { procedure, numbered: numbering(procedure) };
}
