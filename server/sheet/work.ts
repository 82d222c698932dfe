/**
 * What stands in a section of the sheet: steps and checks with what they hold. Plain data, as in `blocks.ts`.
 */
import type { Item, Range, Ref, Runs, Signal, Stage } from "./inline";

/** A numbered step. A step with `measures`, `marks` or `question` in its body and `outcomes` is a check. */
export interface Step extends Item {
  readonly kind: "step" | "check";
  /** Steps and checks share one series through the sheet. */
  readonly number: string;
  readonly title: string;
  /** Steps in it are those of another procedure that is followed here. */
  readonly body: readonly (Work | Step)[];
  /** For a check: where each outcome leads, in the order it is looked for. Empty for a step. */
  readonly outcomes: readonly Outcome[];
}

/** What a step, a condition or an outcome can hold. A panel is kept with whatever follows it. */
export type Work =
  | Action
  | Panel
  | Wait
  | Measure
  | Look
  | Prose
  | Note
  | Figure
  | Drawing
  | Condition
  | Each;

/** One act, as a sentence. */
export interface Action extends Item {
  readonly kind: "action";
  readonly sentence: Runs;
  /** Two or more people at once. */
  readonly people?: number;
  /** A left-hand thread: loosened clockwise. */
  readonly leftHand?: true;
  /** For a tightening: its stages, at the place of work. */
  readonly tightening?: Tightening;
  /** Boxes to tick beside the sentence, by label (bolts, places); one empty label for a single box. */
  readonly boxes?: readonly string[];
  /** The drawings that show it. */
  readonly drawings?: readonly Ref[];
}

export interface Tightening {
  readonly stages: readonly Stage[];
  /** The order of the bolts: "crosswise", "1 3 2 4". */
  readonly order?: Runs;
  /** Boxes for each stage, by label: the bolts in the order they are tightened; one empty label for a single box. */
  readonly boxes: readonly string[];
}

/** A safety panel: always three parts, and always directly before the act it is about. */
export interface Panel extends Item {
  readonly kind: "panel";
  readonly signal: Signal;
  /** What the hazard is. */
  readonly hazard: Runs;
  /** What it can do. */
  readonly consequence: Runs;
  /** What to do about it. */
  readonly avoid: Runs;
}

/** A wait: for a time (with boxes for its start and for the earliest go-on), or until something is measured. */
export interface Wait extends Item {
  readonly kind: "wait";
  readonly sentence: Runs;
  /** How long, in minutes, where it is a time. */
  readonly minutes?: number;
  /** What must be measured before going on, where it is a state ("below 40 °C"). */
  readonly until?: { readonly limit: Runs; readonly unit: string; readonly range: Range };
}

/** A value to measure and write down. */
export interface Measure extends Item {
  readonly kind: "measure";
  /** What is measured, where the check's title does not say it. */
  readonly what?: Runs;
  readonly limit: Runs;
  readonly unit: string;
  /** What is within the limit, in `unit`. */
  readonly range: Range;
  /** Names of the places; the worst counts. One empty name for a single place. */
  readonly places: readonly string[];
  readonly temperature?: Runs;
  readonly instrument?: Runs;
}

/** Something looked at: marks that must meet, or a question. */
export interface Look extends Item {
  readonly kind: "look";
  readonly question: Runs;
}

/** What a check can come to. `still …`: the same again when the returns are used up. */
export type OutcomeName =
  | "over"
  | "under"
  | "within"
  | "met"
  | "not-met"
  | "outside"
  | "yes"
  | "no"
  | "choice"
  | "still-over"
  | "still-under"
  | "still-not-met"
  | "still-outside"
  | "still-yes"
  | "still-no";

/** One outcome of a check: what is done then, and where it leads. */
export interface Outcome extends Item {
  readonly outcome: OutcomeName;
  /** The limit passed, or for a `choice` what is chosen by: "over 0.15 mm". */
  readonly text?: Runs;
  /** The values that have this outcome, in the measure's unit, so that a web page can point at it. */
  readonly range?: Range;
  readonly body: readonly (Work | Step)[];
  readonly lead: Lead;
}

/**
 * Where an outcome leads. `times` is how many returns are allowed, absent where the writer has not bounded them (a draft);
 * `next` where the work goes on.
 */
export type Lead =
  | { readonly kind: "go-on"; readonly next?: Ref }
  | { readonly kind: "go-to"; readonly to: Ref }
  | { readonly kind: "check-again"; readonly to: Ref; readonly times?: number }
  | { readonly kind: "repeat"; readonly to: Ref; readonly times?: number; readonly back: Ref }
  | { readonly kind: "end"; readonly reason: Runs };

/** A paragraph of the writer's prose. */
export interface Prose extends Item {
  readonly kind: "prose";
  readonly runs: Runs;
}

/** A note: set apart, and no safety matter. */
export interface Note extends Item {
  readonly kind: "note";
  readonly runs: Runs;
}

export type PictureType = "image/png" | "image/jpeg" | "image/gif" | "image/webp" | "image/svg+xml";

/** A picture the writer brought. */
export interface Figure extends Item {
  readonly kind: "figure";
  readonly type: PictureType;
  /** The file, in base 64. */
  readonly bytes: string;
  /** What it shows, for whoever cannot see it. */
  readonly description: string;
  readonly caption?: Runs;
}

/** A drawing made from the data. */
export interface Drawing extends Item {
  readonly kind: "drawing";
  /** Drawings have a series of their own through the sheet; empty where it is referred to by nothing. */
  readonly number: string;
  readonly svg: string;
  /** What it shows, for whoever cannot see it. */
  readonly description: string;
  readonly caption?: Runs;
  /** Where else stands what it is made from, beside its own line: it has changed when one of these has. */
  readonly madeFrom?: readonly { readonly file: string; readonly line: number }[];
}

/** What is done only under a condition, or only when it does not hold. */
export interface Condition extends Item {
  readonly kind: "condition";
  /** What must be so, without "only when": "rattle at idle", or "bulletin SB-12 has not been done". */
  readonly when: Runs;
  /** The other half: done when it is not so. */
  readonly otherwise?: true;
  readonly body: readonly (Work | Step)[];
}

/** The same work on several things, one box each: "each wheel, one at a time". */
export interface Each extends Item {
  readonly kind: "each";
  readonly over: Runs;
  readonly things: readonly string[];
  readonly body: readonly (Work | Step)[];
}
