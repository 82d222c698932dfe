/**
 * What a line says, as plain data: a form, its clauses, and what the writer filled in. Units are kept as they are
 * written; what they mean is for `server/facts` to say.
 */
import type { Span } from "./text";

/** A name as written and in NFC, in which names compare. */
export interface NameValue {
  readonly name: string;
  readonly span: Span;
}

/** One figure with its unit as written; `3 h 30 min` is two of them. */
export interface RawFigure {
  readonly number: string;
  readonly unit: string | null;
  readonly span: Span;
  readonly unitSpan: Span | null;
}

export type Relation = "exact" | "over" | "under" | "at-least" | "at-most" | "about";

/** A quantity as written: `47 N·m (35 lb·ft)`, `over 0.55 to 0.65 mm`, `47 ± 3 N·m`, `30 +3/-1 N·m`, `3 h 30 min`. */
export interface RawQuantity {
  readonly relation: Relation;
  readonly first: readonly RawFigure[];
  /** After `to`. */
  readonly second: readonly RawFigure[];
  /** After `±`. */
  readonly tolerance: readonly RawFigure[];
  /** Behind the value, each with its sign: `+3/-1`, the upper one first. */
  readonly deviations: readonly [upper: RawFigure, lower: RawFigure] | null;
  /** In brackets: the same in another unit. */
  readonly other: RawQuantity | null;
  readonly span: Span;
}

export type SlotContent =
  | { readonly kind: "names"; readonly names: readonly NameValue[] }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "quantity"; readonly quantity: RawQuantity }
  | { readonly kind: "count"; readonly count: number }
  | { readonly kind: "number"; readonly text: string }
  | { readonly kind: "holes"; readonly holes: readonly number[] }
  | { readonly kind: "point"; readonly x: RawQuantity; readonly y: RawQuantity }
  | { readonly kind: "word"; readonly word: string };

/** One place of a form, filled in. */
export interface SlotValue {
  readonly role: string;
  /** The kinds of thing or quantity that fit, from the form. */
  readonly accepts: readonly string[];
  readonly span: Span;
  readonly content: SlotContent;
}

/** The form itself (`clause` empty) or one of its clauses. */
export interface Phrase {
  readonly clause: string;
  /** Fixed words said in it, such as `new`, `still`, `back`. */
  readonly words: readonly string[];
  readonly slots: readonly SlotValue[];
  /** Where optional parts at its end begin, such as `on thread` or a capacity behind a title. */
  readonly parts: readonly number[];
  readonly span: Span;
}

/** A line that could be read. */
export interface Statement {
  /** The construct's id; empty where a clause stands alone. */
  readonly construct: string;
  /** The form, then its clauses. */
  readonly phrases: readonly Phrase[];
}

/** What is wrong with the writing of a line: a message id of `server/phrases`, with its arguments. */
export interface Problem {
  readonly message: string;
  readonly args: Readonly<Record<string, string>>;
  readonly span: Span;
  /** A text that would put it right, where that is certain. */
  readonly replace?: { readonly span: Span; readonly text: string };
}

export type LineKind = "blank" | "comment" | "prose" | "close" | "statement" | "broken";

/** One line, read on its own: the same text always gives the same line. */
export interface Line {
  readonly text: string;
  readonly kind: LineKind;
  /** Columns of white space before the first sign. */
  readonly indent: number;
  /** The head word's construct or clause as far as it could be told, also on a broken line. */
  readonly head: string;
  readonly statement: Statement | null;
  readonly problems: readonly Problem[];
  /** The text of a prose line, without its quotes. */
  readonly prose: string;
  /** Ends with `{`. */
  readonly opens: boolean;
  /** Where a comment at the end of the line stands. */
  readonly comment: Span | null;
  /** On a broken line, every word, since any could be a name. */
  readonly perhaps: readonly NameValue[];
}

const NONE: readonly SlotValue[] = [];

/** The phrase of a clause, if the statement has it. */
export function phraseOf(statement: Statement, clause: string): Phrase | undefined {
  return statement.phrases.find((p, i) => p.clause === clause && (i > 0 || statement.construct === ""));
}

/** All slots of a statement's own form. */
export function formSlots(statement: Statement): readonly SlotValue[] {
  return statement.phrases[0]?.slots ?? NONE;
}
