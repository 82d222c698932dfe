/**
 * Follows one automaton through its slice of the graph, on every way: breadth first over point, state and what is
 * remembered. What leads to each configuration is kept, so that a fault gets its shortest way.
 */
import { type Memories, makeMemories } from "./memory";
import type { Point, ReturnPoint } from "./points";
import type { Slice } from "./slice";
import type { Choice } from "./variables";

/** How the state of one thing moves along its own points. States are small whole numbers. */
export interface Automaton {
  /** The state at the start; with several, each with the machines it holds for. */
  readonly starts: readonly { readonly state: number; readonly where: Choice | null }[];
  readonly points: Iterable<number>;
  /** The state after a point; reports marks of what is wrong there. */
  readonly step: (state: number, point: number, report: (mark: number) => void) => number;
}

/** More configurations of one thing than this are not followed; that is said aloud. */
export const MOST_CONFIGURATIONS = 200_000;

/**
 * Ways to look at: those that enter some tests at least once, and never enter some others. A way that shows the mark
 * looked for is not followed further: what comes after it is taken as if the fault were none.
 */
export interface Demand {
  readonly until: string;
  readonly into: readonly number[];
  readonly never: ReadonlySet<number>;
}

const ANY_WAY: Demand = { until: "", into: [], never: new Set() };

/** At most so many tests can be demanded to be entered: each takes a bit. */
export const MOST_DEMANDED = 20;

export interface Followed {
  /** The first configuration of each fault. */
  readonly faults: readonly Found[];
  readonly trail: Trail;
  /** How often a point was come to on the ways demanded, and how often with a mark. */
  readonly visits: ReadonlyMap<number, number>;
  readonly marked: ReadonlyMap<string, number>;
  /** The limit was met: what was found is true, but there may be more. */
  readonly cutShort: boolean;
}

export interface Found {
  readonly point: number;
  readonly mark: number;
  readonly configuration: number;
}

/** The configurations, by index: where, in which state, come from where, and by which branch of its test (-1: none). */
export interface Trail {
  readonly at: readonly number[];
  readonly state: readonly number[];
  readonly from: readonly number[];
  readonly branch: readonly number[];
}

interface Run {
  readonly slice: Slice;
  readonly automaton: Automaton;
  readonly demand: Demand;
  readonly memories: Memories;
  readonly at: number[];
  readonly state: number[];
  readonly memory: number[];
  readonly from: number[];
  readonly branch: number[];
  /** Which of the tests demanded were entered, by bit. */
  readonly taken: number[];
  /** Configurations to look at, and those one decision further. */
  now: number[];
  later: number[];
}

/** The key of a mark at a point in `marked`. */
export const markKey = (point: number, mark: number): string => `${point}:${mark}`;

/** Follows every way, or only those demanded. */
export function follow(slice: Slice, automaton: Automaton, demand: Demand = ANY_WAY): Followed {
  const run: Run = {
    slice,
    automaton,
    demand,
    memories: makeMemories(slice),
    at: [],
    state: [],
    memory: [],
    from: [],
    branch: [],
    taken: [],
    now: [],
    later: [],
  };
  const faults: Found[] = [];
  const visits = new Map<number, number>();
  const marked = new Map<string, number>();
  const seen = new Map<number, Set<number | string>>();
  const all = 2 ** demand.into.length - 1;
  let cutShort = false;
  begin(run);
  while (run.now.length > 0 && !cutShort) {
    for (let i = 0; i < run.now.length && !cutShort; i++) {
      const configuration = run.now[i] as number;
      if (!slice.straight && seenBefore(run, seen, configuration)) continue;
      const point = run.at[configuration] as number;
      let state = run.state[configuration] as number;
      if (slice.own.has(point)) {
        const marks: number[] = [];
        state = automaton.step(state, point, (mark) => marks.push(mark));
        const counts = run.taken[configuration] === all;
        if (counts) visits.set(point, (visits.get(point) ?? 0) + 1);
        if (counts && marks.some((mark) => markKey(point, mark) === demand.until)) run.now[i] = -1;
        for (const mark of counts ? marks : []) {
          const key = markKey(point, mark);
          const before = marked.get(key) ?? 0;
          marked.set(key, before + 1);
          if (before === 0) faults.push({ point, mark, configuration });
        }
      }
      if (run.now[i] !== -1) proceed(run, configuration, state);
      cutShort = run.at.length > MOST_CONFIGURATIONS;
    }
    [run.now, run.later] = [run.later, []];
  }
  return { faults, trail: run, visits, marked, cutShort };
}

function begin(run: Run): void {
  const first = run.slice.from(0);
  if (first < 0) return;
  for (const { state, where } of run.automaton.starts) {
    const memory = where ? run.memories.knowing(run.memories.start, where) : run.memories.start;
    add(run, { point: first, state, memory, from: -1, branch: -1, cost: 0 });
  }
}

function seenBefore(run: Run, seen: Map<number, Set<number | string>>, configuration: number): boolean {
  const point = run.at[configuration] as number;
  const state = (run.state[configuration] as number) * 2 ** 20 + (run.memory[configuration] as number);
  const key = run.demand.into.length === 0 ? state : `${state},${run.taken[configuration]}`;
  let keys = seen.get(point);
  if (!keys) {
    keys = new Set();
    seen.set(point, keys);
  }
  if (keys.has(key)) return true;
  keys.add(key);
  return false;
}

interface Next {
  readonly point: number;
  readonly state: number;
  readonly memory: number;
  readonly from: number;
  readonly branch: number;
  readonly cost: 0 | 1;
}

/** Adds a configuration at a point of the slice; decisions other than going on come later in the search. */
function add(run: Run, { point, state, memory, from, branch, cost }: Next): void {
  if (point < 0) return;
  const index = run.at.push(point) - 1;
  run.state.push(state);
  run.memory.push(run.slice.straight ? memory : run.memories.forget(memory, point));
  run.from.push(from);
  run.branch.push(branch);
  run.taken.push(from < 0 ? 0 : takenBy(run, from, branch));
  (cost === 0 ? run.now : run.later).push(index);
}

function takenBy({ demand, taken, at }: Run, from: number, branch: number): number {
  const before = taken[from] as number;
  if (branch !== 1 || demand.into.length === 0) return before;
  const bit = demand.into.indexOf(at[from] as number);
  return bit < 0 ? before : before | (1 << bit);
}

function proceed(run: Run, configuration: number, state: number): void {
  const at = run.at[configuration] as number;
  const memory = run.memory[configuration] as number;
  const point = run.slice.control.graph.points[at] as Point;
  const go = (to: number, kept = memory, branch = -1, cost: 0 | 1 = 0): void =>
    add(run, { point: run.slice.from(to), state, memory: kept, from: configuration, branch, cost });
  switch (point.kind) {
    case "end":
    case "end-job":
      break;
    case "test":
      decide(run, at, memory, go);
      break;
    case "ask":
      go(at + 1, run.memories.reopen(memory, point.variable));
      break;
    case "return":
      goBack(run, point, at, memory, go);
      break;
    case "jump":
    case "go-to":
      go(point.to);
      break;
    default:
      go(at + 1);
  }
}

type Go = (to: number, memory?: number, branch?: number, cost?: 0 | 1) => void;

function goBack(run: Run, { bound, counter, to }: ReturnPoint, at: number, memory: number, go: Go): void {
  if (bound === null) go(to);
  else if (run.memories.used(memory, counter) >= bound) go(at + 1);
  else go(to, run.memories.use(memory, counter));
}

function decide(run: Run, at: number, memory: number, go: Go): void {
  const { graph } = run.slice.control;
  const point = graph.points[at] as Extract<Point, { kind: "test" }>;
  const usedUp =
    point.counters.length > 0 &&
    point.counters.every((c) => run.memories.used(memory, c) >= (graph.bounds[c] as number));
  const mask = usedUp === point.usedUp ? point.mask : 0n;
  const variable = point.variable;
  const into = run.memories.narrow(memory, variable, mask);
  const past = run.memories.narrow(memory, variable, ~mask);
  if (past !== null) go(point.elseAt, past, 0);
  if (into !== null && !run.demand.never.has(at)) go(at + 1, into, 1, point.passes ? 0 : 1);
}
