/**
 * The requests that Torquil's own editor extension sends beyond the protocol: what each asks and what it is answered.
 * Types only, so that the extension shares them and nothing that runs.
 */
import type { Location, Position, TextDocumentIdentifier } from "vscode-languageserver/node";

/** A document, a position in it where there is one, and the sheet that is shown already: it stays where it can. */
export interface SheetParams {
  readonly textDocument: TextDocumentIdentifier;
  readonly position?: Position;
  readonly shown?: ProcedureAt;
}

/** A procedure by the document it stands in and its name. */
export interface ProcedureAt {
  readonly uri: string;
  readonly procedure: string;
}

/** Where something on the sheet is written: an index into the answer's `files`, and the line from 0. */
export interface SheetPlace {
  readonly id: string;
  readonly file: number;
  readonly line: number;
}

/** A sheet to show beside the text. */
export interface SheetShown {
  readonly kind: "sheet";
  /** Which procedure it is of, to ask for the same one again. */
  readonly of: ProcedureAt;
  readonly title: string;
  /** Language of the document, a BCP 47 tag. */
  readonly lang: string;
  /** The sheet as HTML, one text a block, so that only what has changed need be put in anew. Its text is escaped. */
  readonly blocks: readonly string[];
  /** The style of the blocks. */
  readonly style: string;
  readonly files: readonly string[];
  /** Where what has an id in the HTML is written. */
  readonly places: readonly SheetPlace[];
  /** The lines that the procedure takes in its document, from 0: within them the cursor means this sheet. */
  readonly lines: { readonly first: number; readonly last: number };
  /** Whether lines that it rests on cannot be read: what they say is missing from it. */
  readonly unread: boolean;
  /** What the writer should know of it, in words; empty when there is nothing. */
  readonly notice: string;
}

/** No sheet to show, and why, in words; with procedures that could be shown instead. */
export interface NoSheet {
  readonly kind: "none";
  readonly message: string;
  readonly others: readonly ProcedureNamed[];
}

/** A procedure that has a sheet. */
export interface ProcedureNamed extends ProcedureAt {
  readonly title: string;
}

export type SheetAnswer = SheetShown | NoSheet;

/** What is to be printed, and how. */
export interface PrintParams extends SheetParams {
  readonly form: "pdf" | "html";
  /** Prints what has errors too, with DRAFT on every page. */
  readonly draft: boolean;
}

/** The whole file as base 64, and how it would be called. */
export interface Printed {
  readonly kind: "printed";
  readonly name: string;
  readonly bytes: string;
}

/** Not printed; `findings` are the errors that a draft could be printed with, none where a draft is no way out. */
export interface NotPrinted {
  readonly kind: "refused";
  readonly message: string;
  readonly findings: readonly string[];
}

export type PrintAnswer = Printed | NotPrinted;

/** A document of the project that is to be compared, or of which the text as it was is wanted. */
export interface CompareParams {
  readonly textDocument: TextDocumentIdentifier;
}

/** Where something is written, or was; the line from 0. */
export interface ChangePlace {
  readonly uri: string;
  readonly line: number;
}

/** One change of meaning, in words. */
export interface ChangeShown {
  readonly rank: "safety" | "content" | "wording" | "layout";
  readonly headline: string;
  /** The same for a narrow list: what is said now comes first, and what it is about last. */
  readonly short: { readonly now: string; readonly about: string };
  /** The step it lies in, what it does, whom it touches. */
  readonly notes: readonly string[];
  readonly before: ChangePlace | null;
  readonly after: ChangePlace | null;
  /** Of what is gone: where it stood. */
  readonly gap: ChangePlace | null;
}

/** What has changed since a commit, the gravest first; or why nothing can be compared, in words. */
export type CompareAnswer =
  | { readonly kind: "compared"; readonly commit: string; readonly changes: readonly ChangeShown[] }
  | { readonly kind: "none"; readonly message: string };

/** A file as it was at the last commit; null where it was not there. */
export interface RevisionAnswer {
  readonly text: string | null;
}

/** A place in a text, at which it is asked how everything stands. */
export interface StateParams {
  readonly textDocument: TextDocumentIdentifier;
  readonly position: Position;
}

/** One state of a thing, in words. */
export interface StandShown {
  readonly state: string;
  /** The decisions that lead to it; none where every way does. */
  readonly way: readonly string[];
  /** Whether something of it must be put right before the end. */
  readonly owed: boolean;
  /** The line that brought it about; null where it was so from the start. */
  readonly since: Location | null;
}

/** A thing that is not as it should be, on every way or on some. */
export interface ThingShown {
  readonly name: string;
  readonly title: string;
  /** The word it is declared with. */
  readonly kind: string;
  /** Where it is declared. */
  readonly place: Location;
  /** One where all ways agree; what differs comes first. */
  readonly stands: readonly StandShown[];
}

/** Where shafts and marks stand on some ways, in words and as exact parts of a turn. */
export interface TurningShown {
  readonly shafts: readonly { readonly name: string; readonly title: string; readonly angle: string }[];
  readonly marks: readonly { readonly name: string; readonly title: string; readonly off: string }[];
  /** Titles of shafts that turn together. */
  readonly together: readonly (readonly string[])[];
  readonly way: readonly string[];
  readonly since: Location | null;
  readonly sentences: readonly string[];
}

/** How everything stands before a line, over all ways that come there. */
export interface StateShown {
  readonly kind: "state";
  readonly procedure: string;
  readonly title: string;
  /** Where it is asked for, in words. */
  readonly at: string;
  readonly reached: boolean;
  readonly groups: readonly {
    readonly id: string;
    readonly heading: string;
    readonly things: readonly ThingShown[];
  }[];
  readonly turning: readonly TurningShown[];
  readonly owed: readonly { readonly act: string; readonly name: string; readonly onSomeWays: boolean }[];
  /** Titles of what was touched and is as it should be. */
  readonly settled: readonly string[];
  /** What else is to be known, as sentences. */
  readonly notes: readonly string[];
}

/** Why the procedure is not followed, in words, and the line that keeps it from being. */
export interface NoState {
  readonly kind: "none";
  readonly message: string;
  readonly place: Location | null;
}

/** Null where no procedure is written. */
export type StateAnswer = StateShown | NoState | null;

/** Every request by its method. */
export interface Requests {
  readonly "torquil/sheet": { readonly params: SheetParams; readonly answer: SheetAnswer };
  readonly "torquil/compare": { readonly params: CompareParams; readonly answer: CompareAnswer };
  readonly "torquil/revision": { readonly params: CompareParams; readonly answer: RevisionAnswer };
  readonly "torquil/state": { readonly params: StateParams; readonly answer: StateAnswer };
  readonly "torquil/print": { readonly params: PrintParams; readonly answer: PrintAnswer };
}
