/**
 * Times that must pass: until a charge has drained, until what is hot and under pressure has cooled, until a supply has
 * cured. Only what is written counts: waits, running-in, checks that show that it is dead.
 */
import { checkOf, fluidFacts, partFacts, toolFacts } from "../facts";
import type { Thing } from "../model";
import { formatQuantity } from "../units/format";
import { actRow } from "./acts";
import { ALL_BITS, type Watch } from "./faults";
import type { Graph } from "./graph";
import type { ActPoint, Point } from "./points";
import type { Relations } from "./relations";
import { keptBySegment, type Segment } from "./segments";

/** Acts and asks that may matter to a wait. */
const marksOf = keptBySegment(({ points }: Segment, _: null): readonly number[] =>
  points.flatMap((point, at) => (matters(point) ? [at] : [])),
);

const MATTER: ReadonlySet<string> = new Set([
  ...[
    "wait",
    "run-in",
    "start",
    "isolate",
    "restore",
    "connect",
    "disconnect",
    "remove",
    "open",
    "drain",
    "fill",
  ],
  ...["seal", "lubricate"],
]);

function matters(point: Point): boolean {
  if (point.kind === "ask") return checkOf(point.spot.entry).limits.some((l) => l.tools.length > 0 || l.held);
  return point.kind === "act" && MATTER.has(point.verb);
}

/** A watch for everything in a procedure that takes its time. */
export function watchWaits(graph: Graph, relations: Relations): readonly Watch[] {
  if (!graph.segments.some(({ segment }) => takesItsTime(segment, relations))) return [];
  const marks = graph.segments.flatMap(({ segment, at }) =>
    marksOf(segment, null).map((local) => at.points + local),
  );
  const charged = new Set<Thing>();
  const hot = new Map<Thing, Set<number>>();
  const cures = new Map<Thing, Set<number>>();
  for (const at of marks) {
    const point = graph.points[at] as Point;
    if (point.kind !== "act") continue;
    if (point.thing && OPENS.has(point.verb)) {
      if (partFacts(point.thing.entry).storesCharge) charged.add(point.thing);
      for (const fluid of [point.thing, ...relations.fluidsIn(point.thing)]) {
        const { hot: isHot, pressurised } = partFacts(fluid.entry);
        if (fluid.kind === "fluid" && isHot && pressurised)
          hot.set(fluid, (hot.get(fluid) ?? new Set()).add(at));
      }
    }
    if (!actRow(point.verb).opensJoint) continue;
    for (const supply of point.supplies) {
      if (supply.kind === "consumable" && fluidFacts(supply.entry).cure?.low)
        cures.set(supply, (cures.get(supply) ?? new Set()).add(at));
    }
  }
  return [
    ...[...charged].map((thing) => watchCharge(graph, thing, marks)),
    ...[...hot].map(([fluid, opened]) => watchCooling(graph, fluid, opened, marks)),
    ...[...cures].map(([supply, put]) => watchCure(graph, relations, supply, put, marks)),
  ];
}

/** Whether a segment has to do with anything that must be waited for. */
const takesItsTime = keptBySegment(({ points }: Segment, relations: Relations): boolean =>
  points.some((point) => {
    if (point.kind !== "act") return false;
    const { thing, supplies } = point;
    const things = thing ? [thing, ...relations.fluidsIn(thing)] : [];
    return (
      things.some(({ entry }) => {
        const { storesCharge, hot, pressurised } = partFacts(entry);
        return storesCharge !== null || (hot && pressurised);
      }) || supplies.some((s) => s.kind === "consumable" && fluidFacts(s.entry).cure !== null)
    );
  }),
);

const OPENS: ReadonlySet<string> = new Set(["remove", "open", "disconnect", "drain"]);

/** Seconds that a wait or a running-in takes at least; 0 where only a state or a longest time is written. */
function leastOf(point: Point): number {
  if (point.kind === "ask")
    return checkOf(point.spot.entry).limits.reduce((sum, l) => sum + Math.max(0, l.held?.low?.si ?? 0), 0);
  if (point.kind !== "act" || (point.verb !== "wait" && point.verb !== "run-in")) return 0;
  return point.act.quantity?.kind === "time" ? Math.max(0, point.act.quantity.low?.si ?? 0) : 0;
}

/** Waiting until something is so: the state itself is looked at. */
const isUntil = (point: ActPoint): boolean => point.verb === "wait" && point.act.quantity?.kind !== "time";

const LIVE = 0;
const SAFE = -1;

/** Something that keeps its charge: cut off, then waited for as long as it says, or shown to be dead. */
function watchCharge(graph: Graph, thing: Thing, marks: readonly number[]): Watch {
  const time = partFacts(thing.entry).storesCharge?.time ?? null;
  const most = Math.max(1, Math.ceil(time?.low?.si ?? 1));
  const showsDead = (point: Point): boolean =>
    point.kind === "ask" && point.tools.some((tool) => toolFacts(tool.entry).provesDead);
  return {
    thing,
    marks: [
      {
        code: "wait-missing",
        thing,
        other: null,
        state: time ? formatQuantity(time, { plain: true }) : "charge",
        bits: ALL_BITS,
      },
    ],
    starts: [{ state: LIVE, where: null }],
    points: new Set(marks),
    // Cut off, the state is one more than the seconds waited since.
    step: (state, at, report) => {
      const point = graph.points[at] as Point;
      if (showsDead(point)) return SAFE;
      if (point.kind === "act" && point.thing === thing && OPENS.has(point.verb)) {
        if (state !== SAFE) report(0);
        return SAFE;
      }
      if (point.kind === "act") {
        if (point.verb === "restore" || point.verb === "connect" || point.verb === "start") return LIVE;
        if (point.verb === "isolate" || point.verb === "disconnect") return state === LIVE ? 1 : state;
        if (isUntil(point) && state !== LIVE) return SAFE;
      }
      if (state <= LIVE) return state;
      const waited = state + Math.round(leastOf(point));
      return waited > most ? SAFE : waited;
    },
  };
}

const HOT = 0;
const COOL = 1;

/** A system that is hot and under pressure: opened only after a wait since it last ran. */
function watchCooling(
  graph: Graph,
  fluid: Thing,
  opened: ReadonlySet<number>,
  marks: readonly number[],
): Watch {
  return {
    thing: fluid,
    marks: [{ code: "wait-missing", thing: fluid, other: null, state: "hot", bits: ALL_BITS }],
    starts: [{ state: HOT, where: null }],
    points: new Set(marks),
    step: (state, at, report) => {
      const point = graph.points[at] as Point;
      if (point.kind !== "act") return state;
      if (point.verb === "wait") return COOL;
      if (point.verb === "start" || point.verb === "run-in") return HOT;
      if (state === HOT && opened.has(at)) {
        report(0);
        return COOL;
      }
      return state;
    },
  };
}

/** A supply that must cure before what it is put on is loaded: by a start, or by the fluid that it holds. */
function watchCure(
  graph: Graph,
  relations: Relations,
  supply: Thing,
  put: ReadonlySet<number>,
  marks: readonly number[],
): Watch {
  const cure = fluidFacts(supply.entry).cure;
  const most = Math.max(1, Math.round(cure?.low?.si ?? 1));
  const fluids = new Set(
    [...put].flatMap((at) => {
      const { thing } = graph.points[at] as ActPoint;
      const part = thing?.kind === "face" ? relations.partOfFace(thing) : thing;
      return part ? relations.fluidsIn(part) : [];
    }),
  );
  const loads = (point: ActPoint): boolean =>
    point.verb === "start" ||
    point.verb === "run-in" ||
    (point.verb === "fill" && point.thing !== null && fluids.has(point.thing));
  return {
    thing: supply,
    marks: [
      {
        code: "cured-too-soon",
        thing: supply,
        other: null,
        state: cure ? formatQuantity(cure, { plain: true }) : "",
        bits: ALL_BITS,
      },
    ],
    starts: [{ state: 0, where: null }],
    points: new Set(marks),
    // Put on, the state is one more than the seconds it has had since.
    step: (state, at, report) => {
      if (put.has(at)) return 1;
      if (state === 0) return 0;
      const point = graph.points[at] as Point;
      if (point.kind === "act" && loads(point)) {
        report(0);
        return 0;
      }
      const had = state + Math.round(leastOf(point));
      return had > most ? 0 : had;
    },
  };
}
