/**
 * Every way through a procedure at once, as a net of configurations: the tests that ways come to, each with what is
 * remembered there. Two ways that come to a test with the same memory go on alike and share a configuration, so the net is
 * small where its ways are many. What is decided and counted means what it means to `follow.ts`; unlike a slice, the net
 * holds all tests, so what no later test needs is forgotten at once (liveness of variables, as compilers work it out).
 */
import type { Graph } from "./graph";
import { type Alive, aliveIn } from "./liveness";
import { FULL, type Masks, masksOf, UNASKED } from "./masks";
import type { Point, ReturnPoint, TestPoint } from "./points";

/** The configurations by index; the first is where all ways begin. */
export interface Net {
  readonly graph: Graph;
  /** The test, or the end, that a configuration stands before. */
  readonly at: readonly number[];
  /** The configuration that its test leads to where its body is entered and where it is not; -1 where it cannot be. */
  readonly into: readonly number[];
  readonly past: readonly number[];
  /** Steps and checks that are begun on the way there. */
  readonly intoSteps: readonly number[];
  readonly pastSteps: readonly number[];
  /** Steps and checks begun before the first test. */
  readonly firstSteps: number;
  /** The configurations in an order in which each comes before those that it leads to. */
  readonly order: readonly number[];
}

/** Why there is no net. */
export type NoNet =
  /** A return that nothing bounds: ways without number. */
  | { readonly kind: "endless"; readonly at: number }
  /** More is to be remembered than can be; the test where it is most, and the variables remembered there. */
  | { readonly kind: "too-many"; readonly at: number; readonly variables: readonly number[] };

/** More than this is not remembered, over all configurations; that is said aloud. */
export const MOST_REMEMBERED = 10_000_000;

/** More jumps than this between two tests are not followed: returns within returns within returns. */
const MOST_JUMPS = 10_000_000;

interface Maker {
  readonly graph: Graph;
  readonly alive: Alive;
  readonly begun: Int32Array;
  readonly nextControl: Int32Array;
  readonly masks: Masks;
  readonly at: number[];
  /** What is remembered in the configurations, one after the other, and where that of each begins. */
  readonly cells: number[];
  readonly cellAt: number[];
  readonly into: number[];
  readonly past: number[];
  readonly intoSteps: number[];
  readonly pastSteps: number[];
  /** Configurations by test and memory. */
  readonly known: Map<number, Map<number | string, number>>;
  /** What is remembered now, by item: as at the start, but for the items that were changed. */
  readonly now: Int32Array;
  readonly start: Int32Array;
  readonly changed: number[];
}

/** Makes the net of a graph. */
export function netOf(graph: Graph, most = MOST_REMEMBERED): Net | NoNet {
  const maker = makerOf(graph);
  const first = advance(maker, 0);
  if (typeof first !== "object") return { kind: "endless", at: first };
  stand(maker, first.at);
  for (let c = 0; c < maker.at.length; c++) {
    const problem = expand(maker, c);
    if (problem >= 0) return { kind: "endless", at: problem };
    if (maker.at.length + maker.cells.length > most) return crowded(maker);
  }
  const { at, into, past, intoSteps, pastSteps } = maker;
  return { graph, at, into, past, intoSteps, pastSteps, firstSteps: first.steps, order: ordered(maker) };
}

function makerOf(graph: Graph): Maker {
  const alive = aliveIn(graph);
  const start = new Int32Array(alive.items);
  graph.variables.all.forEach(({ once }, variable) => {
    start[variable] = once ? FULL : UNASKED;
  });
  return {
    graph,
    alive,
    begun: begunBefore(graph),
    nextControl: nextControls(graph),
    masks: masksOf(graph),
    at: [],
    cells: [],
    cellAt: [],
    into: [],
    past: [],
    intoSteps: [],
    pastSteps: [],
    known: new Map(),
    now: start.slice(),
    start,
    changed: [],
  };
}

/** How many steps and checks begin before each point. */
function begunBefore({ points, blocks }: Graph): Int32Array {
  const before = new Int32Array(points.length + 1);
  for (const { construct, start, end } of blocks)
    if ((construct === "step" || construct === "check") && end > start)
      before[start + 1] = (before[start + 1] as number) + 1;
  for (let i = 1; i < before.length; i++) before[i] = (before[i] as number) + (before[i - 1] as number);
  return before;
}

/** The first deciding point that is not before each point. */
function nextControls({ points, controls }: Graph): Int32Array {
  const next = new Int32Array(points.length);
  let from = 0;
  for (const control of controls) {
    next.fill(control, from, control + 1);
    from = control + 1;
  }
  return next;
}

/** Goes on from a point to the next test or end; the return that nothing bounds where it comes to one. */
function advance(maker: Maker, from: number): { readonly at: number; readonly steps: number } | number {
  const { graph, begun, nextControl } = maker;
  let point = from;
  let steps = 0;
  for (let jumps = 0; ; jumps++) {
    const at = nextControl[point] as number;
    steps += (begun[at + 1] as number) - (begun[point] as number);
    const control = graph.points[at] as Point;
    switch (control.kind) {
      case "test":
      case "end":
      case "end-job":
        return { at, steps };
      case "ask":
        change(maker, control.variable, FULL);
        point = at + 1;
        break;
      case "return": {
        if (control.bound === null || jumps > MOST_JUMPS) return at;
        point = goBack(maker, control, at);
        break;
      }
      case "jump":
      case "go-to":
        if (control.to <= at) return at;
        point = control.to;
        break;
      default:
        point = at + 1;
    }
  }
}

function goBack(maker: Maker, { counter, bound, to }: ReturnPoint, at: number): number {
  const item = maker.alive.counterAt + counter;
  const used = maker.now[item] as number;
  if (used >= (bound as number)) return at + 1;
  change(maker, item, used + 1);
  return to;
}

function change({ now, changed }: Maker, item: number, value: number): void {
  now[item] = value;
  changed.push(item);
}

/** The configuration before a test or end with what is remembered now; a new one where there is none yet. */
function stand(maker: Maker, at: number): number {
  const { now, cells } = maker;
  const items = maker.alive.before.get(at) ?? NONE;
  let here = maker.known.get(at);
  if (!here) {
    here = new Map();
    maker.known.set(at, here);
  }
  const key = keyOf(items, now);
  const found = here.get(key);
  if (found !== undefined) return found;
  const index = maker.at.push(at) - 1;
  maker.cellAt.push(cells.length);
  for (const item of items) cells.push(now[item] as number);
  maker.into.push(-1);
  maker.past.push(-1);
  maker.intoSteps.push(0);
  maker.pastSteps.push(0);
  here.set(key, index);
  return index;
}

const NONE: readonly number[] = [];

/** Ten small values go into one number, which is found sooner than a text. */
function keyOf(items: readonly number[], now: Int32Array): number | string {
  let key = 0;
  let isSmall = items.length <= 10;
  for (const item of items) {
    const value = now[item] as number;
    if (value >= 32) isSmall = false;
    key = key * 32 + value;
  }
  return isSmall ? key : items.map((item) => now[item]).join();
}

/** Has everything as it was remembered before the test of a configuration. */
function recall(maker: Maker, c: number): void {
  const { alive, at, cells, cellAt, now, start, changed } = maker;
  for (const item of changed) now[item] = start[item] as number;
  changed.length = 0;
  let cell = cellAt[c] as number;
  for (const item of alive.before.get(at[c] as number) ?? NONE) change(maker, item, cells[cell++] as number);
}

/** Takes both branches of a configuration's test; the return that nothing bounds where one comes to it, else -1. */
function expand(maker: Maker, c: number): number {
  const { graph, masks, now } = maker;
  const at = maker.at[c] as number;
  const point = graph.points[at] as Point;
  if (point.kind !== "test") return -1;
  recall(maker, c);
  const mask = isEntered(maker, point) ? point.mask : 0n;
  const set = now[point.variable] as number;
  const inside = masks.narrow(point.variable, set, mask);
  const beside = masks.narrow(point.variable, set, ~mask);
  if (inside >= 0) {
    change(maker, point.variable, inside);
    const next = advance(maker, at + 1);
    if (typeof next !== "object") return next;
    maker.into[c] = stand(maker, next.at);
    maker.intoSteps[c] = next.steps;
    recall(maker, c);
  }
  if (beside >= 0) {
    change(maker, point.variable, beside);
    const next = advance(maker, point.elseAt);
    if (typeof next !== "object") return next;
    maker.past[c] = stand(maker, next.at);
    maker.pastSteps[c] = next.steps;
  }
  return -1;
}

/** Whether an outcome's returns are used up or not, as it must be to enter it. */
function isEntered({ graph, alive, now }: Maker, { counters, usedUp }: TestPoint): boolean {
  const isOut =
    counters.length > 0 &&
    counters.every((c) => (now[alive.counterAt + c] as number) >= (graph.bounds[c] as number));
  return isOut === usedUp;
}

function crowded({ known, alive }: Maker): NoNet {
  let worst = -1;
  let most = 0;
  for (const [at, { size }] of known) {
    if (size <= most) continue;
    worst = at;
    most = size;
  }
  const variables = (alive.before.get(worst) ?? []).filter((item) => item < alive.counterAt);
  return { kind: "too-many", at: worst, variables };
}

/** An order along the ways (Kahn's): there is one, since every return counts up to its bound. */
function ordered({ at, into, past }: Maker): number[] {
  const waits = new Int32Array(at.length);
  for (const next of [into, past]) for (const n of next) if (n >= 0) waits[n] = (waits[n] as number) + 1;
  const order = [0];
  for (let i = 0; i < order.length; i++) {
    for (const next of [into, past]) {
      const n = next[order[i] as number] as number;
      if (n < 0) continue;
      waits[n] = (waits[n] as number) - 1;
      if (waits[n] === 0) order.push(n);
    }
  }
  return order;
}
