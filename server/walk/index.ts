/**
 * The walk-through as the rest of the house sees it: every way through a procedure, followed thing by thing.
 */
import type { Owner, Procedure } from "../model";
import { watchClocks } from "./clocks";
import { type Control, controlOf } from "./control";
import { faultsOf, type WalkFault } from "./faults";
import { type Graph, graphOf } from "./graph";
import { watchLikes } from "./likes";
import { watchProofs, watchTesters } from "./proofs";
import type { HouseHazard } from "./raised";
import { type Reach, type Reached, reachedIn } from "./reach";
import { type Relations, relationsOf } from "./relations";
import { watchShafts } from "./shafts";
import { sliceOf } from "./slice";
import { standingOf } from "./standing";
import { followStates, type States } from "./states";
import { type Tellings, tellingsIn } from "./tellings";
import type { Standing } from "./things";
import { watchWaits } from "./waits";

export { followed, type Numbered, numbering, numbersByLine } from "../model";
export { ACTS, type ActRow, actRow, DEPARTURES, type Departure, FASTENER_STATES } from "./acts";
export {
  type Asked,
  type Difference,
  differencesAt,
  isInLine,
  owedAtEnd,
  type Stand,
  type StateAt,
  standsAt,
  stateAt,
  type ThingAt,
  type TurningStand,
} from "./at";
export type { WalkFault } from "./faults";
export { type Graph, graphOf } from "./graph";
export { FACTS, HAZARDS, type Hazard, hazardNamed } from "./hazards";
export { pointBefore } from "./point-before";
export { type ActPoint, originOf, type Point, placeOf } from "./points";
export type { HouseHazard, Raised } from "./raised";
export type { Reach } from "./reach";
export type { Relations } from "./relations";
export { LEADS_AWAY } from "./stranded";
export { type Branch, type NoTally, type Tally, tallyOf, type Way } from "./tally";
export type { Tellings, Untold, Weak } from "./tellings";

/** What following every way through a procedure showed. */
export interface Walk {
  readonly procedure: Procedure;
  readonly graph: Graph;
  readonly relations: Relations;
  /** What is wrong with the states of things, and times that are passed. */
  readonly faults: readonly WalkFault[];
  /** Where no way leads. */
  readonly reach: () => Reach;
  /** Hazards of which no caution tells in time or strongly enough; those of the house beside those of trade and machine. */
  readonly tellings: (house: readonly HouseHazard[]) => Tellings;
}

const kept = new WeakMap<Owner, Followed>();

interface Followed {
  readonly graph: Graph;
  readonly relations: Relations;
  readonly states: States;
  /** Where no way leads, as far as that was asked: of this graph or of one before it. */
  reached: Reached | null;
}

/**
 * Follows every way through a procedure. It must not be doubtful. Of the same procedure before an edit, what the edit
 * cannot have touched is taken over; the outcome is the same as when it is followed afresh.
 */
export function followProcedure(procedure: Procedure): Walk {
  const { owns } = procedure.thing;
  const before = owns ? kept.get(owns) : undefined;
  const graph = graphOf(procedure, before?.graph);
  const control = controlOf(graph);
  // What the names mean stays as it was where the graph could be taken over.
  const relations =
    before && before.graph.variables === graph.variables ? before.relations : relationsOf(procedure);
  const starts = standingOf(graph, "starts", relations);
  const ends = standingOf(graph, "ends", relations);
  const states = followStates(control, relations, starts, ends, before?.states ?? null);
  const now: Followed = { graph, relations, states, reached: before?.reached ?? null };
  if (owns) kept.set(owns, now);
  return {
    procedure,
    graph,
    relations,
    faults: [
      ...states.faults,
      ...timeFaults(control, relations),
      ...otherFaults(control, relations, starts, states),
    ],
    reach: once(() => {
      now.reached = reachedIn(control, now.reached);
      return now.reached.reach;
    }),
    tellings: remembered((house) => tellingsIn(control, relations, starts, house)),
  };
}

function timeFaults(control: Control, relations: Relations): WalkFault[] {
  const found = watchClocks(control.graph, relations).flatMap((watch) =>
    faultsOf(sliceOf(control, watch.points), watch),
  );
  return found.filter((fault, i) => found.findIndex((f) => f.point === fault.point) === i);
}

/** What rests on more than one thing's state: proofs, testers, things that are alike, times that must pass, what turns. */
function otherFaults(
  control: Control,
  relations: Relations,
  starts: Standing,
  { faults }: States,
): WalkFault[] {
  const { graph } = control;
  const watches = [
    ...watchProofs(graph, relations),
    ...watchTesters(graph),
    ...watchLikes(graph, relations),
    ...watchWaits(graph, relations),
    ...watchShafts(graph, relations, starts),
  ];
  const found = watches.flatMap((watch) => faultsOf(sliceOf(control, watch.points), watch));
  // A pin that is never taken out at all is said once, not also wherever it is in the way from then on.
  const leftIn = faults.filter((f) => f.code === "temporary-left-in" && f.way.length === 0);
  return found.filter(
    // Behind where it was put in, or before that and come to by a return from behind.
    ({ thing, point, back }) =>
      !leftIn.some((left) => left.thing === thing && (left.since < point || left.since < back)),
  );
}

function once<T>(work: () => T): () => T {
  const call = remembered(work);
  return () => call(null);
}

function remembered<A, B>(work: (a: A) => B): (a: A) => B {
  let last: { readonly a: A; readonly b: B } | null = null;
  return (a) => {
    if (!last || last.a !== a) last = { a, b: work(a) };
    return last.b;
  };
}
