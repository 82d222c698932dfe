/**
 * The sheet laid out: the few kinds of thing that every renderer can draw, with all words said and all columns chosen.
 *
 * `layout.ts` makes it from the sheet's blocks, once; `html.ts` and `pdf.ts` only draw it, so that both outputs say the
 * same. Still plain data: text, never markup.
 */
import type { PictureType, Range, RunStyle, Signal } from "./blocks";

/** What stands in a line or in a cell of a table. */
export type Atom =
  /** Text. `href` only where it is safe to follow. */
  | { readonly kind: "run"; readonly text: string; readonly style: RunStyle; readonly href?: string }
  /** Text that leads to a step or drawing of the sheet, by its id. */
  | { readonly kind: "ref"; readonly text: string; readonly to: string }
  | Tick
  | Field
  /** A word that stands out: LH, two people, a stage's name. */
  | { readonly kind: "badge"; readonly text: string; readonly look: "solid" | "outline" | Signal }
  /** A value at the place of work: what the wrench must do, never broken over two lines. */
  | { readonly kind: "chip"; readonly value: string; readonly other: string }
  | { readonly kind: "break" };

/** A box to tick. `label` is printed beside it, `name` is what a screen reader says. */
export interface Tick {
  readonly kind: "tick";
  readonly id: string;
  readonly label: string;
  readonly name: string;
  readonly size: "small" | "large";
}

/** A place to write. */
export interface Field {
  readonly kind: "field";
  readonly id: string;
  readonly name: string;
  /** `cell` fills the cell of the table it stands in. */
  readonly size: "short" | "medium" | "cell";
  readonly input: "text" | "number" | "time" | "date";
  readonly unit: string;
  /** For a measured value: what is within the limit. */
  readonly range?: Range;
  /** The value is carried over from this other field. */
  readonly copies?: string;
  /** A time that many minutes after the time in this other field. */
  readonly after?: { readonly field: string; readonly minutes: number };
}

/** What every node carries. An empty id stands for things of the layout that no item stands behind. */
interface Base {
  readonly id: string;
  readonly changed: boolean;
}

export type Node = Heading | Facts | Line | Table | Panel | Step | Frame | Picture | Drawn;

export interface Heading extends Base {
  readonly kind: "heading";
  /** 2 for a block or section, 3 below it (a step's own heading is in the step). */
  readonly level: 2 | 3;
  readonly text: string;
  readonly look: "list" | "section";
}

export interface Facts extends Base {
  readonly kind: "facts";
  readonly rows: readonly (Base & { readonly name: string; readonly value: readonly Atom[] })[];
}

/** A paragraph, or an act with its letter. */
export interface Line extends Base {
  readonly kind: "line";
  readonly look: "prose" | "question" | "note" | "act" | "bullet" | "lead";
  /** Printed in front, hanging: the act's letter. */
  readonly mark: string;
  readonly atoms: readonly Atom[];
}

export interface Column {
  readonly head: string;
  /** Share of the width. */
  readonly width: number;
  readonly align: "left" | "centre";
}

export interface Table extends Base {
  readonly kind: "table";
  /** What the table is, for a screen reader; a heading says it to the eye. */
  readonly name: string;
  readonly columns: readonly Column[];
  /** Index of the column that names the row; -1 when none does. */
  readonly rowHead: number;
  /** Rows are written in by hand and need the height for it. */
  readonly tall: boolean;
  readonly rows: readonly (Base & { readonly cells: readonly (readonly Atom[])[] })[];
}

export interface Panel extends Base {
  readonly kind: "panel";
  readonly signal: Signal;
  readonly word: string;
  readonly hazard: readonly Atom[];
  readonly consequence: readonly Atom[];
  readonly avoid: readonly Atom[];
}

/** A step or a check. */
export interface Step extends Base {
  readonly kind: "step";
  readonly check: boolean;
  readonly number: string;
  readonly title: string;
  /** What kind of step it is, in a word; empty for a plain one. */
  readonly badge: string;
  readonly tick: Tick;
  readonly body: readonly Node[];
}

/** Nodes that belong together under a head: an outcome, a condition, a wait, a set of things. */
export interface Frame extends Base {
  readonly kind: "frame";
  readonly look: "outcome" | "condition" | "wait" | "each";
  readonly head: readonly Atom[];
  readonly body: readonly Node[];
  /** For an outcome of a measurement: the values that have it. */
  readonly range?: Range;
}

export interface Picture extends Base {
  readonly kind: "picture";
  readonly type: PictureType;
  /** The file, in base 64. */
  readonly bytes: string;
  readonly alt: string;
  readonly caption: readonly Atom[];
}

/** A drawing of ours: the same SVG goes into every output. */
export interface Drawn extends Base {
  readonly kind: "drawing";
  readonly svg: string;
  /** What it shows, for whoever cannot see it. */
  readonly alt: string;
  /** What such a description is called, where it can be opened. */
  readonly inWords: string;
  readonly caption: readonly Atom[];
}

/** A whole sheet, laid out. */
export interface Layout {
  readonly lang: string;
  readonly paper: "a4" | "letter";
  readonly title: string;
  /** Document number and revision, at the head of every page. */
  readonly running: string;
  /** "Valid only as …", at the foot of every page. */
  readonly validity: string;
  /** "Page {page} of {pages}", to be filled in page by page. */
  readonly pageOf: string;
  /** The word across every page; empty when the sheet is no draft. */
  readonly draft: string;
  /** Date of the revision, `2026-11-20`, or empty. */
  readonly date: string;
  /** What a margin bar says to whoever cannot see it. */
  readonly changed: string;
  readonly nodes: readonly Node[];
  /** The last line of every sheet. */
  readonly closing: string;
}
