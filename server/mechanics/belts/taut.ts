/**
 * Which of its pulleys a belt touches once it is pulled tight.
 */
import { type Passed, standsOff, type Tangent, tangent, turning } from "./tangents";

/** The pulleys the path touches, in order, by their place in the layout; and the spans that leave them. */
export interface Taut {
  readonly touched: readonly number[];
  readonly tangents: readonly Tangent[];
  readonly wraps: readonly number[];
}

/** The tangent from one pulley to another, by their places; null where there is none. */
export type Tangents = (from: number, to: number) => Tangent | null;

/** All tangents between some pulleys, each worked out when it is first asked for. */
export function tangentsBetween(all: readonly Passed[]): Tangents {
  const known = new Map<number, Tangent | null>();
  return (from, to) => {
    const key = from * all.length + to;
    const found = known.get(key);
    if (found !== undefined) return found;
    const made = tangent(all[from] as Passed, all[to] as Passed);
    known.set(key, made);
    return made;
  };
}

/** The path round the pulleys `touched` and no others; null where some two have no tangent. */
export function pathRound(
  all: readonly Passed[],
  touched: readonly number[],
  between: Tangents = tangentsBetween(all),
): Taut | null {
  const tangents: Tangent[] = [];
  for (const [place, index] of touched.entries()) {
    const span = between(index, touched[(place + 1) % touched.length] as number);
    if (span === null) return null;
    tangents.push(span);
  }
  const wraps = touched.map((index, place) => {
    const into = tangents[(place + tangents.length - 1) % tangents.length] as Tangent;
    return turning(into.along, (tangents[place] as Tangent).along, (all[index] as Passed).sense);
  });
  return { touched, tangents, wraps };
}

/**
 * Pulls the belt tight. A pulley that the path would have to turn round backwards is let go, the one that stands off
 * most first; one let go that a span then runs into is taken in again; until nothing changes.
 *
 * A wrap of more than half a turn is true where the straight line past the pulley would run into it, and a backward turn
 * written as a forward one (350° for −10°) where the pulley stands clear of that line.
 *
 * @returns null where this never comes to rest: then the pulleys in this order hold no belt
 */
export function pullTight(all: readonly Passed[]): Taut | null {
  let path = pathRound(
    all,
    all.map((_, index) => index),
  );
  const seen = new Set<string>();
  while (path !== null) {
    const key = path.touched.join();
    if (seen.has(key)) return null;
    seen.add(key);
    const next = letGo(all, path) ?? takeIn(all, path.touched);
    if (next === null) return path;
    path = pathRound(all, next);
  }
  return null;
}

/** What is touched once the pulley that stands off most is let go; null where none stands off. */
function letGo(all: readonly Passed[], { touched, wraps }: Taut): readonly number[] | null {
  if (touched.length <= 2) return null;
  let most = -1;
  let furthest = 0;
  touched.forEach((index, place) => {
    const wrap = wraps[place] ?? 0;
    if (wrap > 0 && wrap <= Math.PI) return;
    const past = straightPast(all, touched, place);
    if (past === null) return;
    const off = standsOff(all[index] as Passed, past);
    if (off < -1e-9 * (all[index] as Passed).radius || (most >= 0 && off <= furthest)) return;
    most = place;
    furthest = off;
  });
  return most < 0 ? null : touched.filter((_, place) => place !== most);
}

/** The line from the pulley before a place to the pulley after it. */
function straightPast(all: readonly Passed[], touched: readonly number[], place: number): Tangent | null {
  const count = touched.length;
  const before = all[touched[(place + count - 1) % count] as number] as Passed;
  const after = all[touched[(place + 1) % count] as number] as Passed;
  return tangent(before, after);
}

/** What is touched once a pulley that was let go, and that the path would turn round forwards, is taken in again. */
function takeIn(all: readonly Passed[], touched: readonly number[]): readonly number[] | null {
  for (let index = 0; index < all.length; index++) {
    if (touched.includes(index)) continue;
    const more = [...touched, index].sort((a, b) => a - b);
    const place = more.indexOf(index);
    const wrap = pathRound(all, more)?.wraps[place] ?? 0;
    if (wrap > 1e-9 && wrap <= Math.PI) return more;
  }
  return null;
}
