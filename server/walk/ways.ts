/**
 * The way that shows a fault, in the writer's titles: of the decisions on the shortest way those that matter. A
 * decision matters if without it some way comes to the same point without the fault.
 */
import { type Automaton, type Followed, type Found, follow, markKey } from "./follow";
import type { TestPoint } from "./points";
import type { Slice } from "./slice";

/** A branch taken at a test. */
interface Decision {
  readonly test: number;
  readonly into: boolean;
}

/** The decisions that lead to a fault, in words; none where every way that comes to the point shows it. */
export function wayTo(
  slice: Slice,
  automaton: Automaton,
  followed: Followed,
  found: Found,
): readonly string[] {
  const key = markKey(found.point, found.mark);
  const always = (run: Followed): boolean =>
    !run.cutShort && (run.marked.get(key) ?? 0) > 0 && run.marked.get(key) === run.visits.get(found.point);
  if (always(followed)) return [];
  const decisions = decisionsTo(followed, found.configuration);
  const points = slice.control.graph.points;
  const costs = (test: number): number =>
    decisions.some((d) => d.test === test && d.into && !(points[test] as TestPoint).passes) ? 1 : 0;
  const tests = [...new Set(decisions.map((d) => d.test))];
  let kept = tests;
  if (always(follow(slice, automaton, allow(decisions, tests)))) {
    for (const test of [...tests].sort((a, b) => costs(a) - costs(b) || b - a)) {
      const fewer = kept.filter((t) => t !== test);
      if (always(follow(slice, automaton, allow(decisions, fewer)))) kept = fewer;
    }
  }
  return wordsOf(slice, decisions, new Set(kept));
}

function allow(decisions: readonly Decision[], tests: readonly number[]): ReadonlyMap<number, number> {
  const allowed = new Map<number, number>();
  for (const { test, into } of decisions) {
    if (tests.includes(test)) allowed.set(test, (allowed.get(test) ?? 0) | (into ? 2 : 1));
  }
  return allowed;
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
  const entered = new Set(decisions.filter((d) => d.into).map((d) => d.test));
  for (const { test, into } of decisions) {
    if (!kept.has(test) || (!into && entered.has(test))) continue;
    const point = points[test] as TestPoint;
    said.add(into ? point.yes : point.no);
  }
  return [...said];
}

/** The point that last changed the state on the way to a configuration; -1 where nothing did. */
export function lastChange({ trail }: Followed, configuration: number): number {
  for (let c = configuration; c >= 0; c = trail.from[c] as number) {
    const before = trail.from[c] as number;
    if (before >= 0 && trail.state[before] !== trail.state[c]) return trail.at[before] as number;
  }
  return -1;
}
