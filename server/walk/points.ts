/**
 * The points of a procedure's graph: what is done, read, asked and decided, in the order of the text. Control flow is
 * in the points themselves: a test leads on or to `elseAt`, a jump to `to`, everything else to the point after it.
 */
import type { Act, At, Entry } from "../facts";
import { type Place, placeAt, type Thing } from "../model";

/** Where a point stands. */
export interface Spot {
  readonly entry: Entry;
  readonly file: string;
  /** The absolute line of the entry's head. */
  readonly line: number;
  /** In a procedure that is followed: the place of the `follow` in the procedure itself. */
  readonly through: Place | null;
}

interface Common {
  readonly spot: Spot;
  /** The test in whose body it stands, or -1. */
  readonly parent: number;
  /** The innermost condition or check around it, as an index of regions, or -1. */
  readonly region: number;
  /** The innermost block around it, as an index of blocks. */
  readonly block: number;
}

/** One act on one thing; a line that names several things is several points. */
export interface ActPoint extends Common {
  readonly kind: "act";
  /** Where the thing is named. */
  readonly at: At;
  readonly verb: string;
  readonly act: Act;
  readonly thing: Thing | null;
  /** Tools and supplies that it is done with. */
  readonly supplies: readonly Thing[];
}

export interface CautionPoint extends Common {
  readonly kind: "caution";
  readonly hazard: string;
}

/** A condition or an outcome: its body follows, else on to `elseAt`. */
export interface TestPoint extends Common {
  readonly kind: "test";
  readonly variable: number;
  /** The values with which the body is entered, by bit. */
  readonly mask: bigint;
  /** The returns that the outcome is entered for: none, or those that must be used up or not. */
  counters: readonly number[];
  readonly usedUp: boolean;
  elseAt: number;
  /** Whether entering it is worth a word: an outcome that only goes on is not. */
  readonly passes: boolean;
  /** Its words where it is entered and where it is not. */
  readonly yes: string;
  readonly no: string;
}

/** Over the other bodies of a condition or check: no decision. */
export interface JumpPoint extends Common {
  readonly kind: "jump" | "go-to";
  to: number;
}

/** Back, so often at most; `counter` is -1 and `bound` null where nothing bounds it. */
export interface ReturnPoint extends Common {
  readonly kind: "return";
  to: number;
  readonly counter: number;
  readonly bound: number | null;
}

/** A check is measured, seen or asked: its outcome is open again. */
export interface AskPoint extends Common {
  readonly kind: "ask";
  readonly variable: number;
  /** The instruments it is measured with, as the procedure that it stands in names them. */
  readonly tools: readonly Thing[];
}

/** A step or check is done; times count from there. */
export interface DonePoint extends Common {
  readonly kind: "done";
  readonly thing: Thing;
}

/** A step of words alone: nothing that is followed, and yet a place on the way. */
export interface WordsPoint extends Common {
  readonly kind: "words";
}

export interface EndPoint extends Common {
  readonly kind: "end" | "end-job";
}

export type Point =
  | ActPoint
  | CautionPoint
  | TestPoint
  | JumpPoint
  | ReturnPoint
  | AskPoint
  | DonePoint
  | WordsPoint
  | EndPoint;

/** The place to report a point at: the name in its line, or the `follow` that leads into another procedure. */
export function placeOf(point: Point): Place {
  return point.spot.through ?? originOf(point);
}

/** The place where a point really stands, in another procedure or not. */
export function originOf(point: Point): Place {
  const { file, line, entry } = point.spot;
  return placeAt(file, line, point.kind === "act" ? point.at : entry.form.at);
}
