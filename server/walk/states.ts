/**
 * Follows the state of every thing that a procedure touches. After an edit only the things it touches are followed
 * again: what one of them showed rests on its own points and on what parts the ways, on nothing else.
 */
import type { Thing } from "../model";
import { DEPARTURES } from "./acts";
import { type Change, changeBetween, pointAfter } from "./change";
import type { Control } from "./control";
import { watchFastener } from "./fasteners";
import { faultsOf, type WalkFault } from "./faults";
import type { Graph } from "./graph";
import type { Relations } from "./relations";
import { ASKED, rolesIn, touchesOf } from "./roles";
import { sliceOf } from "./slice";
import { type Standing, watchThing } from "./things";

/** What following the things of a procedure showed. */
export interface States {
  readonly graph: Graph;
  readonly relations: Relations;
  readonly starts: Standing;
  readonly ends: Standing;
  /** What is wrong with each thing by itself; things with nothing wrong are left out. */
  readonly byThing: ReadonlyMap<Thing, readonly WalkFault[]>;
  /** What is wrong in all, what follows from another fault left out, in the order of the text. */
  readonly faults: readonly WalkFault[];
}

/** Follows the things of a procedure, those aside that are known from before and untouched since. */
export function followStates(
  control: Control,
  relations: Relations,
  starts: Standing,
  ends: Standing,
  before: States | null,
): States {
  const { graph } = control;
  const change =
    before && isAlike(before, graph, relations, starts, ends) ? changeBetween(before.graph, graph) : null;
  const byThing = new Map<Thing, readonly WalkFault[]>();
  const touched = change ? touchedBy(change, relations) : null;
  if (change && before && touched) {
    for (const [thing, faults] of before.byThing) {
      if (!touched.has(thing))
        byThing.set(
          thing,
          faults.map((fault) => movedBy(change, fault)),
        );
    }
  }
  const roles = rolesIn(graph, relations, touched);
  const others = touched ? [] : [...starts.keys()].filter((thing) => !roles.has(thing));
  for (const thing of [...roles.keys(), ...others]) {
    const watch = (thing.kind === "fastener" ? watchFastener : watchThing)(
      graph,
      thing,
      roles.get(thing) ?? [],
      starts,
      ends,
      relations,
    );
    const faults = faultsOf(sliceOf(control, watch.points), watch);
    if (faults.length > 0) byThing.set(thing, faults);
  }
  const found = [...byThing.values()].flat().sort(inOrder);
  const faults = found
    .filter((fault) => !followsFrom(fault, found, relations) && !saidBefore(fault, found, graph))
    .map((fault) => (comesOfReturning(fault, graph) ? { ...fault, code: "repeat-skips-undo" } : fault));
  return { graph, relations, starts, ends, byThing, faults };
}

const inOrder = (a: WalkFault, b: WalkFault): number =>
  a.point - b.point || (a.thing.id < b.thing.id ? -1 : a.thing.id > b.thing.id ? 1 : 0);

function isAlike(
  before: States,
  { supports }: Graph,
  relations: Relations,
  starts: Standing,
  ends: Standing,
): boolean {
  return (
    before.relations === relations &&
    before.graph.supports === supports &&
    isSame(before.starts, starts) &&
    isSame(before.ends, ends)
  );
}

function isSame(a: Standing, b: Standing): boolean {
  if (a.size !== b.size) return false;
  for (const [thing, states] of a) {
    const other = b.get(thing);
    if (!other || other.size !== states.size || [...states].some((s) => !other.has(s))) return false;
  }
  return true;
}

/** The things whose points changed: all where the machine is started among them. */
function touchedBy({ old, now }: Change, relations: Relations): ReadonlySet<Thing> | null {
  const things = new Set<Thing>();
  for (const { segment } of [...old, ...now]) {
    const touches = touchesOf(segment, relations);
    if (touches.starts.length > 0) return null;
    for (const thing of touches.roles.keys()) things.add(thing);
  }
  return things;
}

/** A fault of an untouched thing, with its points where they stand now. */
function movedBy(change: Change, fault: WalkFault): WalkFault {
  const { point, since, back } = fault;
  return {
    ...fault,
    point: pointAfter(change, point),
    since: pointAfter(change, since),
    back: pointAfter(change, back),
  };
}

/** Codes of what is wrong at the end of the job. */
const AT_END: ReadonlySet<string> = new Set([
  "finger-tight-left",
  ...Object.values(DEPARTURES).map((departure) => departure.left),
]);

/** Codes of what shows again what another fault has shown: a thing that is not as it should be since the same act. */
const SHOWN_AGAIN: ReadonlySet<string> = new Set([
  ASKED.start,
  "end-job-leaves",
  "removed-twice",
  "done-already",
]);

/** Codes of a part that was meant to be off. */
const MEANT_OFF: ReadonlySet<string> = new Set(["blocked-by", "part-fitted-twice"]);

/**
 * Whether a fault only follows from another one. What is never put right at all is said once, not also at each start
 * and return that it is in the way of; a fastener that stays with what it secures is no fault of its own.
 */
function followsFrom(fault: WalkFault, all: readonly WalkFault[], relations: Relations): boolean {
  const { code, thing, since, point, way } = fault;
  const held = thing.kind === "fastener" ? relations.secured(thing) : [];
  const any = (is: (other: WalkFault) => boolean): boolean => all.some((f) => f !== fault && is(f));
  if (SHOWN_AGAIN.has(code) && any((f) => AT_END.has(f.code) && f.thing === thing && f.since === since))
    return true;
  switch (code) {
    case ASKED.clamp:
      // What is tightened on nothing: the bolt is out as well, the part never goes on, or a stage before said so.
      return (
        thing.kind !== "fastener" &&
        any(
          (f) =>
            (f.code === code && f.point === point && f.thing === fault.other) ||
            (f.thing === thing &&
              f.since === since &&
              (AT_END.has(f.code) || (f.code === code && f.point < point))),
        )
      );
    case ASKED.start:
      return any(
        (f) => f.code === code && (held.includes(f.thing) || (f.thing === thing && f.point < point)),
      );
    case "part-left-off":
      return any((f) => f.code === code && held.includes(f.thing) && f.way.join() === way.join());
    case "part-fitted-twice":
      return any((f) => MEANT_OFF.has(f.code) && held.includes(f.thing));
    default:
      return false;
  }
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
