/**
 * What following the ways can find wrong, before a rule puts it in words.
 */
import type { Thing } from "../model";
import { type Automaton, follow } from "./follow";
import type { Slice } from "./slice";
import { lastChange, lastReturn, pointAt, wayTo } from "./ways";

/** What a state was found to be wrong for; rules are named by it. */
export interface Mark {
  readonly code: string;
  /** The thing whose state is wrong. */
  readonly thing: Thing;
  /** The thing worked on, where the state of another is in its way. */
  readonly other: Thing | null;
  /** A word for the state it is in, where there are several. */
  readonly state: string;
  /** The bits of the state that it is about; what changed them last brought it about. */
  readonly bits: number;
}

/** All bits of a state. */
export const ALL_BITS = -1;

/** Something wrong on some way. */
export interface WalkFault extends Mark {
  /** The point that shows it, as an index; the last point is the end of the job. */
  readonly point: number;
  /** The point that brought the state about, or -1 where it was so from the start. */
  readonly since: number;
  /** The last return that was taken between the two, as a point; -1 where none was. */
  readonly back: number;
  /** The decisions that lead there; none where every way does. */
  readonly way: readonly string[];
}

/** An automaton with the meaning of the marks it reports. */
export interface Watch extends Automaton {
  readonly thing: Thing;
  readonly marks: readonly Mark[];
}

/** Where one thing has many faults on long ways, the ways of the later ones are not shortened any more. */
const MOST_SEARCHED = 100_000;

/**
 * Follows a thing and says what is wrong with it; that the limit was met is a fault of its own.
 *
 * @param withWays false leaves the ways out: finding the shortest is most of the work
 */
export function faultsOf(slice: Slice, watch: Watch, withWays = true): WalkFault[] {
  if (slice.own.size === 0) return [];
  if (slice.straight && watch.starts.length === 1) return straightFaults(slice, watch);
  const followed = follow(slice, watch);
  const size = followed.trail.at.length;
  const faults = followed.faults.map((found, i): WalkFault => {
    const mark = watch.marks[found.mark] as Mark;
    const since = lastChange(followed, found.configuration, mark.bits);
    const back = lastReturn(slice, followed, found.configuration, since);
    const way = withWays ? wayTo(slice, watch, followed, found, i * size < MOST_SEARCHED) : [];
    return { ...mark, point: found.point, since: since === null ? -1 : pointAt(followed, since), back, way };
  });
  if (followed.cutShort) {
    const first = slice.points.find((at) => slice.own.has(at)) ?? 0;
    faults.push({
      code: "walk-limit",
      thing: watch.thing,
      other: null,
      state: "",
      bits: ALL_BITS,
      point: first,
      since: -1,
      back: -1,
      way: [],
    });
  }
  return faults;
}

/** The faults of a thing that nothing decides about: one way, point by point. */
function straightFaults({ points }: Slice, watch: Watch): WalkFault[] {
  const faults: WalkFault[] = [];
  const states = [watch.starts[0]?.state ?? 0];
  const report = (mark: number): void => {
    const found = watch.marks[mark] as Mark;
    const last = states.length - 1;
    let i = last;
    while (i > 0 && (((states[i] as number) ^ (states[i - 1] as number)) & found.bits) === 0) i--;
    faults.push({ ...found, point: points[last] as number, since: points[i - 1] ?? -1, back: -1, way: [] });
  };
  for (const point of points) states.push(watch.step(states[states.length - 1] as number, point, report));
  return faults;
}
