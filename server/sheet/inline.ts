/**
 * The small things the sheet is made of: items with an id, runs of text, quantities, ranges, references to steps.
 */

/** What every item carries: an id that is stable from one revision to the next and differs from all others in the sheet. */
export interface Item {
  readonly id: string;
  /** Changed since the revision the sheet is compared with: a bar stands in the margin beside it. */
  readonly changed?: true;
  /** Where the writer wrote it, so that a preview can lead back there; the line from 0. Not printed. */
  readonly source?: { readonly file: string; readonly line: number };
}

/** How a run of text is set. A `quantity` (a number with its unit) stays on one line. */
export type RunStyle = "text" | "strong" | "em" | "code" | "quantity" | "link";

/** Text in one style. `href` is read for `link` only, and printed as a link only if it is http, https or mailto. */
export interface Run {
  readonly text: string;
  readonly style: RunStyle;
  readonly href?: string;
}

/** A line or paragraph of text. */
export type Runs = readonly Run[];

/** A quantity ready to print: as the writer gave it, and in the other unit where the sheet shows both. */
export interface Dual {
  readonly value: string;
  readonly other?: string;
}

/** A step or check that is pointed at. `id` is that step's id, `number` the number printed at its head. */
export interface Ref {
  readonly id: string;
  readonly number: string;
}

/** The values a limit lets through, in the unit the value is written in; an absent end is open for ever. */
export interface Range {
  readonly min?: number;
  readonly max?: number;
  /** The end itself is outside the range, as in "over 0.55". */
  readonly minOpen?: true;
  readonly maxOpen?: true;
}

/** The signal words, gravest first. */
export type Signal = "danger" | "warning" | "caution" | "notice";

/** One stage of tightening. */
export interface Stage {
  readonly name?: string;
  /** A torque, an angle, or text such as "firmly, by hand". */
  readonly value: Dual;
  /** What the wrench is set to, where it differs from the value (an adapter). */
  readonly setting?: Dual;
}
