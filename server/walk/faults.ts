/**
 * What following the ways can find wrong, before a rule puts it in words.
 */
import type { Thing } from "../model";
import { type Automaton, follow } from "./follow";
import type { Slice } from "./slice";
import { lastChange, wayTo } from "./ways";

/** What a state was found to be wrong for; rules are named by it. */
export interface Mark {
  readonly code: string;
  /** The thing whose state is wrong. */
  readonly thing: Thing;
  /** The thing worked on, where the state of another is in its way. */
  readonly other: Thing | null;
  /** A word for the state it is in, where there are several. */
  readonly state: string;
}

/** Something wrong on some way. */
export interface WalkFault extends Mark {
  /** The point that shows it, as an index; the last point is the end of the job. */
  readonly point: number;
  /** The point that brought the state about, or -1 where it was so from the start. */
  readonly since: number;
  /** The decisions that lead there; none where every way does. */
  readonly way: readonly string[];
}

/** An automaton with the meaning of the marks it reports. */
export interface Watch extends Automaton {
  readonly thing: Thing;
  readonly marks: readonly Mark[];
}

/** Follows a thing and says what is wrong with it; that the limit was met is a fault of its own. */
export function faultsOf(slice: Slice, watch: Watch): WalkFault[] {
  if (slice.own.size === 0) return [];
  const followed = follow(slice, watch);
  const faults = followed.faults.map(
    (found): WalkFault => ({
      ...(watch.marks[found.mark] as Mark),
      point: found.point,
      since: lastChange(followed, found.configuration),
      way: wayTo(slice, watch, followed, found),
    }),
  );
  if (followed.cutShort) {
    const first = Math.min(...slice.own);
    faults.push({
      code: "walk-limit",
      thing: watch.thing,
      other: null,
      state: "",
      point: first,
      since: -1,
      way: [],
    });
  }
  return faults;
}
