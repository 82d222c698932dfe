/**
 * How everything stands at a point, over all ways that come there: the same automata are followed as for the faults,
 * through the same slices, and asked at that point. Where the ways differ, each state comes with its shortest way.
 */
import { fastenerFacts } from "../facts";
import { textOf, ZERO } from "../mechanics/fractions";
import { standingOf as markStands } from "../mechanics/shafts";
import type { Thing } from "../model";
import { actRow, type Departure } from "./acts";
import { type Control, controlOf } from "./control";
import { readFastener, watchFastener } from "./fasteners";
import { ALL_BITS, faultsOf, type Mark, type Watch } from "./faults";
import type { Graph } from "./graph";
import { isReached } from "./reach";
import type { Relations } from "./relations";
import { type Role, rolesIn } from "./roles";
import { type ShaftsWatched, shaftsWatched } from "./shafts";
import { sliceOf } from "./slice";
import { standingOf } from "./standing";
import { readThing, type Standing, watchThing } from "./things";

/** One way in which a thing is not as it should be. */
export interface Difference {
  readonly kind:
    | Departure
    | "carried"
    | "thrown-away"
    | "absent"
    | "out"
    | "by hand"
    | "placed"
    | "loose"
    | "at a stage"
    | "old";
  /** The stage it is at; empty where it is at none. */
  readonly stage: string;
  /** Whether it must be put right before the job ends. */
  readonly owed: boolean;
}

/** A state that a thing has on some ways; no difference means that it is as it should be. */
export interface Stand {
  readonly differences: readonly Difference[];
  /** The decisions that lead to it; none where every way does. */
  readonly way: readonly string[];
  /** The point that brought it about, or -1 where it was so from the start. */
  readonly since: number;
}

/** A thing, and every state it can be in. */
export interface ThingAt {
  readonly thing: Thing;
  readonly stands: readonly Stand[];
}

/** Where shafts and marks stand on some ways. Angles are exact parts of a turn, anticlockwise, as `1/2`. */
export interface TurningStand {
  /** Angles of the shafts, counted from where nought is; those that are not known are left out. */
  readonly shafts: readonly { readonly shaft: Thing; readonly angle: string }[];
  /** How far each mark stands from its line; `0` is in line. Those that are not known are left out. */
  readonly marks: readonly { readonly mark: Thing; readonly off: string }[];
  /** Shafts that turn together as the belts lie. */
  readonly together: readonly (readonly Thing[])[];
  readonly way: readonly string[];
  /** The point that last moved something of it, or -1 where nothing did on this way. */
  readonly since: number;
}

/** How everything stands at a point. */
export interface StateAt {
  readonly point: number;
  /** Whether any way comes there. */
  readonly reached: boolean;
  /** Things that are on the machine, and not as they should be on some way, in the order in which the text touches them. */
  readonly things: readonly ThingAt[];
  /** Things that were touched before and are as they should be on every way, or not on the machine. */
  readonly settled: readonly Thing[];
  /** What turns; empty where nothing of it was touched. With several, each with its way. */
  readonly turning: readonly TurningStand[];
  /** The ways of some thing were too many to follow them all: there may be states that are not told. */
  readonly cutShort: boolean;
}

/** What of a walk is needed to ask how things stand. */
export interface Asked {
  readonly graph: Graph;
  readonly relations: Relations;
}

interface Known {
  readonly control: Control;
  readonly roles: ReadonlyMap<Thing, readonly Role[]>;
  readonly starts: Standing;
  readonly ends: Standing;
  readonly at: Map<number, StateAt>;
}

const kept = new WeakMap<Graph, Known>();

/** How everything stands just before a point of the graph. It is worked out once for each point. */
export function stateAt({ graph, relations }: Asked, point: number): StateAt {
  const known = knownOf({ graph, relations });
  let state = known.at.get(point);
  if (!state) {
    state = workOut(graph, relations, known, point);
    known.at.set(point, state);
  }
  return state;
}

/** Every state that one thing can be in just before a point of the graph. */
export function standsAt({ graph, relations }: Asked, thing: Thing, point: number): readonly Stand[] {
  const place = { point, last: lastThatCounts(graph, point) };
  return standsOf(graph, relations, knownOf({ graph, relations }), thing, place).stands;
}

/** What `standsAt` says, without the ways: finding those is most of the work. */
export function differencesAt({ graph, relations }: Asked, thing: Thing, point: number): readonly Stand[] {
  const place = { point, last: lastThatCounts(graph, point), withoutWays: true };
  return standsOf(graph, relations, knownOf({ graph, relations }), thing, place).stands;
}

/** Things that are owed something at the end on some way, without the ways. */
export function owedAtEnd({ graph, relations }: Asked): {
  readonly things: readonly ThingAt[];
  readonly cutShort: boolean;
} {
  const known = knownOf({ graph, relations });
  const point = graph.points.length - 1;
  const all = [...new Set([...known.starts.keys(), ...known.roles.keys()])].map((thing) => ({
    thing,
    ...standsOf(graph, relations, known, thing, { point, last: point, withoutWays: true }),
  }));
  const isOwed = ({ differences }: Stand): boolean => differences.some((d) => d.owed);
  const things = isReached(known.control, point) ? all.filter(({ stands }) => stands.some(isOwed)) : [];
  return { things, cutShort: all.some((one) => one.cutShort) };
}

function knownOf({ graph, relations }: Asked): Known {
  let known = kept.get(graph);
  if (!known) {
    known = {
      control: controlOf(graph),
      roles: rolesIn(graph, relations, null),
      starts: standingOf(graph, "starts", relations),
      ends: standingOf(graph, "ends", relations),
      at: new Map(),
    };
    kept.set(graph, known);
  }
  return known;
}

function workOut(graph: Graph, relations: Relations, known: Known, point: number): StateAt {
  const { control, roles, starts } = known;
  const reached = isReached(control, point);
  const things: ThingAt[] = [];
  const settled: Thing[] = [];
  let cutShort = false;
  const last = lastThatCounts(graph, point);
  for (const thing of reached ? new Set([...starts.keys(), ...roles.keys()]) : []) {
    const own = roles.get(thing) ?? [];
    if (!starts.has(thing) && own.every((role) => role.point >= last)) continue;
    const { stands, cutShort: isCut } = standsOf(graph, relations, known, thing, { point, last });
    cutShort ||= isCut;
    // Where it can only be as it should be, or not there at all, nothing is to be told of it.
    if (stands.some((stand) => stand.differences.some((d) => d.kind !== "absent")))
      things.push({ thing, stands });
    else if (own.some((role) => role.point < point && changes(role))) settled.push(thing);
  }
  const watched = reached ? shaftsWatched(graph, relations, starts) : null;
  const turning = watched ? turningAt(control, watched, { point, last }) : [];
  return { point, reached, things, settled, turning, cutShort };
}

/** Whether a role is an act that can change the state of its thing. */
function changes(role: Role): boolean {
  if (role.does !== "act") return false;
  const { makes, ends, fastener } = actRow(role.act.verb);
  return (
    makes !== undefined ||
    ends !== undefined ||
    (fastener !== undefined && role.act.thing?.kind === "fastener")
  );
}

function standsOf(
  graph: Graph,
  relations: Relations,
  { control, roles, starts, ends }: Known,
  thing: Thing,
  place: AskedAt,
): { readonly stands: readonly Stand[]; readonly cutShort: boolean } {
  const watch = (thing.kind === "fastener" ? watchFastener : watchThing)(
    graph,
    thing,
    roles.get(thing) ?? [],
    starts,
    ends,
    relations,
  );
  const read = readerOf(thing, ends);
  const { found, cutShort } = ask(
    control,
    watch,
    place,
    (state) => keyOf(read(state)),
    (state) => bitsOf(thing, state),
  );
  return {
    stands: found.map(({ state, way, since }) => ({ differences: read(state), way, since })),
    cutShort,
  };
}

/** The point asked about, and the last that can decide how things stand there: what comes after is not followed. */
interface AskedAt {
  readonly point: number;
  readonly last: number;
  readonly withoutWays?: boolean;
}

/** The bits of a state that it is told from. */
const bitsOf = (thing: Thing, state: number): number =>
  thing.kind === "fastener" ? readFastener(state, fastenerFacts(thing.entry)).bits : ALL_BITS;

/** The last point from which a way can come back to before a point; the point itself where none does. */
function lastThatCounts({ controls, points }: Graph, point: number): number {
  let last = point;
  for (let again = true; again; ) {
    again = false;
    for (const at of controls) {
      const jump = points[at];
      if ((jump?.kind !== "return" && jump?.kind !== "go-to") || at <= last || jump.to > last) continue;
      last = at;
      again = true;
    }
  }
  return last;
}

function readerOf(thing: Thing, ends: Standing): (state: number) => readonly Difference[] {
  const allowed = ends.get(thing) ?? new Set<string>();
  const difference = (kind: Difference["kind"], owed: boolean, stage = ""): Difference => ({
    kind,
    stage,
    owed,
  });
  if (thing.kind === "fastener") {
    const facts = fastenerFacts(thing.entry);
    return (state) => {
      const { level, stage, old, thrownAway } = readFastener(state, facts);
      const isAllowed =
        (level === "out" && allowed.has("off")) || (level === "loose" && allowed.has("loose"));
      const own = level === "tight" ? [] : [difference(level, level !== "absent" && !isAllowed, stage)];
      if (thrownAway) return [...own, difference("thrown-away", !isAllowed)];
      return old && level !== "out" ? [...own, difference("old", true)] : own;
    };
  }
  return (state) => {
    const { departures, carried, thrownAway, absent } = readThing(state);
    if (absent) return [difference("absent", false)];
    return [
      ...departures.map((kind) => difference(kind, !allowed.has(kind))),
      ...(thrownAway ? [difference("thrown-away", departures.includes("off") && !allowed.has("off"))] : []),
      ...(carried ? [difference("carried", false)] : []),
    ];
  };
}

const keyOf = (differences: readonly Difference[]): string =>
  differences.map(({ kind, stage }) => `${kind} ${stage}`).join();

interface Answer {
  readonly found: readonly {
    readonly state: number;
    readonly way: readonly string[];
    readonly since: number;
  }[];
  readonly cutShort: boolean;
}

const SILENT = (): void => undefined;

/** Asks an automaton at a point: each state that it can be in there is a mark of its own, states of one key are one. */
function ask(
  control: Control,
  watch: Watch,
  { point, last, withoutWays }: AskedAt,
  key: (state: number) => string,
  bits: (state: number) => number = () => ALL_BITS,
): Answer {
  const marks: Mark[] = [];
  const states: number[] = [];
  const byKey = new Map<string, number>();
  const points = new Set([...watch.points].filter((at) => at <= last));
  const isOwn = points.has(point);
  const asked: Watch = {
    thing: watch.thing,
    marks,
    starts: watch.starts,
    points: points.add(point),
    step: (state, at, report) => {
      if (at !== point) return watch.step(state, at, SILENT);
      const is = key(state);
      let mark = byKey.get(is);
      if (mark === undefined) {
        mark = states.push(state) - 1;
        byKey.set(is, mark);
        marks.push({ code: FOUND, thing: watch.thing, other: null, state: String(mark), bits: bits(state) });
      }
      report(mark);
      return isOwn ? watch.step(state, at, SILENT) : state;
    },
  };
  const faults = faultsOf(sliceOf(control, asked.points), asked, !withoutWays);
  const found = faults
    .filter((fault) => fault.code === FOUND)
    .map(({ state, way, since }) => ({ state: states[Number(state)] as number, way, since }));
  return { found, cutShort: faults.some((fault) => fault.code !== FOUND) };
}
const FOUND = "found";

function turningAt(control: Control, watched: ShaftsWatched, place: AskedAt): readonly TurningStand[] {
  const { watch, turning, read, trainOf } = watched;
  const stand = (state: number): Omit<TurningStand, "way" | "since"> => {
    const { belts, angles } = read(state);
    const { members } = trainOf(belts);
    const roots = new Set(turning.shafts.map((s) => members.get(s.name)?.root ?? s.name));
    const groups = [...roots].map((root) =>
      turning.shafts.filter((s) => (members.get(s.name)?.root ?? s.name) === root),
    );
    return {
      shafts: turning.shafts.flatMap((shaft) => {
        const angle = angles.get(shaft.name);
        return angle ? [{ shaft, angle: textOf(angle) }] : [];
      }),
      marks: [...turning.marks].flatMap(([mark, place]) => {
        const off = markStands(angles, place);
        return off ? [{ mark, off: textOf(off) }] : [];
      }),
      together: groups.filter((group) => group.length > 1),
    };
  };
  const isTouched = [...watch.points].some((at) => at < place.point);
  if (!isTouched) return [];
  const asked = ask(control, watch, place, (state) => {
    const { shafts, marks, together } = stand(state);
    return [
      ...shafts.map((s) => `${s.shaft.id} ${s.angle}`),
      ...marks.map((m) => `${m.mark.id} ${m.off}`),
      ...together.map((group) => group.map((s) => s.id).join()),
    ].join("\n");
  });
  return asked.found.map(({ state, way, since }) => ({ ...stand(state), way, since }));
}

/** Whether a mark stands in line. */
export const isInLine = (off: string): boolean => off === textOf(ZERO);
