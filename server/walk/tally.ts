/**
 * How many ways lead through a procedure, which are the shortest and the longest, and how many take a certain branch:
 * counted over the net of configurations from both ends, exactly. A way is told from another by how the tests that it
 * comes to are answered; each return that is taken makes it another way.
 */

import { type Net, type NoNet, netOf } from "./configurations";
import type { Graph } from "./graph";
import { type Round, roundFinder, roundsOf } from "./liveness";
import type { TestPoint } from "./points";

/** A test, and whether its body is entered. */
export interface Branch {
  readonly test: number;
  readonly into: boolean;
}

/** One way. */
export interface Way {
  /** Steps and checks that are begun on it, each as often as it is. */
  readonly steps: number;
  /** What is decided on it, in order, wherever something else could have been. */
  readonly decisions: readonly Branch[];
  /** The point where it ends: the last of the graph, or one that ends the job unfinished. */
  readonly end: number;
}

export interface Tally {
  readonly kind: "counted";
  readonly graph: Graph;
  /** All ways to an end. */
  readonly ways: bigint;
  /** The ways to each point that ends the job, the last point of the graph among them where one comes there. */
  readonly ends: ReadonlyMap<number, bigint>;
  /** Of the ways to the last point; null where none comes there. */
  readonly shortest: Way | null;
  readonly longest: Way | null;
  /** The shortest of the ways that end before; null where there are none. */
  readonly soonest: Way | null;
  /**
   * How many ways take a branch at least once. Null where so much is done again around it, and around those asked about
   * before, that counting would take too long.
   */
  readonly through: (branch: Branch) => bigint | null;
}

/** Why ways are not counted. */
export type NoTally = NoNet & { readonly graph: Graph };

/** Counts the ways through a graph; `most` is how much may be remembered on the way. */
export function tallyOf(graph: Graph, most?: number): Tally | NoTally {
  const net = netOf(graph, most);
  if ("kind" in net) return { ...net, graph };
  const counts = countedIn(net);
  const last = graph.points.length - 1;
  const ends = new Map<number, bigint>();
  net.at.forEach((at, c) => {
    if (graph.points[at]?.kind !== "test") ends.set(at, (ends.get(at) ?? 0n) + (counts.to[c] as bigint));
  });
  return {
    kind: "counted",
    graph,
    ways: counts.from[0] as bigint,
    ends,
    shortest: bestWay(net, -1, (end) => end === last),
    longest: bestWay(net, 1, (end) => end === last),
    soonest: bestWay(net, -1, (end) => end !== last),
    through: throughOf(net, counts),
  };
}

interface Counts {
  /** Ways from the start to each configuration, and from each to an end. */
  readonly to: readonly bigint[];
  readonly from: readonly bigint[];
}

function countedIn({ at, into, past, order, graph }: Net): Counts {
  const to: bigint[] = at.map(() => 0n);
  const from: bigint[] = at.map(() => 0n);
  to[0] = 1n;
  for (const c of order) {
    for (const next of [into[c] as number, past[c] as number])
      if (next >= 0) to[next] = (to[next] as bigint) + (to[c] as bigint);
  }
  for (let i = order.length - 1; i >= 0; i--) {
    const c = order[i] as number;
    const [a, b] = [into[c] as number, past[c] as number];
    const isEnd = graph.points[at[c] as number]?.kind !== "test";
    from[c] = isEnd ? 1n : (a < 0 ? 0n : (from[a] as bigint)) + (b < 0 ? 0n : (from[b] as bigint));
  }
  return { to, from };
}

/** Steps weigh more than any number of decisions. */
const STEP = 2 ** 24;

/**
 * The way with the fewest steps (`sign` -1) or the most to one of some ends; of several, the one with the fewest
 * decisions that lead anywhere else than straight on. Null where no way leads there.
 */
function bestWay(net: Net, sign: 1 | -1, isMeant: (end: number) => boolean): Way | null {
  const { graph, at, into, past, order } = net;
  const worth = new Float64Array(at.length).fill(Number.NEGATIVE_INFINITY);
  const of = (next: number, steps: number, turns: number): number =>
    next < 0 ? Number.NEGATIVE_INFINITY : sign * steps * STEP - turns + (worth[next] as number);
  const worthOf = (c: number, isIn: boolean): number => {
    const test = graph.points[at[c] as number] as TestPoint;
    return isIn
      ? of(into[c] as number, net.intoSteps[c] as number, test.passes ? 0 : 1)
      : of(past[c] as number, net.pastSteps[c] as number, 0);
  };
  for (let i = order.length - 1; i >= 0; i--) {
    const c = order[i] as number;
    const end = at[c] as number;
    if (graph.points[end]?.kind === "test") worth[c] = Math.max(worthOf(c, false), worthOf(c, true));
    else if (isMeant(end)) worth[c] = 0;
  }
  if (worth[0] === Number.NEGATIVE_INFINITY) return null;
  const decisions: Branch[] = [];
  let steps = net.firstSteps;
  let c = 0;
  while (graph.points[at[c] as number]?.kind === "test") {
    const isIn = worthOf(c, true) > worthOf(c, false);
    const isOpen = (into[c] as number) >= 0 && (past[c] as number) >= 0;
    if (isOpen) decisions.push({ test: at[c] as number, into: isIn });
    steps += (isIn ? net.intoSteps[c] : net.pastSteps[c]) as number;
    c = (isIn ? into[c] : past[c]) as number;
  }
  return { steps, decisions, end: at[c] as number };
}

/** What is done again, with its configurations in order, and how many ways come into each from outside. */
interface Inside extends Round {
  readonly inside: number[];
  readonly entering: Map<number, bigint>;
}

/** Counting once more what lies in a round is given up after so many configurations in all. */
const MOST_LOOKS = 30_000_000;

function throughOf(net: Net, { to, from }: Counts): Tally["through"] {
  const { at, into, past, order } = net;
  const rounds = roundsOf(net.graph).map((round): Inside => ({ ...round, inside: [], entering: new Map() }));
  const find = roundFinder(rounds);
  const roundAt = (point: number): Inside | undefined => rounds[find(point)];
  const roundOf = at.map(roundAt);
  if (roundOf[0]) roundOf[0].entering.set(0, 1n);
  for (const c of order) {
    roundOf[c]?.inside.push(c);
    for (const next of [into[c] as number, past[c] as number]) {
      const round = next < 0 ? undefined : roundOf[next];
      if (round && round !== roundOf[c])
        round.entering.set(next, (round.entering.get(next) ?? 0n) + (to[c] as bigint));
    }
  }
  const here = new Map<number, number[]>();
  at.forEach((point, c) => {
    const list = here.get(point);
    if (list) list.push(c);
    else here.set(point, [c]);
  });
  let looks = 0;
  return (branch) => {
    const round = roundAt(branch.test);
    if (round) {
      looks += round.inside.length;
      return looks > MOST_LOOKS ? null : takingIn(net, round, branch, from);
    }
    return (here.get(branch.test) ?? []).reduce((ways, c) => {
      const next = (branch.into ? into[c] : past[c]) as number;
      return next < 0 ? ways : ways + (to[c] as bigint) * (from[next] as bigint);
    }, 0n);
  };
}

/** How many ways take a branch in a round: those that come into it, less those that leave it without having taken it. */
function takingIn(net: Net, round: Inside, branch: Branch, from: readonly bigint[]): bigint {
  const { graph, at, into, past } = net;
  const without = new Map(round.entering);
  let ways = 0n;
  for (const [c, coming] of round.entering) ways += coming * (from[c] as bigint);
  for (const c of round.inside) {
    const coming = without.get(c);
    if (coming === undefined) continue;
    const point = at[c] as number;
    if (graph.points[point]?.kind !== "test") ways -= coming;
    for (const isIn of [false, true]) {
      const next = (isIn ? into[c] : past[c]) as number;
      if (next < 0 || (point === branch.test && isIn === branch.into)) continue;
      const target = at[next] as number;
      if (target < round.start || target > round.end) ways -= coming * (from[next] as bigint);
      else without.set(next, (without.get(next) ?? 0n) + coming);
    }
  }
  return ways;
}
