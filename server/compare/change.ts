/**
 * What a comparison gives: changes as plain data, each with its rank, what it concerns, both values, both places, what it
 * does and whom it touches. Words are made of it by `words.ts`.
 */
import type { Course } from "./amounts";
import type { Edit } from "./edits";
import type { Form } from "./form";
import type { Lines, Piece } from "./node";
import type { Rank } from "./ranks";

/** What can happen. `changed` is any fact not named otherwise; `what` of the change says which. */
export const CHANGE_KINDS = [
  "tightening",
  "thread-state",
  "order",
  "renewal",
  "changed",
  "added",
  "removed",
  "moved",
  "regrouped",
  "renamed",
  "retitled",
  "split",
  "joined",
  "written-otherwise",
  "prose",
  "severity",
  "setting",
  "use",
  "file-added",
  "file-removed",
  "file-renamed",
  "reordered",
  "laid-out",
] as const;
export type ChangeKind = (typeof CHANGE_KINDS)[number];

/** A line, or a clause of one, as it is told and as data. */
export interface Said {
  readonly pieces: readonly Piece[];
  readonly form: Form;
}

/** Something with a name or a title. */
export interface Named {
  /** The construct: `fastener`, `step`. */
  readonly kind: string;
  readonly id: string;
  readonly name: string;
  readonly title: string;
}

/** A step or check as it is printed. */
export interface StepNamed {
  readonly number: number;
  readonly title: string;
}

/** A procedure that a change reaches, and its printed steps that name what has changed; none where only its lists do. */
export interface Touch {
  readonly procedure: Named;
  readonly file: string;
  readonly steps: readonly StepNamed[];
}

/** What a change comes to. */
export type Effect =
  | ({ readonly id: "amount" } & Course)
  /** The act, or what stood there, now comes before, or after, these. */
  | {
      readonly id: "before" | "after";
      readonly act: readonly Piece[];
      readonly others: readonly (readonly Piece[])[];
      readonly more: number;
    }
  /** What is done in a block that came or went. */
  | { readonly id: "holds"; readonly others: readonly (readonly Piece[])[]; readonly more: number }
  /** A caution stands, or stood, before this act. */
  | { readonly id: "warns-of" | "warned-of"; readonly act: readonly Piece[] }
  /** Names that now mean something else, or nothing that is known. */
  | { readonly id: "means-another" | "means-nothing"; readonly names: readonly string[] };

/** Something of both sides; null on a side where there is none. */
export interface Both<T> {
  readonly before: T | null;
  readonly after: T | null;
}

export interface Change {
  readonly rank: Rank;
  readonly kind: ChangeKind;
  /** The construct it is about, or a clause with `+` before its id; of settings, the key. */
  readonly what: string;
  /** What it is about, as it is called now, or was where it is gone. */
  readonly concerns: Named | null;
  readonly values: Both<readonly Said[]>;
  readonly places: Both<Lines>;
  /** Of what is gone: what stands before the gap now, or around it; else null. */
  readonly gap: Lines | null;
  /** The printed step it lies in. */
  readonly steps: Both<StepNamed>;
  readonly touches: readonly Touch[];
  readonly does: readonly Effect[];
  /** What of the normal form is to be done for it. */
  readonly edits: readonly Edit[];
}

export interface Comparison {
  /** By rank, gravest first; then in the order of the new text. */
  readonly changes: readonly Change[];
}
