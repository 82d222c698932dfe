/**
 * What puts things right, as lines: a part that is off goes on, a fastener goes in and is tightened with its stages and
 * tools, what is drained is filled, what is held is let go of. The rules' fixes and the refit are written with it.
 */
import { fastenerFacts, namesIn, partFacts, type Stage, toolFacts } from "../facts";
import type { Procedure, Thing } from "../model";
import {
  type ActPoint,
  actRow,
  DEPARTURES,
  type Departure,
  type Difference,
  type Point,
  type Walk,
} from "../walk";
import { kitThings } from "./kit";
import { actsOf } from "./look";
import { figureOf, isTorqueWrench, saidTools, tighteningsOf } from "./tightenings";

/** A thing that is to be put right. */
export interface Due {
  readonly thing: Thing;
  readonly differences: readonly Pick<Difference, "kind" | "stage">[];
  /** The point that brought it about, or -1. */
  readonly since: number;
}

/** One act that puts something right. */
export interface RightingAct {
  readonly verb: string;
  readonly thing: Thing;
  readonly since: number;
  /** Its lines without indentation of their own. */
  readonly lines: readonly string[];
  /** It is done when the machine stands on its wheels. */
  readonly onWheels: boolean;
}

/** The acts of a departure's end, by the departure. */
const ENDS: Readonly<Partial<Record<Departure, string>>> = {
  disconnected: "connect",
  open: "close",
  isolated: "restore",
  drained: "fill",
  supported: "release",
  raised: "lower",
  running: "stop",
  in: "pull",
};

/** Acts that are done with what their opposite was done with, and by as many people. */
const WITH_THE_SAME: ReadonlySet<string> = new Set(["lower", "pull", "release"]);

/** The departure that a word under `starts with`, or a fault's state, says. */
export function departureSaid(said: string): Departure | undefined {
  return (Object.keys(DEPARTURES) as Departure[]).find((name) => DEPARTURES[name].said === said);
}

/** The acts that put one thing right, in their order. */
export function rightingActs(procedure: Procedure, walk: Walk, due: Due): readonly RightingAct[] {
  const { thing, since, differences } = due;
  const kinds = new Set(differences.map((d) => d.kind));
  const act: Make = (verb, lines, onWheels = false, from = since) => ({
    verb,
    thing,
    since: from,
    lines,
    onWheels,
  });
  if (thing.kind === "fastener") return fastenerActs(procedure, walk, due, act);
  const acts: RightingAct[] = [];
  if (kinds.has("off")) {
    const line = fitLine(procedure, thing, kinds.has("thrown-away"));
    // It may have been let go of since: what it came off with is said where it came off.
    const off = walk.graph.points[madeAt(walk, due, "off")];
    acts.push(act("fit", [`${line}${lifting(off)}`]));
  }
  for (const [departure, verb] of Object.entries(ENDS) as [Departure, string][]) {
    if (!kinds.has(departure)) continue;
    const from = madeAt(walk, due, departure);
    const before = walk.graph.points[from];
    const same = WITH_THE_SAME.has(verb) && before?.kind === "act" ? sameHands(verb, before) : "";
    acts.push(act(verb, [`${verb} ${thing.name}${same}`], false, from));
  }
  return acts;
}

/** The point that made one of the departures of a thing: the last of them is what the whole state is since. */
function madeAt({ graph }: Walk, { thing, since }: Due, departure: Departure): number {
  const at = graph.points.findLastIndex(
    (p, i) => i <= since && p.kind === "act" && p.thing === thing && actRow(p.verb).makes === departure,
  );
  return at < 0 ? since : at;
}

/** What holds up a load stays where it is when the load is let go of: only what lifts or pulls is named again. */
function sameHands(verb: string, { act }: ActPoint): string {
  const tools = verb === "release" ? "" : withTools(act.tools.map((t) => t.name));
  return `${tools === "" ? "" : `  ${tools}`}${byPeople(act.people)}`;
}

/** What a load was lifted off with, for lifting it on. */
function lifting(point: Point | undefined): string {
  if (point?.kind !== "act" || actRow(point.verb).makes !== "off") return "";
  const gear = point.supplies.filter((s) => s.kind === "tool" && toolFacts(s.entry).rating !== null);
  const tools = withTools(gear.map((t) => t.name));
  return `${byPeople(point.act.people)}${tools === "" ? "" : `  ${tools}`}`;
}

const NUMBERS = ["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

const byPeople = (people: number): string =>
  people < 2 ? "" : `  by ${NUMBERS[people - 2] ?? people} people`;

/** The line that fits a part: a new one where the old one is gone or the kit has one, the way round it must go. */
export function fitLine(procedure: Procedure, thing: Thing, gone: boolean): string {
  const inKit = kitThings(procedure).some((k) => k.thing === thing && k.item.onlyIf === null);
  const isNew = gone || inKit;
  const { wayRound, ownPlace } = partFacts(thing.entry);
  const way = namesIn(wayRound ?? undefined, "direction")[0]?.name;
  return [
    `fit ${isNew ? "new " : ""}${thing.name}`,
    ...(way ? [`way-round ${way}`] : []),
    ...(ownPlace && !isNew ? ["in own place"] : []),
  ].join("  ");
}

type Make = (verb: string, lines: readonly string[], onWheels?: boolean, from?: number) => RightingAct;

function fastenerActs(procedure: Procedure, walk: Walk, due: Due, act: Make): RightingAct[] {
  const { thing, differences } = due;
  const { stages, renewEveryTime } = fastenerFacts(thing.entry);
  const kinds = new Set(differences.map((d) => d.kind));
  const isOld = kinds.has("old");
  const isOut = kinds.has("out") || kinds.has("off") || isOld;
  const inKit = kitThings(procedure).some((k) => k.thing === thing && k.item.onlyIf === null);
  const age = isOld || renewEveryTime || inKit ? "new " : "";
  const isTightened =
    stages.length > 0 ||
    walk.graph.points.some(
      (p) => p.kind === "act" && p.thing === thing && actRow(p.verb).fastener === "tightened",
    );
  const acts: RightingAct[] = [];
  if (isOld && !kinds.has("out")) acts.push(act("remove", [`remove ${thing.name}`]));
  if (isOut) acts.push(act("fit", [`fit ${age}${thing.name}${isTightened ? "  by hand" : ""}`]));
  if (isOut && !isTightened) return acts;
  const at = isOut ? "" : (differences.find((d) => d.kind === "at a stage")?.stage ?? "");
  const first = at === "" ? 0 : stages.findIndex((s) => s.name === at) + 1;
  const wheels = stages.findIndex((s, i) => i >= first && s.onWheels);
  if (wheels > first) acts.push(tightenAct(procedure, walk, thing, stages.slice(first, wheels), act));
  acts.push(tightenAct(procedure, walk, thing, stages.slice(Math.max(wheels, first)), act, wheels >= first));
  return acts;
}

/** One tightening through some of the stages of a fastener. */
function tightenAct(
  procedure: Procedure,
  walk: Walk,
  thing: Thing,
  stages: readonly Stage[],
  act: Make,
  onWheels = false,
): RightingAct {
  const all = fastenerFacts(thing.entry).stages;
  const tools = stages.map((stage) => toolsFor(procedure, thing, stage));
  const hold = holdingFor(procedure, walk, thing);
  const isWhole = stages.length === all.length;
  const isAlike = tools.every((t) => t === tools[0]);
  const turning = stages.find((s) => s.whileTurning)?.whileTurning;
  if (isAlike && isWhole && !turning) {
    const parts = [`tighten ${thing.name}`, tools[0] ?? "", hold].filter((part) => part !== "");
    return act("tighten", [parts.join("  ")], onWheels);
  }
  if (stages.length === 1 && !turning && stages[0]?.name !== "") {
    const parts = [`tighten ${thing.name}`, `to ${stages[0]?.name}`, tools[0] ?? "", hold];
    return act("tighten", [parts.filter((part) => part !== "").join("  ")], onWheels);
  }
  const lines = stages.map((stage, i) => ["  stage", stage.name, tools[i]].filter(Boolean).join("  "));
  if (hold !== "") lines.push(`  ${hold}`);
  if (turning) lines.push(`  while turning ${turning.name}`);
  return act("tighten", [`tighten ${thing.name} {`, ...lines, "}"], onWheels);
}

/** The tools of a stage as a clause: those said where the stage is tightened elsewhere, else a declared one that fits. */
function toolsFor(procedure: Procedure, fastener: Thing, stage: Stage): string {
  const all = tighteningsOf(procedure);
  const same = all.find(
    (t) => t.fastener === fastener && t.stage.name === stage.name && saidTools(t).length > 0,
  );
  if (same) return withTools((same.own.length > 0 ? same.own : same.shared).map((t) => t.thing.name));
  if (stage.kind === "torque" && stage.value) {
    const setting = figureOf(stage.value)?.si ?? 0;
    const fits = wrenchesOf(procedure).filter(({ low, high }) => low <= setting && setting <= high);
    const best = fits.sort((a, b) => a.high - b.high)[0];
    return withTools(best ? [best.name] : []);
  }
  if (stage.kind !== "angle") return "";
  const angle = all.find((t) => t.stage.kind === "angle" && saidTools(t).some((s) => !isTorqueWrench(s)));
  const known = angle && saidTools(angle).find((s) => !isTorqueWrench(s))?.thing;
  const gauge = known ?? procedure.things.find((t) => t.kind === "tool" && /angle/i.test(t.name + t.title));
  return withTools(gauge ? [gauge.name] : []);
}

const withTools = (names: readonly string[]): string =>
  names.length === 0 ? "" : `with ${names.join(", ")}`;

/** A wrench is trusted from a fifth of its top value: common practice, no source. */
const TRUSTED_FROM = 0.2;

function wrenchesOf({ things }: Procedure): { name: string; low: number; high: number }[] {
  return things.flatMap(({ kind, entry, name }) => {
    const range = kind === "tool" ? toolFacts(entry).range : null;
    if (range?.kind !== "torque") return [];
    const high = (range.high ?? range.nominal)?.si ?? 0;
    const low = (range.low ?? range.nominal)?.si ?? 0;
    return [{ name, high, low: range.shape === "exact" ? low : Math.max(low, high * TRUSTED_FROM) }];
  });
}

/** `holding PART with TOOL` as it is said where the fastener is turned elsewhere, else where its part is on a shaft. */
export function holdingFor(procedure: Procedure, { relations }: Walk, fastener: Thing): string {
  for (const { act } of actsOf(procedure)) {
    if (!act.holding || !act.what.some((w) => w.name === fastener.name)) continue;
    const tools = withTools(act.holdingWith.map((t) => t.name));
    return `holding ${act.holding.name}${tools === "" ? "" : `  ${tools}`}`;
  }
  const part = relations.secured(fastener).find((p) => p.kind === "part" && relations.shaftOf(p));
  return part && !fastenerFacts(fastener.entry).setting ? `holding ${part.name}` : "";
}
