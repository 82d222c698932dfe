/**
 * The work as a flow: what is done one after the other, and where the ways part, with what belongs to each answer. The
 * tests of the walk's graph are found again by the lines they stand on, so that ways can be counted for each answer.
 */
import { constructs } from "../../grammar";
import type { Job, Spot } from "../model";
import type { Branch, Graph, Point } from "../walk";
import { isLead } from "./build-checks";

/** What comes one after the other: a step, check or line of work, a line that leads elsewhere, or a parting. */
export type Piece =
  | { readonly kind: "place"; readonly spot: Spot }
  | { readonly kind: "lead"; readonly spot: Spot }
  | Parting;

/** Where the ways part. */
export interface Parting {
  readonly kind: "parting";
  readonly of: "check" | "condition";
  /** The check, or the line of the condition; the first where several are one question. */
  readonly spot: Spot;
  /** In the order of the text; of a check, that none of its outcomes is entered comes last. */
  readonly answers: readonly Answer[];
}

export interface Answer {
  /** The outcome, the `when` or the `otherwise`; null where nothing is written for the answer. */
  readonly spot: Spot | null;
  /** The test of the graph that is answered so. */
  readonly branch: Branch;
  readonly pieces: readonly Piece[];
}

interface Maker {
  readonly graph: Graph;
  /** Tests by the line they stand on, in the order of the graph; those that are found are taken out. */
  readonly tests: Map<string, number[]>;
}

/** The flow of a job. The graph is that of its procedure, which must not be doubtful. */
export function flowIn(job: Job, graph: Graph): readonly Piece[] {
  const tests = new Map<string, number[]>();
  for (const at of graph.controls) {
    const point = graph.points[at] as Point;
    if (point.kind !== "test") continue;
    const { file, line, through } = point.spot;
    const key = keyOf(file, line, through?.line ?? -1);
    tests.set(key, [...(tests.get(key) ?? []), at]);
  }
  return piecesOf({ graph, tests }, job.root.children);
}

/** All partings of a flow, each before those in its answers. */
export function partingsIn(pieces: readonly Piece[]): readonly Parting[] {
  return pieces.flatMap((piece) =>
    piece.kind === "parting" ? [piece, ...piece.answers.flatMap((one) => partingsIn(one.pieces))] : [],
  );
}

const keyOf = (file: string, line: number, through: number): string => `${file} ${line} ${through}`;

/** The tests that stand on the line of a spot: the one meant, and those of the same line followed again later. */
function testsAt({ tests }: Maker, spot: Spot): number[] {
  let through = -1;
  for (let at = spot.parent; at; at = at.parent) if (at.entry.construct === "follow") through = at.line;
  return tests.get(keyOf(spot.file, spot.line, through)) ?? [];
}

/** The test on the line of a spot, taken out of those to be found; undefined where the graph has none. */
const testAt = (maker: Maker, spot: Spot): number | undefined => testsAt(maker, spot).shift();

/** Blocks that only hold what is done there. */
const HOLDERS: ReadonlySet<string> = new Set(["section", "for", "follow", "procedure"]);

function piecesOf(maker: Maker, spots: readonly Spot[]): readonly Piece[] {
  const pieces: Piece[] = [];
  for (let i = 0; i < spots.length; i++) {
    const spot = spots[i] as Spot;
    const { construct } = spot.entry;
    if (construct === "when") {
      const { parting, taken } = conditionAt(maker, spots, i);
      if (parting) pieces.push(parting);
      i += taken - 1;
    } else if (construct === "if") {
      const taken = spots.slice(i).findIndex(({ entry }) => entry.construct !== "if");
      const outcomes = spots.slice(i, taken < 0 ? undefined : i + taken);
      const parting = checkWith(maker, outcomes);
      if (parting) pieces.push(parting);
      i += outcomes.length - 1;
    } else if (HOLDERS.has(construct)) pieces.push(...piecesOf(maker, spot.children));
    else if (spot.number !== null) {
      pieces.push({ kind: "place", spot });
      // What a check does is done before it is asked how it turned out.
      const outcomes = spot.children.filter(holdsOutcome);
      const rest = spot.children.filter((child) => !outcomes.includes(child));
      pieces.push(...piecesOf(maker, rest), ...piecesOf(maker, outcomes));
    } else if (isLead(spot)) pieces.push({ kind: "lead", spot });
    else if (constructs.get(construct)?.act === true) pieces.push({ kind: "place", spot });
  }
  return pieces;
}

/** Whether an outcome of the check around is in a block, or in the `when` or `otherwise` that belongs to it. */
function holdsOutcome(spot: Spot): boolean {
  const { construct } = spot.entry;
  if (construct === "if") return true;
  if (construct !== "when" && construct !== "otherwise" && construct !== "for") return false;
  if (spot.children.some(holdsOutcome)) return true;
  const beside = spot.parent?.children ?? [];
  const other = beside[beside.indexOf(spot) + (construct === "when" ? 1 : -1)];
  const isPair = other?.entry.construct === (construct === "when" ? "otherwise" : "when");
  return isPair && construct !== "for" && other.children.some(holdsOutcome);
}

function checkWith(maker: Maker, outcomes: readonly Spot[]): Parting | null {
  const tests = outcomes.map((spot) => ({ spot, test: testAt(maker, spot) }));
  const known = tests.flatMap(({ spot, test }) => (test === undefined ? [] : [{ spot, test }]));
  const last = known.at(-1);
  let check: Spot | null = last?.spot ?? null;
  while (check && check.entry.construct !== "check") check = check.parent;
  if (!last || !check) return null;
  return {
    kind: "parting",
    of: "check",
    spot: check,
    answers: [
      ...known.map(({ spot, test }) => ({
        spot,
        branch: { test, into: true },
        pieces: piecesOf(maker, spot.children),
      })),
      ...(alwaysEntered(maker.graph, known)
        ? []
        : [{ spot: null, branch: { test: last.test, into: false }, pieces: [] }]),
    ],
  };
}

/** Whether one of some outcomes is entered whatever the check comes to, also when returns are used up. */
function alwaysEntered({ points, variables }: Graph, known: readonly { readonly test: number }[]): boolean {
  const tests = known.flatMap(({ test }) => {
    const point = points[test];
    return point?.kind === "test" ? [point] : [];
  });
  const [first] = tests;
  if (!first) return false;
  let left = variables.all[first.variable]?.full ?? 0n;
  for (const { mask, counters, usedUp } of tests) {
    if (usedUp) continue;
    const still = tests.find((one) => one.usedUp && one.counters.join() === counters.join());
    left &= ~(counters.length === 0 ? mask : mask & (still?.mask ?? 0n));
  }
  return left === 0n;
}

/**
 * The condition at a place among its neighbours, with its `otherwise`, and how many of them it takes. Conditions next to each
 * other of which always just one holds are one question.
 */
function conditionAt(
  maker: Maker,
  spots: readonly Spot[],
  index: number,
): { readonly parting: Parting | null; readonly taken: number } {
  const [spot, next] = [spots[index] as Spot, spots[index + 1]];
  const otherwise = next?.entry.construct === "otherwise" ? next : null;
  const taken = otherwise ? 2 : 1;
  const test = testAt(maker, spot);
  if (test === undefined) return { parting: null, taken };
  const into = { spot, branch: { test, into: true }, pieces: piecesOf(maker, spot.children) };
  const others = otherwise ? null : othersOf(maker, spots, index, test);
  if (others) {
    const answers = [into, ...others.map(({ spot: other, test: own }) => answerOf(maker, other, own))];
    return { parting: { kind: "parting", of: "condition", spot, answers }, taken: answers.length };
  }
  const past = {
    spot: otherwise,
    branch: { test, into: false },
    pieces: otherwise ? piecesOf(maker, otherwise.children) : [],
  };
  return { parting: { kind: "parting", of: "condition", spot, answers: [into, past] }, taken };
}

function answerOf(maker: Maker, spot: Spot, test: number): Answer {
  testAt(maker, spot);
  return { spot, branch: { test, into: true }, pieces: piecesOf(maker, spot.children) };
}

/** The conditions after one that together with it leave no case out and have none in common; null where there are none. */
function othersOf(
  maker: Maker,
  spots: readonly Spot[],
  index: number,
  first: number,
): readonly { readonly spot: Spot; readonly test: number }[] | null {
  const { points, variables } = maker.graph;
  const head = points[first];
  if (head?.kind !== "test") return null;
  let left = (variables.all[head.variable]?.full ?? 0n) & ~head.mask;
  const found: { spot: Spot; test: number }[] = [];
  for (let i = index + 1; left !== 0n; i++) {
    const spot = spots[i];
    const test = spot?.entry.construct === "when" ? testsAt(maker, spot)[0] : undefined;
    const point = test === undefined ? undefined : points[test];
    if (!spot || test === undefined || point?.kind !== "test" || point.variable !== head.variable)
      return null;
    if (spots[i + 1]?.entry.construct === "otherwise" || (point.mask & ~left) !== 0n) return null;
    left &= ~point.mask;
    found.push({ spot, test });
  }
  return found.length > 0 ? found : null;
}
