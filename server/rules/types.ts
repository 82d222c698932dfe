/**
 * What a rule is, and what it finds. One file a rule; this module is the form they fill in.
 */
import type { Line, Position } from "../../grammar";
import type { At, Entry } from "../facts";
import type { FileModel, Machine, Place, Procedure, Project, Thing } from "../model";
import type { Language } from "../phrases/sheet";
import type { HouseHazard, Walk } from "../walk";

export type { HouseHazard } from "../walk";

export type Severity = "error" | "warning" | "hint";

/** What a rule is about; when that changes, the rule runs again. */
export type Grain = "line" | "block" | "thing" | "procedure" | "file" | "project";

export type Args = Readonly<Record<string, string>>;

/** A message of the rule's own, by id, with its arguments. */
export interface Message {
  readonly id: string;
  readonly args: Args;
}

/** A text to put in place of a stretch; a text with line ends, at an empty stretch, adds lines. */
export interface Change<P> {
  readonly place: P;
  readonly text: string;
}

/** A repair. `safe`: it changes nothing that was meant, so many may be made at once. */
export interface Fix<P> {
  readonly title: Message;
  readonly safe: boolean;
  readonly changes: readonly Change<P>[];
}

/** What a rule reports. */
export interface Fault<P> {
  readonly place: P;
  /** The id among the rule's messages; `main` where not said. */
  readonly message?: string;
  readonly args?: Args;
  /** Where one fault of a rule weighs less than its others. */
  readonly severity?: Severity;
  /** The id of a hint among the rule's messages; `hint` where there is one and this is not said. */
  readonly hint?: string;
  /** The other places that make it wrong. */
  readonly related?: readonly { readonly place: P; readonly message: string; readonly args?: Args }[];
  /** Where only some ways are wrong: the decisions that lead there, in the writer's titles. */
  readonly way?: readonly string[];
  readonly fixes?: readonly Fix<P>[];
}

/** A finding, ready for any reader: words are made from it by `wordsOf`. */
export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly message: Message;
  readonly hint: Message | null;
  readonly place: Place;
  readonly related: readonly { readonly place: Place; readonly message: Message }[];
  readonly way: readonly string[];
  readonly fixes: readonly Fix<Place>[];
  /** Stays the same when lines move or other findings come and go. */
  readonly fingerprint: string;
}

/** What a rule may look at beside its subject. */
export interface Sight {
  readonly file: FileModel;
  readonly project: Project;
  /** The walk through a procedure, made once. */
  readonly walk: (procedure: Procedure) => Walk;
  /** Hazards of the house from the settings, beside those of machine files. */
  readonly houseHazards: readonly HouseHazard[];
  /** The language of what a repair writes into the text. */
  readonly language: Language;
}

type Report<P> = (fault: Fault<P>) => void;

/** What the catalogue and every reader of findings know of a code. */
export interface Page {
  readonly code: string;
  readonly severity: Severity;
  readonly group: Group;
  /** Texts with `{argument}`s: `main`, `hint`, and what else the rule says. */
  readonly messages: Readonly<Record<string, string>>;
  readonly docs: Docs;
  /** Codes the rule's findings may carry beside its own, where one look finds several faults. */
  readonly alsoCodes?: readonly string[];
}

/** The page of the catalogue. `example` shows the fault and `instead` the repair; both are run by the tests. */
export interface Docs {
  readonly what: string;
  readonly why: string;
  readonly example: string;
  readonly instead: string;
}

export const GROUPS = [
  "names and shape",
  "quantities",
  "fasteners",
  "tools and supplies",
  "the walk-through: states",
  "the way through",
  "time and people",
  "runs",
  "cautions",
] as const;
export type Group = (typeof GROUPS)[number];

/** A line by itself. Runs also on broken lines. */
export interface LineRule extends Page {
  readonly grain: "line";
  readonly check: (line: Line, report: Report<At>) => void;
}

/** A block or single statement by itself, its children aside. Not run where a line directly in it is broken. */
export interface BlockRule extends Page {
  readonly grain: "block";
  readonly check: (entry: Entry, report: Report<At>) => void;
}

/** A declared thing in its file. Not run on a doubtful thing. */
export interface ThingRule extends Page {
  readonly grain: "thing";
  readonly check: (thing: Thing, report: Report<Place>, sight: Sight, machine: Machine | null) => void;
}

/** A whole procedure. Not run where something in it, or in what it uses, could not be read. */
export interface ProcedureRule extends Page {
  readonly grain: "procedure";
  readonly check: (procedure: Procedure, report: Report<Place>, sight: Sight) => void;
}

/** A file with what it uses. Runs also on doubtful files: the rule asks `mayDeclareMore` itself. */
export interface FileRule extends Page {
  readonly grain: "file";
  readonly check: (file: FileModel, report: Report<Place>, sight: Sight) => void;
}

/** The whole project. */
export interface ProjectRule extends Page {
  readonly grain: "project";
  readonly check: (project: Project, report: Report<Place>) => void;
}

export type Rule = LineRule | BlockRule | ThingRule | ProcedureRule | FileRule | ProjectRule;

/** An edit as features and the command line make it from a change. */
export interface TextEdit {
  readonly file: string;
  readonly start: Position;
  readonly end: Position;
  readonly text: string;
}
