/**
 * A drawing that has been made for the sheet, with what it was made from.
 */
import type { Drawing } from "../drawings";
import type { Thing } from "../model";

/** A drawing, and the things beside its own that it shows facts of. */
export interface Made {
  readonly drawing: Drawing;
  readonly madeFrom: readonly Thing[];
}
