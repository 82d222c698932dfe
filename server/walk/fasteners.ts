/**
 * The automaton of a fastener: how far it is tightened, and what it has been through since it was new. After a fault it
 * is taken to be as it should be.
 */
import { type FastenerFacts, fastenerFacts } from "../facts";
import type { Thing } from "../model";
import { actRow } from "./acts";
import type { Mark, Watch } from "./faults";
import type { Graph } from "./graph";
import type { ActPoint } from "./points";
import { ASKED, type Role } from "./roles";
import { onlyOn, type Standing } from "./things";

const TIGHT = 0;
const OUT = 1;
const BY_HAND = 2;
const PLACED = 3;
const LOOSE = 4;
const TAKEN_AS_OUT = 5;
const ABSENT = 6;
const FIRST_STAGE = 7;

/** The low bits of a state are how far it is tightened; the others what it has been through. */
const LEVEL = 0xff;
/** Turned through its angle, and not slackened since. */
const STRETCHED = 0x100;
/** A used one, where only a new one may stay in. */
const OLD = 0x200;
/** It is out and thrown away, or to be renewed: only a new one goes back. */
const THROWN_AWAY = 0x400;

const SAID: Readonly<Record<number, string>> = { [BY_HAND]: "by hand", [PLACED]: "placed", [LOOSE]: "loose" };

/** A state number of a fastener in words, as data. */
export interface FastenerReading {
  readonly level: "tight" | "out" | "by hand" | "placed" | "loose" | "at a stage" | "absent";
  /** The last stage it was tightened to, where it is at one. */
  readonly stage: string;
  /** A used one, where only a new one may stay in. */
  readonly old: boolean;
  /** It is out, and only a new one goes back. */
  readonly thrownAway: boolean;
  /** The bits of the state that it is read from: what changed them last brought it about. */
  readonly bits: number;
}

const LEVELS: Readonly<Record<number, FastenerReading["level"]>> = {
  [OUT]: "out",
  [BY_HAND]: "by hand",
  [PLACED]: "placed",
  [LOOSE]: "loose",
  [ABSENT]: "absent",
};

/** Reads a state of the automaton that `watchFastener` makes. What a fault left it as is read as tight. */
export function readFastener(state: number, { stages }: FastenerFacts): FastenerReading {
  const level = state & LEVEL;
  const old = (state & OLD) !== 0;
  const thrownAway = level === OUT && (state & THROWN_AWAY) !== 0;
  if (level >= FIRST_STAGE) {
    const stage = stages[level - FIRST_STAGE]?.name ?? "";
    return { level: "at a stage", stage, old, thrownAway, bits: LEVEL };
  }
  const told = LEVELS[level] ?? "tight";
  return { level: told, stage: "", old, thrownAway, bits: told === "tight" && old ? OLD : LEVEL };
}

type Report = (mark: number) => void;
type Move = (state: number, report: Report) => number;
type Marking = (code: string, state?: string, bits?: number, other?: Thing | null) => number;

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
  const mark: Marking = (code, state = "", bits = LEVEL, other = null) =>
    marks.push({ code, thing, other, state, bits }) - 1;
  const end = graph.points.length - 1;
  const tightens = roles.some((r) => r.does === "act" && actRow(r.act.verb).fastener === "tightened");
  const isWorkedOn = roles.some((r) => r.does === "act");
  const needsTightening = facts.stages.length > 0 || tightens;
  const at = new Map<number, Move[]>();
  const add = (point: number, move: Move): void => {
    const moves = at.get(point);
    if (moves) moves.push(move);
    else at.set(point, [move]);
  };
  for (const role of roles) {
    // Of a lock that the job never speaks of, nobody can tell whether it is slackened.
    if (role.does === "asked" && role.why === "lock" && !isWorkedOn) continue;
    if (role.does === "asked") add(role.point, answerTo(role, facts, mark));
    else if (role.does === "act") add(role.point, moveBy(role.act, facts, mark, needsTightening));
  }
  const standing = starts.get(thing);
  if (starts.has(thing) || isWorkedOn) add(end, atEnd(facts, mark, ends.get(thing)));
  const level = standing?.has("off") ? OUT : standing?.has("loose") ? LOOSE : TIGHT;
  const state = level === TIGHT && firstAngle(facts) >= 0 ? level | STRETCHED : level;
  const only = onlyOn(graph, thing);
  return {
    thing,
    marks,
    starts: only
      ? [
          { state, where: only },
          { state: ABSENT, where: { variable: only.variable, mask: only.variable.full & ~only.mask } },
        ].filter((s) => s.where.mask !== 0n)
      : [{ state, where: null }],
    points: [...at.keys()],
    step: (before, point, report) =>
      (at.get(point) ?? []).reduce((s, move) => (s === ABSENT ? s : move(s, report)), before),
  };
}

/** What is left unfinished at the end of the job. */
function atEnd(facts: FastenerFacts, mark: Marking, allowed: ReadonlySet<string> | undefined): Move {
  const leftOut = mark("part-left-off", "out");
  const leftLoose = [BY_HAND, PLACED, LOOSE].map((s) => mark("finger-tight-left", SAID[s]));
  const leftAtStage = facts.stages.map((s) => mark("finger-tight-left", s.name));
  const leftOld = mark("used-bolt-refitted", "old", OLD);
  return (state, report) => {
    const level = state & LEVEL;
    if (level === OUT && !allowed?.has("off")) report(leftOut);
    else if (level === LOOSE && allowed?.has("loose")) return state;
    else if (level >= BY_HAND && level <= LOOSE) report(leftLoose[level - BY_HAND] as number);
    else if (level >= FIRST_STAGE) report(leftAtStage[level - FIRST_STAGE] as number);
    else if (level === TIGHT && (state & OLD) !== 0) report(leftOld);
    return state;
  };
}

/** What an act on another thing, or a start, asks of a fastener. */
function answerTo(role: Extract<Role, { does: "asked" }>, facts: FastenerFacts, mark: Marking): Move {
  const { why, asker } = role;
  if (why === "start") return wholeAt(facts, mark, asker);
  const code = mark(ASKED[why], why === "lock" ? why : "", LEVEL, asker);
  // A clip or clamp lets a line go when it is slackened; what has a thread must come off it.
  const slackened = why === "release" && asker.kind === "line" && facts.thread === "";
  return (state, report) => {
    const level = state & LEVEL;
    if (level === OUT || level === TAKEN_AS_OUT || (level === LOOSE && slackened)) return state;
    // What locks another holds it only when it is tight.
    if (why === "lock" && level >= BY_HAND && level <= LOOSE) return state;
    report(code);
    return TAKEN_AS_OUT;
  };
}

/** At a start it must be tight, but for one that sets a position or holds nothing: that may be set while it runs. */
function wholeAt(facts: FastenerFacts, mark: Marking, asker: Thing): Move {
  if (facts.setting || facts.secures.length === 0) return (state) => state;
  const out = mark(ASKED.start, "out", LEVEL, asker);
  const loose = [BY_HAND, PLACED, LOOSE].map((s) => mark(ASKED.start, SAID[s], LEVEL, asker));
  const stages = facts.stages.map((s) => mark(ASKED.start, s.name, LEVEL, asker));
  return (state, report) => {
    const level = state & LEVEL;
    if (level === OUT) report(out);
    else if (level >= BY_HAND && level <= LOOSE) report(loose[level - BY_HAND] as number);
    else if (level >= FIRST_STAGE) report(stages[level - FIRST_STAGE] as number);
    return state;
  };
}

function moveBy(point: ActPoint, facts: FastenerFacts, mark: Marking, needsTightening: boolean): Move {
  const { verb, act } = point;
  if (verb === "throw-away") return (state) => ((state & LEVEL) === OUT ? state | THROWN_AWAY : state);
  switch (verb === "hand-back" ? "handed back" : actRow(verb).fastener) {
    case "out":
      return takeOut(act.discard || facts.renewEveryTime ? THROWN_AWAY : 0, mark);
    case "placed": {
      const level = act.byHand || act.loosely ? BY_HAND : needsTightening ? PLACED : TIGHT;
      return putIn(level, point, facts, mark);
    }
    case "loose": {
      const sets = facts.setting && act.quantity !== null;
      return (state) => {
        const level = state & LEVEL;
        return level === OUT ? state : (state & OLD) | (sets ? TIGHT : LOOSE);
      };
    }
    case "tightened":
      return tighten(point, facts, mark);
    case "set":
      return facts.setting ? (state) => ((state & LEVEL) === OUT ? state : TIGHT) : (state) => state;
    case "handed back":
      return () => TIGHT;
    default:
      return (state) => state;
  }
}

function takeOut(gone: number, mark: Marking): Move {
  const twice = mark("removed-twice");
  return (state, report) => {
    if ((state & LEVEL) === OUT) report(twice);
    return OUT | (state & OLD) | gone;
  };
}

function putIn(level: number, { act }: ActPoint, facts: FastenerFacts, mark: Marking): Move {
  const twice = mark("part-fitted-twice");
  const used = act.age === null && facts.renewEveryTime ? mark("used-bolt-refitted") : -1;
  const isOld = act.age === "old" && facts.renewEveryTime ? OLD : 0;
  return (state, report) => {
    const before = state & LEVEL;
    if (before !== OUT && before !== TAKEN_AS_OUT) report(twice);
    else if (used >= 0) report(used);
    return level | isOld;
  };
}

/**
 * A tightening leads to the last of the stages it names, or to the end. One that is tight may be tightened again to its
 * torque, but not turned through its angle again; one on the way up takes its stages one after the other.
 */
function tighten({ act }: ActPoint, facts: FastenerFacts, mark: Marking): Move {
  const { stages } = facts;
  const named = act.stages.map((s) => stages.findIndex((stage) => stage.name === s.name.name));
  const to = act.toStage ? stages.findIndex((s) => s.name === act.toStage?.name) : (named.at(-1) ?? -1);
  const last = to < 0 ? stages.length - 1 : to;
  const level = last >= stages.length - 1 ? TIGHT : FIRST_STAGE + last;
  const notIn = mark("tightened-before-fitted");
  const again = mark("angle-twice", "", STRETCHED);
  const outOfOrder = mark("stage-out-of-order");
  // Stages for some machines only are not an order for all.
  const inOrder = stages.some((s) => s.onlyOn.length > 0) || isAscending(named);
  const angle = firstAngle(facts);
  const turns = (from: number): boolean =>
    angle >= 0 && stages.slice(Math.max(from, angle), last + 1).some((s) => s.kind === "angle");
  return (state, report) => {
    const before = state & LEVEL;
    const from = before >= FIRST_STAGE ? before - FIRST_STAGE + 1 : 0;
    const first = named[0] ?? from;
    if (before === OUT) report(notIn);
    else if ((state & STRETCHED) !== 0 && (before === TIGHT || first < from) && turns(first)) report(again);
    else if (!inOrder || (before !== TIGHT && (first !== from || last < from))) report(outOfOrder);
    const stretched = turns(first) ? STRETCHED : state & STRETCHED;
    return level | stretched | (state & OLD);
  };
}

/** The first stage that turns by an angle what a torque has tightened: that stretches. A plain turn does not. */
function firstAngle({ stages, setting }: FastenerFacts): number {
  if (setting) return -1;
  const torque = stages.findIndex((s) => s.kind === "torque");
  return torque < 0 ? -1 : stages.findIndex((s, i) => i > torque && s.kind === "angle");
}

/** Whether stages follow one another without a gap. */
function isAscending(stages: readonly number[]): boolean {
  return stages.every((stage, i) => i === 0 || stage === (stages[i - 1] as number) + 1);
}
