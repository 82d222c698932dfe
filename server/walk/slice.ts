/**
 * The slice of a graph that one thing needs: its own points, the tests and jumps that can pass them by, and the
 * asks that open those tests again. All between is skipped.
 */
import type { Region } from "./build";
import { type Control, lowerBound } from "./control";
import type { JumpPoint, Point, ReturnPoint } from "./points";

export interface Slice {
  readonly control: Control;
  /** The points it needs, in order. */
  readonly points: readonly number[];
  readonly own: ReadonlySet<number>;
  /** Whether it has only its own points, one after the other. */
  readonly straight: boolean;
  /** Remembered variables, and after them counters: each until the last point that needs it. */
  readonly memory: readonly Memory[];
  /** The first point of the slice that is not before a point. */
  readonly from: (point: number) => number;
}

/** Something remembered on the way. */
export interface Memory {
  readonly kind: "variable" | "counter";
  readonly index: number;
  /** What stands there before anything is known, and after the last use. */
  readonly base: bigint;
  readonly lastUse: number;
}

/** The slice for some points of a thing; those that no way reaches are left out. */
export function sliceOf(control: Control, ownPoints: Iterable<number>): Slice {
  const own = new Set<number>();
  for (const point of ownPoints) if (control.reachable[point] === 1) own.add(point);
  const needed = isPlain(control, own) ? own : close(control, own);
  const points = [...needed].sort((a, b) => a - b);
  const straight =
    points.length === own.size && !points.some((at) => parts(control.graph.points[at] as Point));
  return {
    control,
    points,
    own,
    straight,
    memory: straight ? [] : memoryOf(control, points),
    from: (point) => points[lowerBound(points, point)] ?? -1,
  };
}

/** Whether ways part at a point, or lead away from it. */
const parts = ({ kind }: Point): boolean =>
  kind === "test" || kind === "return" || kind === "jump" || kind === "go-to";

/** Whether nothing decides about any of some points: true of most things. */
function isPlain({ graph, spans, forced }: Control, own: ReadonlySet<number>): boolean {
  if (own.size === 0) return true;
  if (forced.length > 0) return false;
  for (const at of own) {
    const { parent, region } = graph.points[at] as Point;
    if (parent >= 0 || region >= 0 || spans(at).length > 0) return false;
  }
  return true;
}

/** Adds what the points of a set need until nothing is missing. */
function close(control: Control, own: ReadonlySet<number>): Set<number> {
  const { graph, spans, avoidable, asks, returns, forced } = control;
  const needed = new Set<number>();
  const regionsSeen = new Set<number>();
  const open = [...own, ...forced];
  const addRegion = (at: number): void => {
    for (let r = at; r >= 0 && !regionsSeen.has(r); r = (graph.regions[r] as Region).parent) {
      regionsSeen.add(r);
      open.push(...(avoidable.get(r) ?? []));
    }
  };
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    if (needed.has(at) || control.reachable[at] === 0) continue;
    needed.add(at);
    const point = graph.points[at] as Point;
    for (const span of spans(at)) open.push(span.jump);
    addRegion(point.region);
    if (point.parent >= 0) open.push(point.parent);
    if (point.kind !== "test") continue;
    open.push(
      ...(graph.regions[point.region]?.tests ?? []),
      ...point.counters.map((c) => returns[c] as number),
    );
    open.push(...(asks.get(point.variable) ?? []));
    const last = point.elseAt - 1;
    if (graph.points[last]?.kind === "jump" && graph.points[last]?.parent === at) open.push(last);
  }
  return needed;
}

function memoryOf(control: Control, points: readonly number[]): readonly Memory[] {
  const { graph } = control;
  const lastUse = new Map<string, number>();
  const loops: [number, number][] = [];
  for (const at of points) {
    const point = graph.points[at] as Point;
    if (point.kind === "test") {
      lastUse.set(`v${point.variable}`, at);
      for (const counter of point.counters) lastUse.set(`c${counter}`, at);
    }
    if (point.kind === "return" && point.counter >= 0) lastUse.set(`c${point.counter}`, at);
    if (isBack(point, at)) loops.push([point.to, at]);
  }
  return [...lastUse].map(([key, last]): Memory => {
    const index = Number(key.slice(1));
    const variable = key.startsWith("v") ? graph.variables.all[index] : undefined;
    const base = variable?.once ? variable.full : 0n;
    return { kind: variable ? "variable" : "counter", index, base, lastUse: throughLoops(last, loops) };
  });
}

function isBack(point: Point, at: number): point is JumpPoint | ReturnPoint {
  return (point.kind === "return" || point.kind === "go-to") && point.to <= at;
}

/** The last point at which something used last at a point can be used again. */
function throughLoops(last: number, loops: readonly (readonly [number, number])[]): number {
  let until = last;
  for (let again = true; again; ) {
    again = false;
    for (const [from, to] of loops) {
      if (from <= until && until < to) {
        until = to;
        again = true;
      }
    }
  }
  return until;
}
