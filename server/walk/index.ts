/**
 * The walk-through as the rest of the house sees it: every way through a procedure, followed thing by thing.
 */
import type { Procedure } from "../model";
import { DEPARTURES } from "./acts";
import { watchClocks } from "./clocks";
import { type Control, controlOf } from "./control";
import { watchFastener } from "./fasteners";
import { faultsOf, type WalkFault } from "./faults";
import { type Graph, graphOf } from "./graph";
import type { HouseHazard } from "./raised";
import { type Relations, relationsOf } from "./relations";
import { ASKED, rolesOf } from "./roles";
import { sliceOf } from "./slice";
import { standingOf } from "./standing";
import { type Untold, untoldIn } from "./tellings";
import { type Standing, watchThing } from "./things";

export { followed, type Numbered, numbering, numbersByLine } from "../model";
export { ACTS, type ActRow, actRow, DEPARTURES, type Departure, FASTENER_STATES } from "./acts";
export type { WalkFault } from "./faults";
export type { Graph } from "./graph";
export { FACTS, HAZARDS, type Hazard, hazardNamed } from "./hazards";
export { type ActPoint, originOf, type Point, placeOf } from "./points";
export type { HouseHazard, Raised } from "./raised";
export type { Relations } from "./relations";
export type { Untold } from "./tellings";

/** What following every way through a procedure showed. */
export interface Walk {
  readonly procedure: Procedure;
  readonly graph: Graph;
  readonly relations: Relations;
  /** What is wrong with the states of things, and times that are passed. */
  readonly faults: readonly WalkFault[];
  /** Hazards of which no caution tells in time; those of the house beside those of trade and machine. */
  readonly untold: (house: readonly HouseHazard[]) => readonly Untold[];
}

/** Follows every way through a procedure. It must not be doubtful. */
export function followProcedure(procedure: Procedure): Walk {
  const graph = graphOf(procedure);
  const control = controlOf(graph);
  const relations = relationsOf(procedure);
  const starts = standingOf(graph, "starts", relations);
  const ends = standingOf(graph, "ends", relations);
  const faults = [...stateFaults(control, relations, starts, ends), ...timeFaults(control, relations)];
  return {
    procedure,
    graph,
    relations,
    faults,
    untold: remembered((house) => untoldIn(control, relations, starts, house)),
  };
}

function stateFaults(control: Control, relations: Relations, starts: Standing, ends: Standing): WalkFault[] {
  const { graph } = control;
  const roles = rolesOf(graph, relations);
  const things = new Set([...roles.keys(), ...starts.keys()]);
  const found = [...things].flatMap((thing) => {
    const watch = (thing.kind === "fastener" ? watchFastener : watchThing)(
      graph,
      thing,
      roles.get(thing) ?? [],
      starts,
      ends,
      relations,
    );
    return faultsOf(sliceOf(control, watch.points), watch);
  });
  return found
    .filter((fault) => !followsFrom(fault, found, relations) && !saidBefore(fault, found, graph))
    .map((fault) => (comesOfReturning(fault, graph) ? { ...fault, code: "repeat-skips-undo" } : fault));
}

/** What an act cannot do once more because a return did not undo it first. */
const NOT_AGAIN: ReadonlySet<string> = new Set([
  "removed-twice",
  "part-fitted-twice",
  "done-already",
  "angle-twice",
  "blocked-by",
  "fastener-still-holds",
]);

/** Whether a fault shows only because a return leads over acts whose work it left as it was. */
function comesOfReturning({ code, back, since }: WalkFault, { points }: Graph): boolean {
  const target = points[back];
  return target?.kind === "return" && NOT_AGAIN.has(code) && since >= target.to;
}

/** Codes of what is wrong at the end of the job. */
const AT_END: ReadonlySet<string> = new Set([
  "finger-tight-left",
  ...Object.values(DEPARTURES).map((departure) => departure.left),
]);

/**
 * A fastener that is out because what it secures was left off is no fault of its own; nor is that something is missing
 * at a start that is never put right at all.
 */
function followsFrom(fault: WalkFault, all: readonly WalkFault[], relations: Relations): boolean {
  if (fault.code === ASKED.start) {
    const held = fault.thing.kind === "fastener" ? relations.secured(fault.thing) : [];
    return all.some(
      (f) =>
        (AT_END.has(f.code) && f.thing === fault.thing && f.since === fault.since) ||
        (f.code === fault.code &&
          (held.includes(f.thing) || (f.thing === fault.thing && f.point < fault.point))),
    );
  }
  if (fault.code !== "part-left-off" || fault.thing.kind !== "fastener") return false;
  const held = relations.secured(fault.thing);
  return all.some(
    (f) => f.code === fault.code && held.includes(f.thing) && f.way.join() === fault.way.join(),
  );
}

/** One thing in the way of several that one line names is said once. */
function saidBefore(fault: WalkFault, all: readonly WalkFault[], { points }: Graph): boolean {
  if (fault.code !== "blocked-by") return false;
  const line = points[fault.point]?.spot.line;
  return all.some(
    (f) =>
      f.code === fault.code &&
      f.thing === fault.thing &&
      f.point < fault.point &&
      points[f.point]?.spot.line === line,
  );
}

function timeFaults(control: Control, relations: Relations): WalkFault[] {
  const found = watchClocks(control.graph, relations).flatMap((watch) =>
    faultsOf(sliceOf(control, watch.points), watch),
  );
  return found.filter((fault, i) => found.findIndex((f) => f.point === fault.point) === i);
}

function remembered<A, B>(work: (a: A) => B): (a: A) => B {
  let last: { readonly a: A; readonly b: B } | null = null;
  return (a) => {
    if (!last || last.a !== a) last = { a, b: work(a) };
    return last.b;
  };
}
