/**
 * What must be remembered where: a condition or outcome as long as some way leads to a test of it before it is asked
 * again, a counter as long as some way leads to its return. Worked out backwards from the tests (live variables, as in
 * Aho, Lam, Sethi and Ullman, Compilers, section 9.2.5; from memory). Where nothing can have been decided yet, nothing
 * is remembered either.
 */
import { lowerBound } from "./control";
import type { Graph } from "./graph";
import type { Point } from "./points";

export interface Alive {
  /** How many items there are: variables first, then counters. */
  readonly items: number;
  /** The item of the first counter. */
  readonly counterAt: number;
  /** The items to be remembered before each deciding point, in order; a point before which none is has no entry. */
  readonly before: ReadonlyMap<number, readonly number[]>;
}

/** A stretch of points that returns lead back over, both ends included; stretches that overlap are one. */
export interface Round {
  readonly start: number;
  readonly end: number;
}

/** The stretches of a graph that can be done again, in order. */
export function roundsOf({ points, controls }: Graph): readonly Round[] {
  const back = controls
    .flatMap((end) => {
      const point = points[end] as Point;
      return point.kind === "return" ? [{ start: Math.min(point.to, end), end }] : [];
    })
    .sort((a, b) => a.start - b.start);
  const rounds: Round[] = [];
  for (const { start, end } of back) {
    const last = rounds.at(-1);
    if (last && start <= last.end)
      rounds[rounds.length - 1] = { start: last.start, end: Math.max(last.end, end) };
    else rounds.push({ start, end });
  }
  return rounds;
}

/** Where a point lies among some rounds: the index of its round, or -1. */
export function roundFinder(rounds: readonly Round[]): (point: number) => number {
  const starts = rounds.map(({ start }) => start);
  return (point) => {
    const index = lowerBound(starts, point + 1) - 1;
    return point <= (rounds[index]?.end ?? -1) ? index : -1;
  };
}

/** Where an item is looked at, and where it is changed. */
interface Spots {
  readonly uses: number[];
  readonly changes: number[];
}

/** Works out what must be remembered before each deciding point of a graph. */
export function aliveIn(graph: Graph): Alive {
  const { points } = graph;
  const counterAt = graph.variables.all.length;
  const rounds = roundsOf(graph);
  const roundAt = roundFinder(rounds);
  const leading = leadingTo(graph);
  const before = new Map<number, number[]>();
  for (const [item, { uses, changes }] of spotsIn(graph, counterAt)) {
    // Before its first change, and what is done again with that, an item is as it was at the start.
    const first = changes[0] ?? Number.POSITIVE_INFINITY;
    const from = rounds[roundAt(first)]?.start ?? first;
    const seen = new Set<number>();
    const open = [...uses];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      if (at < from || seen.has(at)) continue;
      seen.add(at);
      const list = before.get(at);
      if (list) list.push(item);
      else before.set(at, [item]);
      for (const earlier of leading.get(at) ?? []) {
        const point = points[earlier] as Point;
        if (point.kind !== "ask" || point.variable !== item) open.push(earlier);
      }
    }
  }
  return { items: counterAt + graph.bounds.length, counterAt, before };
}

function spotsIn(
  { points, controls, variables }: Graph,
  counterAt: number,
): readonly (readonly [number, Spots])[] {
  const all = new Map<number, Spots>();
  const of = (item: number): Spots => {
    let spots = all.get(item);
    if (!spots) {
      spots = { uses: [], changes: [] };
      all.set(item, spots);
    }
    return spots;
  };
  for (const at of controls) {
    const point = points[at] as Point;
    if (point.kind === "test") {
      of(point.variable).uses.push(at);
      if (variables.all[point.variable]?.once) of(point.variable).changes.push(at);
      for (const counter of point.counters) of(counterAt + counter).uses.push(at);
    }
    if (point.kind === "ask") of(point.variable).changes.push(at);
    if (point.kind === "return" && point.counter >= 0) {
      of(counterAt + point.counter).uses.push(at);
      of(counterAt + point.counter).changes.push(at);
    }
  }
  return [...all].sort(([a], [b]) => a - b);
}

/** The deciding points that lead straight to each. */
function leadingTo({ points, controls }: Graph): ReadonlyMap<number, readonly number[]> {
  const leading = new Map<number, number[]>();
  const lead = (from: number, to: number): void => {
    const at = controls[lowerBound(controls, to)] as number;
    const list = leading.get(at);
    if (list) list.push(from);
    else leading.set(at, [from]);
  };
  for (const at of controls) {
    const point = points[at] as Point;
    switch (point.kind) {
      case "end":
      case "end-job":
        break;
      case "test":
        lead(at, at + 1);
        if (point.elseAt !== at + 1) lead(at, point.elseAt);
        break;
      case "jump":
      case "go-to":
        lead(at, point.to);
        break;
      case "return":
        lead(at, point.to);
        if (point.bound !== null) lead(at, at + 1);
        break;
      default:
        lead(at, at + 1);
    }
  }
  return leading;
}
