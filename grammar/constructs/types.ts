/**
 * What the table of constructs records of each: how it is written, where it may stand, what its block holds.
 * One table serves the parser, the printer, completion, highlighting and the language reference.
 */

/** A kind of block; what may stand in a block is decided by its context. */
export type Context =
  | "file"
  | "machine"
  | "part"
  | "fastener"
  | "fluid"
  | "consumable"
  | "line"
  | "shaft"
  | "belt"
  | "pulley"
  | "hazard"
  | "procedure"
  | "kit"
  | "temporary"
  | "tool"
  | "state"
  | "choices"
  | "section"
  | "note"
  | "acts" // a step, an outcome, and `when` or `for each` inside them
  | "check"
  | "tightening"
  | "caution";

/** A construct: a line that begins with a word of its own. */
export interface Construct {
  readonly id: string;
  /** The form, in the notation of `pattern.ts`; its first word is the head word. */
  readonly form: string;
  /** Clauses that may follow on the line in any order, and stand alone, one a line, in the block. */
  readonly clauses: readonly string[];
  /** Whether it has a block. */
  readonly block: "never" | "may" | "must";
  /** The context of its block; `same` passes on the context it stands in. */
  readonly holds?: Context | "same";
  /** Where it may stand; empty means anywhere. */
  readonly within: readonly Context[];
  /** The kind of thing its `name` declares. */
  readonly declares?: string;
  /** An act of the walk-through. */
  readonly act?: boolean;
  /** One sentence for the reference and for completion. */
  readonly about: string;
}

/** A clause: words that add a fact to a construct, on its line or alone in its block. */
export interface Clause {
  readonly id: string;
  readonly form: string;
  /** Clauses that may follow it when it stands on a line of its own. */
  readonly follow: readonly string[];
  readonly about: string;
}
