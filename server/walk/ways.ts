/**
 * The way that shows a fault, in the writer's titles: of the decisions on the shortest way those that matter. A
 * decision matters if without it some way comes to the same point without the fault.
 */
import { type Automaton, type Followed, type Found, follow, MOST_DEMANDED, markKey } from "./follow";
import type { TestPoint } from "./points";
import type { Slice } from "./slice";

/** A branch taken at a test. */
interface Decision {
  readonly test: number;
  readonly into: boolean;
}

/**
 * The decisions that lead to a fault, in words; none where every way that comes to the point shows it. Not shortened,
 * they are all that the way takes.
 */
export function wayTo(
  slice: Slice,
  automaton: Automaton,
  followed: Followed,
  found: Found,
  shorten: boolean,
): readonly string[] {
  const key = markKey(found.point, found.mark);
  const decisions = decisionsTo(followed, found.configuration);
  const entered = new Set(decisions.filter((d) => d.into).map((d) => d.test));
  const always = (tests: readonly number[]): boolean => {
    const into = tests.filter((t) => entered.has(t));
    if (into.length > MOST_DEMANDED) return false;
    const never = new Set(tests.filter((t) => !entered.has(t)));
    const { marked, visits, cutShort } = follow(slice, automaton, { until: key, into, never });
    return !cutShort && (marked.get(key) ?? 0) > 0 && marked.get(key) === visits.get(found.point);
  };
  if (slice.straight || (shorten && always([]))) return [];
  let kept: readonly number[] = [...new Set(decisions.map((d) => d.test))];
  const drop = (tests: readonly number[]): void => {
    const fewer = kept.filter((t) => !tests.includes(t));
    if (always(fewer)) kept = fewer;
    else if (tests.length > 1) {
      drop(tests.slice(0, tests.length >> 1));
      drop(tests.slice(tests.length >> 1));
    }
  };
  if (shorten && always(kept)) {
    const points = slice.control.graph.points;
    const isTurn = (test: number): boolean => entered.has(test) && !(points[test] as TestPoint).passes;
    const later = [...kept].sort((x, y) => y - x);
    drop(later.filter((test) => !isTurn(test)));
    drop(later.filter(isTurn));
  }
  return wordsOf(slice, decisions, new Set(kept));
}

function decisionsTo({ trail }: Followed, last: number): Decision[] {
  const decisions: Decision[] = [];
  for (let c = last; c >= 0; c = trail.from[c] as number) {
    const before = trail.from[c] as number;
    const branch = trail.branch[c] as number;
    if (before < 0 || branch < 0) continue;
    decisions.push({ test: trail.at[before] as number, into: branch === 1 });
  }
  return decisions.reverse();
}

function wordsOf(slice: Slice, decisions: readonly Decision[], kept: ReadonlySet<number>): string[] {
  const { points } = slice.control.graph;
  const said = new Set<string>();
  const around = new Set<number>();
  for (const test of kept) {
    // Where an inner decision matters, those around it are on its way too.
    for (let t = test; t >= 0; t = points[t]?.parent ?? -1) around.add(t);
  }
  const entered = new Set(decisions.filter((d) => d.into).map((d) => d.test));
  for (const { test, into } of decisions) {
    if (!around.has(test) || (!into && (entered.has(test) || !kept.has(test)))) continue;
    const point = points[test] as TestPoint;
    said.add(into ? point.yes : point.no);
  }
  return [...said];
}

/** The configuration whose point last changed some bits of the state on the way to another; null where none did. */
export function lastChange({ trail }: Followed, configuration: number, bits: number): number | null {
  for (let c = configuration; c >= 0; c = trail.from[c] as number) {
    const before = trail.from[c] as number;
    if (before < 0) continue;
    const change = (trail.state[before] as number) ^ (trail.state[c] as number);
    if ((change & bits) !== 0) return before;
  }
  return null;
}

/** The point of a configuration. */
export const pointAt = ({ trail }: Followed, configuration: number): number =>
  trail.at[configuration] as number;

/** The last return taken on the way from one configuration, or from the start, to another; -1 where none was. */
export function lastReturn({ control }: Slice, { trail }: Followed, to: number, from: number | null): number {
  for (let c = to; c >= 0 && c !== from; c = trail.from[c] as number) {
    const before = trail.from[c] as number;
    if (before < 0) continue;
    const at = trail.at[before] as number;
    if (control.graph.points[at]?.kind === "return" && (trail.at[c] as number) <= at) return at;
  }
  return -1;
}
