/**
 * The automaton of a thing that is not a fastener: how it differs from normal, one bit for each departure, one for
 * each assembly that took it along. After a fault it is taken to be as it should be, so that one fault is found once.
 */
import { partFacts } from "../facts";
import type { Thing } from "../model";
import { actRow, DEPARTURE_NAMES, DEPARTURES, type Departure } from "./acts";
import { ALL_BITS, type Mark, type Watch } from "./faults";
import type { Graph } from "./graph";
import type { Role } from "./roles";
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
const FIRST_CARRIER = ABSENT << 1;
const OUT_OF_THE_WAY = BIT.off | BIT.disconnected | TAKEN_AS_OFF | ABSENT;

/** What a procedure begins and ends with: departures by thing, `loose` for fasteners among them. */
export type Standing = ReadonlyMap<Thing, ReadonlySet<string>>;

/** Watches a thing through its roles. */
export function watchThing(
  graph: Graph,
  thing: Thing,
  roles: readonly Role[],
  starts: Standing,
  ends: Standing,
): Watch {
  const marks: Mark[] = [];
  const mark = (code: string, other: Thing | null, state: string, bits = ALL_BITS): number =>
    marks.push({ code, thing, other, state, bits }) - 1;
  const left = new Map(
    DEPARTURE_NAMES.map((d) => [d, mark(DEPARTURES[d].left, null, DEPARTURES[d].said, BIT[d])]),
  );
  const end = graph.points.length - 1;
  const at = new Map<number, ((state: number, report: (mark: number) => void) => number)[]>();
  const add = (point: number, move: (state: number, report: (mark: number) => void) => number): void => {
    const moves = at.get(point);
    if (moves) moves.push(move);
    else at.set(point, [move]);
  };
  for (const role of roles) {
    if (role.does === "asked") {
      const blocked = mark("blocked-by", role.asker, "");
      add(role.point, (state, report) => {
        if (state >= FIRST_CARRIER || (state & OUT_OF_THE_WAY) !== 0) return state;
        report(blocked);
        return state | TAKEN_AS_OFF;
      });
    } else if (role.does === "carried") {
      const bit = FIRST_CARRIER << role.carrier;
      add(role.point, (state) => (role.off ? state | bit : state & ~bit));
    } else add(role.point, moveBy(role.act.verb));
  }
  const allowed = [...(ends.get(thing) ?? [])].reduce((bits, d) => bits | (BIT[d as Departure] ?? 0), 0);
  if (starts.has(thing) || roles.some((r) => r.does === "act")) {
    add(end, (state, report) => {
      for (const d of DEPARTURE_NAMES) if ((state & BIT[d] & ~allowed) !== 0) report(left.get(d) as number);
      return state;
    });
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

function moveBy(verb: string): (state: number) => number {
  const row = actRow(verb);
  if (verb === "hand-back") return (state) => state & ~(FIRST_CARRIER - 1);
  const made = row.makes ? BIT[row.makes] : 0;
  const ended = row.ends ? BIT[row.ends] : 0;
  const placed = row.makes === "off" || row.ends === "off" ? TAKEN_AS_OFF : 0;
  return (state) => (state & ~(ended | placed)) | made;
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
