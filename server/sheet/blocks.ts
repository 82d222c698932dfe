/**
 * The sheet as data: what the workshop gets, in reading order, before anybody decides how it looks.
 *
 * Plain values that survive JSON; no markup, no words of ours (those come from phrases), no time of making. Whatever
 * the writer wrote is inline runs; quantities are text that is ready to print. `work.ts` holds what stands in a section.
 */
import type { Language } from "../phrases/sheet";
import type { Dual, Item, Ref, Runs, Signal, Stage } from "./inline";
import type { Drawing, Step, Work } from "./work";

export type * from "./inline";
export type * from "./work";

/** A whole sheet. The closing safety line is not among its blocks: every renderer puts it last, always. */
export interface Sheet {
  /** Language of the writer's prose and of the document, a BCP 47 tag: `en`, `de-CH`, `ja`. */
  readonly lang: string;
  /** Language of the words we generate. */
  readonly words: Language;
  readonly paper: "a4" | "letter";
  /** Marks every page DRAFT. */
  readonly draft: boolean;
  readonly title: string;
  /** Document number; absent when the writer gave none. */
  readonly document?: string;
  /** What the sheet is valid as, on every page; absent when there is no revision yet. Date: `2026-11-20`. */
  readonly revision?: { readonly name: string; readonly date?: string };
  /** The revision against which items are `changed`; absent when nothing was compared. */
  readonly changedSince?: string;
  /** What was there then and is gone, each as one text. */
  readonly removedSince?: readonly string[];
  readonly blocks: readonly Block[];
}

export type Block =
  | TitleBlock
  | Applicability
  | Safety
  | Tools
  | Parts
  | Consumables
  | Fluids
  | Temporaries
  | TighteningTable
  | Drawings
  | Section
  | RecordedValues
  | JobRecord
  | SignOff
  | Revisions;

/** Facts that a title block can state; their labels are phrases. */
export type FactName =
  | "document"
  | "revision"
  | "date"
  | "machine"
  | "applies-to"
  | "working-time"
  | "qualification"
  | "people"
  | "kit"
  | "also-follow";

/** Title and facts. The title is the sheet's. */
export interface TitleBlock extends Item {
  readonly kind: "title";
  readonly facts: readonly (Item & { readonly fact: FactName; readonly value: Runs })[];
}

/** "Does it apply to me": what is answered once, before the work. */
export interface Applicability extends Item {
  readonly kind: "applicability";
  readonly questions: readonly Question[];
}

/** One question, with the answers to tick. */
export interface Question extends Item {
  readonly question: Runs;
  /** Something to write down beside the question: a serial number, hours run. */
  readonly write?: string;
  readonly answers: readonly Answer[];
}

/** An answer: yes, no, or a text of its own (one of several variants); what it leads to, where it leads anywhere. */
export interface Answer {
  readonly answer: "yes" | "no" | { readonly text: string };
  /** `stop`: the sheet does not apply. A text says anything else ("do the steps marked *rattle*"). */
  readonly leads?: "stop" | Runs;
}

/** The summary of what protects the fitter. */
export interface Safety extends Item {
  readonly kind: "safety";
  /** Protective equipment. */
  readonly equipment: readonly (Item & { readonly text: Runs })[];
  readonly heavy: readonly (Item & { readonly part: Runs; readonly weight: Dual; readonly how?: Runs })[];
  /** What the panels of the sheet warn of, gravest first, and at which steps. */
  readonly hazards: readonly (Item & {
    readonly signal: Signal;
    readonly text: Runs;
    readonly at: readonly Ref[];
  })[];
}

export interface Tools extends Item {
  readonly kind: "tools";
  readonly rows: readonly (Item & {
    readonly name: Runs;
    /** What the tool must cover or bear. */
    readonly range?: Dual;
    /** Alternatives, adapters, ratings. */
    readonly note?: Runs;
    readonly at: readonly Ref[];
  })[];
}

/** Parts: new ones from the kit, those taken off that go back, and those that are thrown away. */
export interface Parts extends Item {
  readonly kind: "parts";
  /** Name or number of the kit. */
  readonly kit?: string;
  readonly rows: readonly (Item & {
    readonly use: "new" | "refit" | "scrap";
    readonly name: Runs;
    readonly number?: string;
    readonly quantity: string;
    /** "Only if …". */
    readonly note?: Runs;
  })[];
}

export interface Consumables extends Item {
  readonly kind: "consumables";
  readonly rows: readonly (Item & {
    readonly name: Runs;
    readonly grade?: Runs;
    /** Time from laying it on to the last act it allows. */
    readonly openTime?: string;
    readonly cure?: string;
    /** What becomes of the rest, and what it is harmful for. */
    readonly note?: Runs;
    readonly at: readonly Ref[];
  })[];
}

export interface Fluids extends Item {
  readonly kind: "fluids";
  readonly rows: readonly (Item & {
    readonly name: Runs;
    readonly amount?: Dual;
    readonly grade?: Runs;
    /** What becomes of what was drained. */
    readonly drained?: "keep" | "dispose" | "not-drained";
    readonly note?: Runs;
    readonly at: readonly Ref[];
  })[];
}

/** What goes in for the job and must come out again; each row has a box for going in and one for coming out. */
export interface Temporaries extends Item {
  readonly kind: "temporaries";
  readonly rows: readonly (Item & {
    readonly name: Runs;
    readonly place?: Runs;
    /**
     * Every insertion and the way out that belongs to it, in the order of the sheet. No `in`: it is there when the job
     * begins; no `out`: it is still there when the job ends.
     */
    readonly uses: readonly { readonly in?: Ref; readonly out?: Ref }[];
  })[];
}

export interface TighteningTable extends Item {
  readonly kind: "tightening";
  readonly rows: readonly (Item & {
    readonly name: Runs;
    readonly thread?: string;
    readonly count: string;
    /** Dry, oiled, locked, as supplied. */
    readonly state?: Runs;
    readonly leftHand?: true;
    readonly renew?: "always" | Runs;
    readonly stages: readonly Stage[];
    /** The order of the bolts: "crosswise", "1 3 2 4". */
    readonly order?: Runs;
    readonly at: readonly Ref[];
  })[];
}

export interface Drawings extends Item {
  readonly kind: "drawings";
  readonly drawings: readonly Drawing[];
}

/** A section of the work. */
export interface Section extends Item {
  readonly kind: "section";
  readonly title: string;
  readonly blocks: readonly (Work | Step)[];
}

/** Values measured in the steps that are kept; each says at which step it was measured. */
export interface RecordedValues extends Item {
  readonly kind: "values";
  readonly rows: readonly (Item & {
    readonly name: Runs;
    /** The measure's id, so that a web page can carry the value over; absent where a word is written down, no figure. */
    readonly measure?: string;
    readonly limit?: Runs;
    readonly unit?: string;
    /** Names of the places measured; one empty name for a single place. */
    readonly places: readonly string[];
    readonly at: Ref;
  })[];
}

export type RecordField =
  | "fitter"
  | "second-person"
  | "machine-serial"
  | "running-hours"
  | "wrench"
  | "instrument"
  | "calibrated-until"
  | "started"
  | "finished";

/** Who did it, with what, and when. */
export interface JobRecord extends Item {
  readonly kind: "record";
  /** `of`: which one, where there are several (the wrench's name). */
  readonly fields: readonly (Item & { readonly field: RecordField; readonly of?: string })[];
}

export interface SignOff extends Item {
  readonly kind: "sign-off";
  readonly rows: readonly (Item & { readonly role: "fitter" | "second-person" | "inspector" | "customer" })[];
}

export interface Revisions extends Item {
  readonly kind: "revisions";
  readonly rows: readonly (Item & { readonly name: string; readonly date?: string; readonly reason: Runs })[];
}
