/**
 * The automaton of a fastener: how far it is tightened. After a fault it is taken to be as it should be.
 */
import { type Act, fastenerFacts } from "../facts";
import type { Thing } from "../model";
import { actRow } from "./acts";
import { ALL_BITS, type Mark, type Watch } from "./faults";
import type { Graph } from "./graph";
import type { Role } from "./roles";
import { onlyOn, type Standing } from "./things";

const TIGHT = 0;
const OUT = 1;
const BY_HAND = 2;
const PLACED = 3;
const LOOSE = 4;
const TAKEN_AS_OUT = 5;
const ABSENT = 6;
const FIRST_STAGE = 7;

const SAID: Readonly<Record<number, string>> = { [BY_HAND]: "by hand", [PLACED]: "placed", [LOOSE]: "loose" };

/** Watches how far a fastener is tightened. */
export function watchFastener(
  graph: Graph,
  thing: Thing,
  roles: readonly Role[],
  starts: Standing,
  ends: Standing,
): Watch {
  const facts = fastenerFacts(thing.entry);
  const marks: Mark[] = [];
  const mark = (code: string, other: Thing | null, state: string): number =>
    marks.push({ code, thing, other, state, bits: ALL_BITS }) - 1;
  const leftOut = mark("part-left-off", null, "out");
  const leftLoose = [BY_HAND, PLACED, LOOSE].map((s) => mark("finger-tight-left", null, SAID[s] as string));
  const leftAtStage = facts.stages.map((s) => mark("finger-tight-left", null, s.name));
  const end = graph.points.length - 1;
  const tightens = roles.some((r) => r.does === "act" && actRow(r.act.verb).fastener === "tightened");
  const needsTightening = facts.stages.length > 0 || tightens;
  const allowed = ends.get(thing);
  const asked = new Map<Role, number>();
  for (const role of roles) {
    if (role.does === "asked")
      asked.set(role, mark(role.why === "reach" ? "blocked-by" : "fastener-still-holds", role.asker, ""));
  }
  const byPoint = groupByPoint(roles);
  const finish = (state: number, report: (mark: number) => void): void => {
    if (state === OUT && !allowed?.has("off")) report(leftOut);
    if (state === LOOSE && allowed?.has("loose")) return;
    if (state >= BY_HAND && state <= LOOSE) report(leftLoose[state - BY_HAND] as number);
    if (state >= FIRST_STAGE) report(leftAtStage[state - FIRST_STAGE] as number);
  };
  const move = (state: number, role: Role, report: (mark: number) => void): number => {
    if (role.does === "carried") return state;
    if (role.does === "act") return moved(state, role.act.verb, role.act.act, thing, needsTightening);
    const free = state === OUT || state === TAKEN_AS_OUT || (state === LOOSE && role.asker.kind === "line");
    if (free) return state;
    report(asked.get(role) as number);
    return TAKEN_AS_OUT;
  };
  const only = onlyOn(graph, thing);
  const standing = starts.get(thing);
  const state = standing?.has("off") ? OUT : standing?.has("loose") ? LOOSE : TIGHT;
  const acted = starts.has(thing) || roles.some((r) => r.does === "act");
  return {
    thing,
    marks,
    starts: only
      ? [
          { state, where: only },
          { state: ABSENT, where: { variable: only.variable, mask: only.variable.full & ~only.mask } },
        ].filter((s) => s.where.mask !== 0n)
      : [{ state, where: null }],
    points: acted ? [...byPoint.keys(), end] : [...byPoint.keys()],
    step: (before, point, report) => {
      if (before === ABSENT) return before;
      if (point === end) finish(before, report);
      return (byPoint.get(point) ?? []).reduce((s, role) => move(s, role, report), before);
    },
  };
}

function groupByPoint(roles: readonly Role[]): ReadonlyMap<number, readonly Role[]> {
  const map = new Map<number, Role[]>();
  for (const role of roles) {
    const list = map.get(role.point);
    if (list) list.push(role);
    else map.set(role.point, [role]);
  }
  return map;
}

function moved(state: number, verb: string, act: Act, thing: Thing, needsTightening: boolean): number {
  const { setting } = fastenerFacts(thing.entry);
  switch (verb === "hand-back" ? "handed back" : actRow(verb).fastener) {
    case "out":
      return OUT;
    case "placed":
      return act.byHand || act.loosely ? BY_HAND : needsTightening ? PLACED : TIGHT;
    case "loose":
      if (state === OUT) return OUT;
      return setting && act.quantity !== null ? TIGHT : LOOSE;
    case "tightened":
      return reached(thing, act);
    case "set":
      return setting && state !== OUT ? TIGHT : state;
    case "handed back":
      return TIGHT;
    default:
      return state;
  }
}

/** The state a tightening leads to: the last of the stages it names, or the end. */
function reached(thing: Thing, act: Act): number {
  const { stages } = fastenerFacts(thing.entry);
  const named = act.toStage ? [act.toStage.name] : act.stages.map((s) => s.name.name);
  const last = Math.max(...named.map((name) => stages.findIndex((s) => s.name === name)));
  return last < 0 || last >= stages.length - 1 ? TIGHT : FIRST_STAGE + last;
}
