/**
 * What is known of a graph's control flow before any thing is followed: which points can be reached at all, which
 * jumps pass over or go back over which points, and within which region a way that ends can always be avoided.
 */
import type { Region } from "./build";
import type { Graph } from "./graph";
import type { Point, TestPoint } from "./points";
import { keptBySegment, PASSED, type Segment } from "./segments";
import type { Variable, Variables } from "./variables";

export interface Control {
  readonly graph: Graph;
  readonly reachable: Uint8Array;
  /** The asks of each variable. */
  readonly asks: ReadonlyMap<number, readonly number[]>;
  /** The return of each counter. */
  readonly returns: readonly number[];
  /** Jumps that pass over or go back over a point: those of the stretch it lies in. */
  readonly spans: (point: number) => readonly Span[];
  /** By region: the ends in it that a way through it can avoid, whatever was decided before. */
  readonly avoidable: ReadonlyMap<number, readonly number[]>;
  /** Ends that what was decided elsewhere may force. */
  readonly forced: readonly number[];
}

/** A jump with the points it leaves out or goes back over, both ends included. */
export interface Span {
  readonly jump: number;
  readonly from: number;
  readonly to: number;
}

/** Looks a graph through once. */
export function controlOf(graph: Graph): Control {
  const { points, controls } = graph;
  const asks = new Map<number, number[]>();
  const returns: number[] = [];
  const spans: Span[] = [];
  const ends: number[] = [];
  for (const i of controls) {
    const point = points[i] as Point;
    if (point.kind === "ask") asks.set(point.variable, [...(asks.get(point.variable) ?? []), i]);
    if (point.kind === "return" && point.counter >= 0) returns[point.counter] = i;
    if (point.kind === "return" || point.kind === "go-to")
      spans.push(
        point.to > i ? { jump: i, from: i + 1, to: point.to - 1 } : { jump: i, from: point.to, to: i },
      );
    if (point.kind === "end-job" || (point.kind === "return" && point.bound === null)) ends.push(i);
  }
  const { avoidable, forced } = placeEnds(graph, ends);
  return {
    graph,
    reachable: reachableFrom(points),
    asks,
    returns,
    spans: stretches(spans, points.length),
    avoidable,
    forced,
  };
}

/** Where a point leads, whatever is decided. */
function nextOf(point: Point, at: number): readonly number[] {
  switch (point.kind) {
    case "test":
      return [at + 1, point.elseAt];
    case "return":
      return point.bound === null ? [point.to] : [at + 1, point.to];
    case "jump":
    case "go-to":
      return [point.to];
    case "end":
    case "end-job":
      return [];
    default:
      return [at + 1];
  }
}

function reachableFrom(points: readonly Point[]): Uint8Array {
  const reachable = new Uint8Array(points.length);
  const open = [0];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    while (reachable[at] === 0) {
      reachable[at] = 1;
      const point = points[at] as Point;
      if (PASSED.has(point.kind)) {
        at++;
        continue;
      }
      const [next, other] = nextOf(point, at);
      if (other !== undefined) open.push(other);
      if (next === undefined) break;
      at = next;
    }
  }
  return reachable;
}

/** The spans over each point: points between two edges of spans share a list. */
function stretches(spans: readonly Span[], length: number): (point: number) => readonly Span[] {
  const edges = [...new Set([0, length, ...spans.flatMap((s) => [s.from, s.to + 1])])].sort((a, b) => a - b);
  const lists: Span[][] = edges.map(() => []);
  for (const span of spans) {
    for (let i = lowerBound(edges, span.from); i < edges.length && (edges[i] as number) <= span.to; i++)
      lists[i]?.push(span);
  }
  return (point) => lists[lowerBound(edges, point + 1) - 1] ?? [];
}

/** The index of the first number that is not under the bound. */
export function lowerBound(sorted: readonly number[], bound: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] as number) < bound) low = middle + 1;
    else high = middle;
  }
  return low;
}

function placeEnds(graph: Graph, ends: readonly number[]): Pick<Control, "avoidable" | "forced"> {
  const avoidable = new Map<number, number[]>();
  const forced: number[] = [];
  const tests = testsByVariable(graph);
  const judged = new Map<number, boolean>();
  const leads = thoroughfares(graph);
  const exits = graph.controls.filter((at) => graph.points[at]?.kind === "go-to");
  exits.push(...ends);
  exits.sort((a, b) => a - b);
  const isHome = (region: number): boolean => {
    let good = judged.get(region);
    if (good === undefined) {
      good = canBeAvoided(graph, region, exits, tests, leads);
      judged.set(region, good);
    }
    return good;
  };
  for (const end of ends) {
    let region = (graph.points[end] as Point).region;
    while (region >= 0 && !isHome(region)) region = (graph.regions[region] as Region).parent;
    if (region < 0) forced.push(end);
    else avoidable.set(region, [...(avoidable.get(region) ?? []), end]);
  }
  return { avoidable, forced };
}

function testsByVariable(graph: Graph): ReadonlyMap<number, readonly number[]> {
  const tests = new Map<number, number[]>();
  for (const i of graph.controls) {
    const point = graph.points[i];
    if (point?.kind !== "test") continue;
    const list = tests.get(point.variable);
    if (list) list.push(i);
    else tests.set(point.variable, [i]);
  }
  return tests;
}

/**
 * Whether the ends in a region can be avoided whatever was decided before: what decides about them is decided
 * nowhere else, and some answers lead straight through.
 */
function canBeAvoided(
  graph: Graph,
  index: number,
  exits: readonly number[],
  tests: ReadonlyMap<number, readonly number[]>,
  leads: (region: number, deciding: ReadonlySet<number>) => boolean,
): boolean {
  const region = graph.regions[index] as Region;
  const deciding = new Set<number>();
  for (let i = lowerBound(exits, region.start); i < exits.length && (exits[i] as number) < region.end; i++) {
    let at = (graph.points[exits[i] as number] as Point).parent;
    for (; at >= region.start; at = (graph.points[at] as Point).parent) deciding.add(at);
  }
  for (const at of deciding) {
    const all = tests.get((graph.points[at] as TestPoint).variable) ?? [];
    if ((all[0] as number) < region.start || (all[all.length - 1] as number) >= region.end) return false;
  }
  return leads(index, deciding);
}

/** Whether a way leads through a region, by segment, which says so itself where none of its jumps leads elsewhere. */
const leadsIn = keptBySegment((_segment: Segment, _variables: Variables) => new Map<number, boolean>());

function thoroughfares(graph: Graph): (region: number, deciding: ReadonlySet<number>) => boolean {
  const { segments, variables, regions } = graph;
  const firsts = segments.map(({ at }) => at.regions);
  return (index, deciding) => {
    const find = (): boolean => leadsThrough(graph, regions[index] as Region, deciding);
    const one = segments[lowerBound(firsts, index + 1) - 1];
    if (!one || one.segment.pending.length > 0) return find();
    const known = leadsIn(one.segment, variables);
    const own = index - one.at.regions;
    const leads = known.get(own) ?? find();
    known.set(own, leads);
    return leads;
  };
}

/** Whether some answers to the deciding tests lead from a region's first point to its end without leaving it. */
function leadsThrough({ points, variables }: Graph, region: Region, deciding: ReadonlySet<number>): boolean {
  const slots = [...new Set([...deciding].map((at) => (points[at] as TestPoint).variable))];
  const full = slots.map((v) => (variables.all[v] as Variable).full);
  const seen = new Set<string>();
  const open: { at: number; left: readonly bigint[] }[] = [{ at: region.start, left: full }];
  for (let now = open.pop(); now; now = open.pop()) {
    const { at, left } = now;
    if (at === region.end) return true;
    const key = `${at},${left.join()}`;
    const point = points[at];
    if (!point || at < region.start || at > region.end || seen.has(key)) continue;
    seen.add(key);
    if (point.kind === "return") continue;
    if (point.kind !== "test" || !deciding.has(at)) {
      for (const next of nextOf(point, at)) open.push({ at: next, left });
      continue;
    }
    const slot = slots.indexOf(point.variable);
    const yes = (left[slot] as bigint) & point.mask;
    const no = (left[slot] as bigint) & ~point.mask;
    // Where its returns are used up, an outcome is passed by and its `if still` is entered: only first passes count here.
    const enters = !point.usedUp && yes !== 0n;
    const passes = point.usedUp ? (left[slot] as bigint) : no;
    if (enters) open.push({ at: at + 1, left: left.with(slot, yes) });
    if (passes !== 0n) open.push({ at: point.elseAt, left: left.with(slot, passes) });
  }
  return false;
}
