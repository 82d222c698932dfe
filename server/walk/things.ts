/**
 * The automaton of a thing that is not a fastener: how it differs from normal, one bit for each departure, one for
 * each assembly that took it along. After a fault it is taken to be as it should be, so that one fault is found once.
 */
import { partFacts } from "../facts";
import type { Thing } from "../model";
import { actRow, DEPARTURE_NAMES, DEPARTURES, type Departure } from "./acts";
import { ALL_BITS, type Mark, type Watch } from "./faults";
import type { Graph } from "./graph";
import type { ActPoint } from "./points";
import type { Relations } from "./relations";
import { ASKED, type Role, type Why } from "./roles";
import { KINDS } from "./scope";
import type { Choice } from "./variables";

const BIT = Object.fromEntries(DEPARTURE_NAMES.map((name, bit) => [name, 1 << bit])) as Record<
  Departure,
  number
>;
/** Taken as off after a fault: in nobody's way, and nothing is owed for it. */
const TAKEN_AS_OFF = 1 << DEPARTURE_NAMES.length;
/** Not on this machine. */
const ABSENT = TAKEN_AS_OFF << 1;
/** Thrown away, or to be renewed: only a new one goes back. */
const THROWN_AWAY = ABSENT << 1;
const FIRST_CARRIER = THROWN_AWAY << 1;
const OUT_OF_THE_WAY = BIT.off | BIT.disconnected | TAKEN_AS_OFF | ABSENT;
const HELD = BIT.supported | BIT.raised | OUT_OF_THE_WAY;
const STOPS_START = DEPARTURE_NAMES.reduce((bits, d) => bits | (DEPARTURES[d].stopsStart ? BIT[d] : 0), 0);

/** The bits one of which must be set when an act elsewhere asks; a start asks that none of its own is set. */
const ENOUGH: Readonly<Record<Why, number>> = {
  reach: OUT_OF_THE_WAY,
  release: OUT_OF_THE_WAY,
  measure: OUT_OF_THE_WAY,
  cover: 0,
  empty: BIT.drained | OUT_OF_THE_WAY,
  bear: HELD,
  lift: BIT.supported | BIT.raised | ABSENT | TAKEN_AS_OFF,
  clamp: 0,
  lock: 0,
  start: 0,
};

/** A state number of a thing in words, as data. */
export interface ThingReading {
  readonly departures: readonly Departure[];
  /** It came off with an assembly that carries it. */
  readonly carried: boolean;
  /** Only a new one goes back. */
  readonly thrownAway: boolean;
  /** It is not on this machine. */
  readonly absent: boolean;
}

/** Reads a state of the automaton that `watchThing` makes. What a fault left it as is read as normal. */
export function readThing(state: number): ThingReading {
  return {
    departures: DEPARTURE_NAMES.filter((name) => (state & BIT[name]) !== 0),
    carried: (state & ~(FIRST_CARRIER - 1)) !== 0,
    thrownAway: (state & THROWN_AWAY) !== 0,
    absent: (state & ABSENT) !== 0,
  };
}

/** What a procedure begins and ends with: departures by thing, `loose` for fasteners among them. */
export type Standing = ReadonlyMap<Thing, ReadonlySet<string>>;

type Report = (mark: number) => void;
type Move = (state: number, report: Report) => number;

/** Watches a thing through its roles. */
export function watchThing(
  graph: Graph,
  thing: Thing,
  roles: readonly Role[],
  starts: Standing,
  ends: Standing,
  relations: Relations,
): Watch {
  const marks: Mark[] = [];
  const mark: Marking = (code, bits = ALL_BITS, state = "", other = null) =>
    marks.push({ code, thing, other, state, bits }) - 1;
  const at = new Map<number, Move[]>();
  const add = (point: number, move: Move): void => {
    const moves = at.get(point);
    if (moves) moves.push(move);
    else at.set(point, [move]);
  };
  const allowed = [...(ends.get(thing) ?? [])].reduce((bits, d) => bits | (BIT[d as Departure] ?? 0), 0);
  for (const role of roles) {
    if (role.does === "asked") add(role.point, answerTo(role, thing, mark, allowed));
    else if (role.does === "carried") {
      const bit = FIRST_CARRIER << role.carrier;
      add(role.point, (state) => (role.off ? state | bit : state & ~bit));
    } else add(role.point, moveBy(role.act, thing, mark));
  }
  if (starts.has(thing) || roles.some((r) => r.does === "act")) {
    const left = DEPARTURE_NAMES.map(
      (d) => [BIT[d], mark(DEPARTURES[d].left, BIT[d], DEPARTURES[d].said)] as const,
    );
    add(graph.points.length - 1, (state, report) => {
      for (const [bit, code] of left) if ((state & bit & ~allowed) !== 0) report(code);
      return state;
    });
    addEndings(graph, thing, roles, relations, mark, add);
  }
  return {
    thing,
    marks,
    starts: startsOf(graph, thing, starts),
    points: [...at.keys()],
    step: (state, point, report) =>
      (at.get(point) ?? []).reduce((s, move) => ((s & ABSENT) !== 0 ? s : move(s, report)), state),
  };
}

type Marking = (code: string, bits?: number, state?: string, other?: Thing | null) => number;

/** What an act on another thing, or a start, asks of this one. */
function answerTo(
  role: Extract<Role, { does: "asked" }>,
  thing: Thing,
  mark: Marking,
  allowed: number,
): Move {
  const { why, asker } = role;
  if (why === "start") {
    const codes = DEPARTURE_NAMES.flatMap((d) =>
      DEPARTURES[d].stopsStart
        ? [[BIT[d], mark(ASKED.start, BIT[d], DEPARTURES[d].said, asker)] as const]
        : [],
    );
    return (state, report) => {
      const wrong = state & STOPS_START & ~allowed;
      if (wrong !== 0) for (const [bit, code] of codes) if ((wrong & bit) !== 0) report(code);
      return state;
    };
  }
  if (why === "clamp") {
    const off = mark(ASKED.clamp, BIT.off, why, asker);
    return (state, report) => {
      // It stays off: that it is never put on again is found at the end.
      if ((state & BIT.off) !== 0) report(off);
      return state;
    };
  }
  if (why === "cover") {
    const covered = mark(ASKED.cover, BIT.in, "", asker);
    return (state, report) => {
      if ((state & BIT.in) !== 0) report(covered);
      return state;
    };
  }
  // A cover that stands open is out of the way; an open tap is not.
  const open = thing.kind === "part" && (why === "reach" || why === "measure") ? BIT.open : 0;
  const enough = ENOUGH[why] | open;
  const code = mark(ASKED[why], ALL_BITS, why === "bear" || why === "lift" ? why : "", asker);
  return (state, report) => {
    if (((state >= FIRST_CARRIER || state < 0) && why !== "lift") || (state & enough) !== 0) return state;
    report(code);
    return state | TAKEN_AS_OFF;
  };
}

/** When the job ends unfinished only what endangers is due: nothing runs, nothing hangs on a jack, no pin is forgotten. */
function addEndings(
  graph: Graph,
  thing: Thing,
  roles: readonly Role[],
  relations: Relations,
  mark: Marking,
  add: (point: number, move: Move) => void,
): void {
  const makes = new Set(roles.map((r) => (r.does === "act" ? actRow(r.act.verb).makes : undefined)));
  const into = thing.kind === "temporary" ? relations.into(thing) : null;
  const isForgotten =
    into !== null && (relations.shaftOf(into) !== null || partFacts(into.entry).springLoaded);
  const dangers: (readonly [bit: number, unless: number, mark: number])[] = [];
  const danger = (departure: Departure, unless: number): void => {
    dangers.push([BIT[departure], unless, mark(LEFT_AT_ONCE, BIT[departure], DEPARTURES[departure].said)]);
  };
  if (makes.has("running")) danger("running", 0);
  // What is supported at a part of it does not hang on the jack alone.
  if (makes.has("raised") && !graph.supports) danger("raised", BIT.supported);
  if (makes.has("in") && isForgotten) danger("in", 0);
  if (dangers.length === 0) return;
  for (const point of graph.unfinished) {
    add(point, (state, report) => {
      for (const [bit, unless, code] of dangers)
        if ((state & bit) !== 0 && (state & unless) === 0) report(code);
      return state;
    });
  }
}
const LEFT_AT_ONCE = "end-job-leaves";

function moveBy({ verb, act }: ActPoint, thing: Thing, mark: Marking): Move {
  const row = actRow(verb);
  if (verb === "hand-back") return (state) => state & ~(FIRST_CARRIER - 1);
  if (verb === "throw-away") return (state) => state | THROWN_AWAY;
  const made = row.makes ? BIT[row.makes] : 0;
  const ended = row.ends ? BIT[row.ends] : 0;
  const placed = row.makes === "off" || row.ends === "off" ? TAKEN_AS_OFF : 0;
  const gone =
    row.makes === "off" && (act.discard || partFacts(thing.entry).renewEveryTime) ? THROWN_AWAY : 0;
  const fits = row.ends === "off";
  const twice = row.makes && !row.repeatable ? mark(DEPARTURES[row.makes].twice, made, row.makes) : -1;
  const absent = row.ends && !row.repeatable ? mark(DEPARTURES[row.ends].ended, ended, row.ends) : -1;
  const old = fits && act.age === null ? mark("old-part-refitted", THROWN_AWAY) : -1;
  return (state, report) => {
    if (twice >= 0 && (state & made) !== 0) report(twice);
    if (absent >= 0 && (state & (ended | TAKEN_AS_OFF)) === 0) report(absent);
    else if (old >= 0 && (state & THROWN_AWAY) !== 0) report(old);
    return (state & ~(ended | placed | (fits ? THROWN_AWAY : 0))) | made | gone;
  };
}

/** Where it is only on some machines: absent on the others. */
function startsOf(graph: Graph, thing: Thing, starts: Standing): Watch["starts"] {
  const state = [...(starts.get(thing) ?? [])].reduce((bits, d) => bits | (BIT[d as Departure] ?? 0), 0);
  const only = onlyOn(graph, thing);
  if (!only) return [{ state, where: null }];
  const others = { variable: only.variable, mask: only.variable.full & ~only.mask };
  const both = [
    { state, where: only },
    { state: ABSENT, where: others },
  ];
  return both.filter((start) => start.where.mask !== 0n);
}

/** The machines that have a thing; null where all have. */
export function onlyOn(graph: Graph, thing: Thing): Choice | null {
  const names = partFacts(thing.entry).onlyOn;
  const things = names.flatMap((n) => graph.scope.find(n.name, KINDS.version) ?? []);
  return things.length === 0 ? null : graph.variables.oneOf(things);
}
