/**
 * Acts as plain sentences: the act itself, then what else is to be known for doing it. Every word comes from phrases.
 */
import { clauseOf, clausesOf, type Detail, fastenerFacts, fluidFacts, markFacts, namesIn, partFacts, quantityIn, shaftFacts, temporaryFacts, textIn } from "../facts";
import { type Spot, stepAround, type Thing } from "../model";
import { type ActWord, actTemplate, isActWord } from "../phrases/acts";
import { type Build, itemOf, quantityRuns, rangeOf, saidIn, stepTitled, stepWords, type Titled, targetOf, thingAt, titles } from "./build-context";
import { bare, boxesOf, orderSaid, stageSaid, stagesDone } from "./build-stages";
import { type Use, WHAT, withs } from "./build-uses";
import { type Args, fill, plain, sentences } from "./fill";
import type { Quantity } from "../units/quantity";
import type { Action, Runs, Tightening, Wait } from "./blocks";

/** The act at a place of the job, as one or more items: a tightening has one for each fastener. */
export function actionsOf(build: Build, use: Use): readonly (Action | Wait)[] {
  const { spot, act, what } = use;
  if (act.verb === "wait") return [waitOf(build, use)];
  const fasteners = what.filter((thing) => thing.kind === "fastener");
  if (act.verb !== "tighten" || fasteners.length === 0) return [actionOf(build, use, saidIn(spot, spot.entry.form, ...WHAT), "")];
  const rest = what.filter((thing) => thing.kind !== "fastener");
  return [...fasteners.map((one) => [one]), ...(rest.length > 0 ? [rest] : [])].map((things, index) =>
    actionOf(build, use, things, index === 0 ? "" : `.${index + 1}`),
  );
}

function actionOf(build: Build, use: Use, what: readonly Titled[], suffix: string): Action {
  const { spot, act } = use;
  const things = use.what.filter((thing) => what.includes(thing));
  const fastener = things.find((thing) => thing.kind === "fastener");
  const tightening = act.verb === "tighten" && fastener ? tighteningOf(build, use, fastener) : undefined;
  return {
    kind: "action",
    ...itemOf(spot, suffix),
    sentence: sentences([holdingSaid(build, spot), mainSaid(build, use, what, things), ...moreSaid(build, use, things)]),
    ...(act.people > 1 ? { people: act.people } : {}),
    ...(things.some((thing) => isLeftHand(use, thing)) ? { leftHand: true as const } : {}),
    ...(tightening ? { tightening } : {}),
  };
}

const THREADED = new Set(["remove", "fit", "loosen", "tighten"]);

function isLeftHand({ act }: Use, thing: Thing): boolean {
  if (thing.kind !== "fastener" || !THREADED.has(act.verb)) return false;
  const { leftHand, leftHandOn } = fastenerFacts(thing.entry);
  return leftHand && leftHandOn.length === 0;
}

function tighteningOf(build: Build, use: Use, fastener: Thing): Tightening | undefined {
  const stages = stagesDone(build, use, fastener);
  if (stages.length === 0) return undefined;
  const boxes = boxesOf(fastener, stages);
  const order = orderSaid(build, use.spot, use.act, fastener, stages, boxes);
  return { stages: stages.map((stage) => stageSaid(build, use.spot, stage)), ...(order.length > 0 ? { order } : {}), boxes };
}

/** A sentence of the acts, filled in. */
export function said(build: Build, id: ActWord, args: Args = {}): Runs {
  return fill(actTemplate(build.language, id), args);
}

function holdingSaid(build: Build, spot: Spot): Runs {
  const holding = clauseOf(spot.entry, "holding");
  if (!holding) return [];
  return said(build, "holding", { what: titles(build, saidIn(spot, holding, "part")), tools: titles(build, saidIn(spot, holding, "tools")) });
}

/** The sentence of the act itself. */
function mainSaid(build: Build, use: Use, what: readonly Titled[], things: readonly Thing[]): Runs {
  const { spot, act } = use;
  const id = sentenceOf(use, things);
  if (!isActWord(id)) return [];
  const course = saidIn(spot, spot.entry.form, "clips", "parts");
  return said(build, id, {
    what: titles(build, what),
    tools: titles(build, toolsFor(use, things)),
    amount: quantityRuns(build, amountOf(use, things)),
    direction: act.direction ? plain(actTemplate(build.language, act.direction)) : [],
    course: course.length > 0 ? titles(build, course) : [],
    sign: plain(bare(act.text)),
    place: titles(build, placesOf(spot, things).slice(0, 1).map(({ at }) => at)),
    event: eventSaid(build, spot, namesIn(spot.entry.form, "event")[0]?.name),
  });
}

/** Which sentence an act has: its own, or one of its kinds. */
function sentenceOf({ spot, act }: Use, things: readonly Thing[]): string {
  const { words } = act;
  switch (act.verb) {
    case "fit":
      return act.age ? `fit.${act.age}` : "fit";
    case "turn":
      return words.includes("until") ? "turn.until" : "turn";
    case "press":
      return words.includes("in") ? "press.in" : "press.out";
    case "insert": {
      const [first, ...rest] = placesOf(spot, things);
      return first && things.length === 1 + rest.length && rest.every(({ at, way }) => at === first.at && way === first.way) ? `insert.${first.way}` : "insert";
    }
    case "pull":
      return things.length > 0 && placesOf(spot, things).filter(({ way }) => way === "over").length === things.length ? "pull.off" : "pull";
    case "wait":
      return waitSentence(words);
    default:
      return act.verb;
  }
}

function waitSentence(words: readonly string[]): ActWord {
  if (words.includes("below")) return "wait.below";
  if (words.includes("above")) return "wait.above";
  if (words.includes("until")) return "wait.sign";
  return words.includes("after") ? "wait.after" : "wait.time";
}

/** Where temporaries go: into, over or on what. */
export function placesOf(spot: Spot, things: readonly Thing[]): readonly { readonly way: "into" | "over" | "on"; readonly at: Thing }[] {
  return things.filter((thing) => thing.kind === "temporary").flatMap((thing) => {
    const facts = temporaryFacts(thing.entry);
    return (["into", "over", "on"] as const).flatMap((way) => {
      const at = thingAt(spot, facts[way], ["part", "shaft", "belt", "line", "fastener"]);
      return at ? [{ way, at }] : [];
    });
  });
}

/** The tools said; a lubricant that the fasteners themselves name need not be said again by the writer. */
function toolsFor({ spot, act }: Use, things: readonly Thing[]): readonly Titled[] {
  const own = withs(spot.entry).flatMap((detail) => saidIn(spot, detail, "tools"));
  if (own.length > 0 || act.verb !== "lubricate") return own;
  return things.flatMap((thing) => (thing.kind === "fastener" ? (thingAt(spot, fastenerFacts(thing.entry).lubricant, ["consumable", "fluid"]) ?? []) : []));
}

/** The amount an act says; for filling, what the machine holds where the act says none. */
function amountOf({ act }: Use, things: readonly Thing[]): Quantity | null {
  const [fluid] = things;
  if (act.quantity || act.verb !== "fill" || things.length !== 1 || fluid?.kind !== "fluid") return act.quantity;
  return fluidFacts(fluid.entry).capacity;
}

function eventSaid(build: Build, spot: Spot, name: string | undefined): Runs {
  const thing = name === undefined ? undefined : spot.procedure.find(name, ["step", "check", "consumable"]);
  const at = thing && build.job.spotOf(thing, spot);
  return at ? stepTitled(build, at) : thing ? titles(build, [thing]) : plain(name ?? "");
}

/** What else is to be known, one sentence each. */
function moreSaid(build: Build, use: Use, things: readonly Thing[]): readonly Runs[] {
  const { spot, act } = use;
  const { entry } = spot;
  const fluid = things.find((thing) => thing.kind === "fluid");
  const dispose = fluid && act.discard ? bare(fluidFacts(fluid.entry).dispose) : "";
  const titled = (id: ActWord, key: string, detail: Detail | undefined, role: string): Runs =>
    detail ? said(build, id, { [key]: titles(build, saidIn(spot, detail, role)) }) : [];
  const order = act.verb === "tighten" ? [] : orderSaid(build, spot, act, undefined);
  return [
    oilSaid(build, act.verb, things),
    order.length > 0 ? said(build, "order", { order }) : [],
    turnsSaid(build, use, things),
    act.age === "new" && keptOnReturn(build, use, things) ? said(build, "after-return") : [],
    wayRoundSaid(build, use, things),
    act.ownPlace || (act.verb === "fit" && things.some(hasOwnPlace)) ? said(build, "own-place") : [],
    act.loosely ? said(build, "loosely") : [],
    act.byHand ? byHandSaid(build, use, things) : [],
    act.toStage && !isLastStage(act.toStage.name, things) ? said(build, "to-stage", { stage: plain(act.toStage.name.replaceAll("-", " ")) }) : [],
    act.keep ? said(build, fluid ? "keep.fluid" : "keep") : [],
    act.discard ? said(build, fluid ? "discard.fluid" : "discard") : [],
    dispose ? said(build, "dispose", { how: plain(dispose) }) : [],
    titled("while-turning", "what", clauseOf(entry, "while-turning"), "part"),
    clauseOf(entry, "on-wheels") || (act.verb === "tighten" && onWheels(build, use, things)) ? said(build, "on-wheels") : [],
    leftHandOnSaid(build, use, things),
    titled("without", "what", clauseOf(entry, "without"), "things"),
    titled("never", "tools", clauseOf(entry, "never"), "tools"),
    titled("watched-by", "person", clauseOf(entry, "watched-by"), "person"),
    ...clausesOf(entry, "within-time").map((detail) => withinSaid(build, spot, detail)),
    act.atMost ? said(build, "at-most", { amount: quantityRuns(build, act.atMost) }) : [],
  ];
}

function isLastStage(stage: string, things: readonly Thing[]): boolean {
  return things.every((thing) => thing.kind !== "fastener" || fastenerFacts(thing.entry).stages.at(-1)?.name === stage);
}

const hasOwnPlace = (thing: Thing): boolean => thing.kind === "part" && partFacts(thing.entry).ownPlace;

function onWheels(build: Build, use: Use, things: readonly Thing[]): boolean {
  return things.some((thing) => thing.kind === "fastener" && stagesDone(build, use, thing).some(({ fact }) => fact.onWheels));
}

/** Where oil goes, when a fastener that is lubricated says so. */
function oilSaid(build: Build, verb: string, things: readonly Thing[]): Runs {
  const oiled = verb === "lubricate" ? things.map((thing) => clauseOf(thing.entry, "oiled")).find(Boolean) : undefined;
  const place = oiled ? oilPlace(oiled) : "";
  return place === "" ? [] : said(build, `oil.${place}`);
}

/** Where a fastener is oiled: `on thread`, `under head`, both, or unsaid. */
export function oilPlace({ words }: Detail): "thread" | "head" | "both" | "" {
  const thread = words.includes("thread");
  const head = words.includes("head");
  return thread && head ? "both" : thread ? "thread" : head ? "head" : "";
}

/** The only way a shaft may be turned, where the act does not say the way itself. */
function turnsSaid(build: Build, { spot, act }: Use, things: readonly Thing[]): Runs {
  if (act.direction || (act.verb !== "align" && act.verb !== "turn")) return [];
  const shafts = things.flatMap((thing) => (thing.kind === "mark" ? (thingAt(spot, markFacts(thing.entry).on, ["shaft", "part"]) ?? []) : thing));
  const bound = [...new Set(shafts)].filter((thing) => thing.kind === "shaft" && shaftFacts(thing.entry).turnsOnly);
  return sentences(
    bound.map((shaft) => {
      const turns = shaftFacts(shaft.entry).turns;
      return turns && turns !== "either" ? said(build, "turns-only", { what: titles(build, [shaft]), direction: plain(actTemplate(build.language, turns)) }) : [];
    }),
  );
}

function wayRoundSaid(build: Build, { spot, act }: Use, things: readonly Thing[]): Runs {
  const own = clauseOf(spot.entry, "way-round");
  const facts = act.verb === "fit" ? things.map((thing) => clauseOf(thing.entry, "way-round")).find(Boolean) : undefined;
  const name = (namesIn(own, "direction")[0] ?? namesIn(facts, "direction")[0])?.name;
  if (name === undefined) return [];
  const direction = name === "clockwise" || name === "anticlockwise" ? actTemplate(build.language, name) : name.replaceAll("-", " ");
  return said(build, "way-round", { direction: plain(direction), mark: plain(textIn(own, "mark") || textIn(facts, "mark")) });
}

/** Whether a part that is fitted new may, after a return, be the one that a later act takes off and keeps. */
function keptOnReturn(build: Build, { spot, index }: Use, things: readonly Thing[]): boolean {
  const here = build.job.spots.indexOf(spot);
  return things
    .flatMap((thing) => build.uses.on(thing))
    .some((later) => later.index > index && later.act.keep && returnsBefore(build, later.spot, here));
}

/** Whether the outcome around an act leads back to before a place of the job. */
function returnsBefore(build: Build, spot: Spot, here: number): boolean {
  const lead = spot.parent?.children.find(({ entry }) => entry.construct === "repeat");
  const target = lead && targetOf(build, lead, namesIn(lead.entry.form, "target")[0]);
  return target !== undefined && build.job.spots.indexOf(target) <= here;
}

/** Fitted by hand, and in which step it is tightened where that can be told. */
function byHandSaid(build: Build, { spot, index }: Use, things: readonly Thing[]): Runs {
  const fastener = things.find((thing) => thing.kind === "fastener");
  const later = fastener && build.uses.on(fastener).find((use) => use.index > index && use.act.verb === "tighten");
  const step = later && stepAround(later.spot);
  if (!step) return said(build, "by-hand");
  return step === stepAround(spot) ? said(build, "by-hand.here") : said(build, "by-hand.step", { step: stepWords(build, String(step.number)) });
}

function leftHandOnSaid(build: Build, { act }: Use, things: readonly Thing[]): Runs {
  const members = things.flatMap((thing) => (thing.kind === "fastener" && THREADED.has(act.verb) ? fastenerFacts(thing.entry).leftHandOn : []));
  if (members.length === 0) return [];
  return said(build, "left-hand-on", { members: titles(build, members.map(({ name }) => ({ name, title: "" }))) });
}

function withinSaid(build: Build, spot: Spot, detail: Detail): Runs {
  const name = namesIn(detail, "event")[0]?.name;
  const supply = name !== undefined && spot.procedure.find(name, ["step", "check"]) === undefined;
  return said(build, supply ? "within.supply" : "within.step", { amount: quantityRuns(build, quantityIn(detail, "time")), event: eventSaid(build, spot, name) });
}

function waitOf(build: Build, use: Use): Wait {
  const { spot, act } = use;
  const id = waitSentence(act.words);
  const minutes = act.quantity?.kind === "time" ? Math.ceil(((act.quantity.low ?? act.quantity.nominal)?.si ?? 0) / 60 - 1e-9) : 0;
  const measured = act.quantity && (id === "wait.below" || id === "wait.above") ? act.quantity : null;
  return {
    kind: "wait",
    ...itemOf(spot),
    sentence: sentences([mainSaid(build, use, saidIn(spot, spot.entry.form, ...WHAT), use.what), ...moreSaid(build, use, use.what)]),
    ...(minutes > 0 && (id === "wait.time" || id === "wait.after") ? { minutes } : {}),
    ...(measured ? { until: untilOf(build, measured, id === "wait.below") } : {}),
  };
}

function untilOf(build: Build, level: Quantity, below: boolean): NonNullable<Wait["until"]> {
  const limit = below ? { ...level, shape: "under" as const, low: null, highIncluded: false } : { ...level, shape: "over" as const, high: null, lowIncluded: false };
  const [first] = quantityRuns(build, { ...limit, nominal: null });
  return { limit: first ? [first] : [], ...rangeOf(build, { ...limit, nominal: null }) };
}


