/**
 * What else is to be known for an act, one sentence each, after the sentence of the act itself.
 */
import {
  clauseOf,
  clausesOf,
  type Detail,
  fastenerFacts,
  fluidFacts,
  markFacts,
  namesIn,
  partFacts,
  quantityIn,
  shaftFacts,
  textIn,
} from "../facts";
import { type Spot, stepAround, type Thing } from "../model";
import { type ActWord, actTemplate } from "../phrases/acts";
import type { Runs } from "./blocks";
import { type Build, quantityRuns, saidIn, stepWords, targetOf, thingAt, titles } from "./build-context";
import { eventSaid, isLeftHanded, said, THREADED } from "./build-sentences";
import { bare, orderSaid, stagesDone } from "./build-stages";
import type { Use } from "./build-uses";
import { plain, sentences } from "./fill";

/** What else is to be known, one sentence each. */
export function moreSaid(build: Build, use: Use, things: readonly Thing[]): readonly Runs[] {
  const { spot, act } = use;
  const { entry } = spot;
  const fluid = things.find((thing) => thing.kind === "fluid");
  const dispose = fluid && act.discard ? bare(fluidFacts(fluid.entry).dispose) : "";
  const titled = (id: ActWord, key: string, detail: Detail | undefined, role: string): Runs =>
    detail ? said(build, id, { [key]: titles(build, saidIn(spot, detail, role)) }) : [];
  const fasteners = things.filter((thing) => thing.kind === "fastener");
  const group = fasteners.length === 1 ? fasteners[0] : undefined;
  const order = act.verb === "tighten" ? [] : orderSaid(build, spot, act, group);
  return [
    oilSaid(build, act.verb, things),
    order.length > 0 ? said(build, "order", { order }) : [],
    turnsSaid(build, use, things),
    ...runSaid(build, act.verb, things),
    act.age === "new" && keptOnReturn(build, use, things) ? said(build, "after-return") : [],
    wayRoundSaid(build, use, things),
    act.ownPlace || (act.verb === "fit" && things.some(hasOwnPlace)) ? said(build, "own-place") : [],
    act.loosely ? said(build, "loosely") : [],
    act.byHand ? byHandSaid(build, use, things) : [],
    act.toStage && !isLastStage(act.toStage.name, things)
      ? said(build, "to-stage", { stage: plain(act.toStage.name.replaceAll("-", " ")) })
      : [],
    act.keep ? said(build, fluid ? "keep.fluid" : "keep") : [],
    act.discard ? said(build, fluid ? "discard.fluid" : "discard") : [],
    dispose ? said(build, "dispose", { how: plain(dispose) }) : [],
    turningSaid(build, use, things),
    clauseOf(entry, "on-wheels") || (act.verb === "tighten" && onWheels(build, use, things))
      ? said(build, "on-wheels")
      : [],
    leftHandOnSaid(build, use, things),
    titled("without", "what", clauseOf(entry, "without"), "things"),
    titled("never", "tools", clauseOf(entry, "never"), "tools"),
    titled("watched-by", "person", clauseOf(entry, "watched-by"), "person"),
    ...clausesOf(entry, "within-time").map((detail) => withinSaid(build, spot, detail)),
    act.atMost ? said(build, "at-most", { amount: quantityRuns(build, act.atMost) }) : [],
  ];
}

function isLastStage(stage: string, things: readonly Thing[]): boolean {
  return things.every(
    (thing) => thing.kind !== "fastener" || fastenerFacts(thing.entry).stages.at(-1)?.name === stage,
  );
}

const hasOwnPlace = (thing: Thing): boolean => thing.kind === "part" && partFacts(thing.entry).ownPlace;

function onWheels(build: Build, use: Use, things: readonly Thing[]): boolean {
  return things.some(
    (thing) => thing.kind === "fastener" && stagesDone(build, use, thing).some(({ fact }) => fact.onWheels),
  );
}

/** Where oil goes, when a fastener that is lubricated says so. */
function oilSaid(build: Build, verb: string, things: readonly Thing[]): Runs {
  const oiled =
    verb === "lubricate" ? things.map((thing) => clauseOf(thing.entry, "oiled")).find(Boolean) : undefined;
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
  const shafts = things.flatMap((thing) =>
    thing.kind === "mark" ? (thingAt(spot, markFacts(thing.entry).on, ["shaft", "part"]) ?? []) : thing,
  );
  const bound = [...new Set(shafts)].filter(
    (thing) => thing.kind === "shaft" && shaftFacts(thing.entry).turnsOnly,
  );
  return sentences(
    bound.map((shaft) => {
      const turns = shaftFacts(shaft.entry).turns;
      return turns && turns !== "either"
        ? said(build, "turns-only", {
            what: titles(build, [shaft]),
            direction: plain(actTemplate(build.language, turns)),
          })
        : [];
    }),
  );
}

/** What is kept turning meanwhile: said by the act, else by the stages that it goes through. */
function turningSaid(build: Build, use: Use, things: readonly Thing[]): Runs {
  const { spot, act } = use;
  const own = clauseOf(spot.entry, "while-turning");
  const kept = own || act.verb !== "tighten" ? [] : things.filter(({ kind }) => kind === "fastener");
  const names = kept.flatMap((fastener) =>
    stagesDone(build, use, fastener).flatMap(({ fact }) => fact.whileTurning ?? []),
  );
  const turned = names.flatMap((name) => thingAt(spot, name, ["part", "shaft"]) ?? []);
  const what = own ? saidIn(spot, own, "part") : [...new Set(turned)];
  return what.length > 0 ? said(build, "while-turning", { what: titles(build, what) }) : [];
}

/** How a line that is led through its clips may bend, and what it needs to spare. */
function runSaid(build: Build, verb: string, things: readonly Thing[]): readonly Runs[] {
  if (verb !== "run") return [];
  return things.flatMap(({ entry }) => {
    const bend = quantityIn(clauseOf(entry, "bend-radius"), "limit");
    const slack = quantityIn(clauseOf(entry, "slack"), "length");
    return [
      bend ? said(build, "bend-radius", { amount: quantityRuns(build, bend) }) : [],
      slack ? said(build, "slack", { amount: quantityRuns(build, slack) }) : [],
    ];
  });
}

function wayRoundSaid(build: Build, { spot, act }: Use, things: readonly Thing[]): Runs {
  const own = clauseOf(spot.entry, "way-round");
  const facts =
    act.verb === "fit" ? things.map((thing) => clauseOf(thing.entry, "way-round")).find(Boolean) : undefined;
  const name = (namesIn(own, "direction")[0] ?? namesIn(facts, "direction")[0])?.name;
  if (name === undefined) return [];
  const direction =
    name === "clockwise" || name === "anticlockwise"
      ? actTemplate(build.language, name)
      : name.replaceAll("-", " ");
  return said(build, "way-round", {
    direction: plain(direction),
    mark: plain(textIn(own, "mark") || textIn(facts, "mark")),
  });
}

/** Whether a part that is fitted new may, after a return, be the one that a later act takes off and keeps. */
function keptOnReturn(build: Build, { spot, index }: Use, things: readonly Thing[]): boolean {
  return things
    .flatMap((thing) => build.uses.on(thing))
    .some((later) => later.index > index && later.act.keep && returnsBefore(build, later.spot, spot.index));
}

/** Whether the outcome around an act leads back to before a place of the job. */
function returnsBefore(build: Build, spot: Spot, here: number): boolean {
  const lead = spot.parent?.children.find(({ entry }) => entry.construct === "repeat");
  const target = lead && targetOf(build, lead, namesIn(lead.entry.form, "target")[0]);
  return target !== undefined && target.index <= here;
}

/** Fitted by hand, and in which step it is tightened where that can be told. */
function byHandSaid(build: Build, { spot, index }: Use, things: readonly Thing[]): Runs {
  const fastener = things.find((thing) => thing.kind === "fastener");
  const later =
    fastener && build.uses.on(fastener).find((use) => use.index > index && use.act.verb === "tighten");
  const step = later && stepAround(later.spot);
  if (!step) return said(build, "by-hand");
  return step === stepAround(spot)
    ? said(build, "by-hand.here")
    : said(build, "by-hand.step", { step: stepWords(build, String(step.number)) });
}

/** Where a thread is left-hand on some sides only, or not every fastener of the act has one. */
function leftHandOnSaid(build: Build, { act }: Use, things: readonly Thing[]): Runs {
  const fasteners = THREADED.has(act.verb) ? things.filter(({ kind }) => kind === "fastener") : [];
  const some = fasteners.every(isLeftHanded) ? [] : fasteners.filter(isLeftHanded);
  const members = fasteners.flatMap(({ entry }) => fastenerFacts(entry).leftHandOn);
  if (some.length + members.length === 0) return [];
  const sides = members.map(({ name }) => ({ name, title: "" }));
  return said(build, "left-hand-on", { members: titles(build, [...some, ...sides]) });
}

function withinSaid(build: Build, spot: Spot, detail: Detail): Runs {
  const name = namesIn(detail, "event")[0]?.name;
  const supply = name !== undefined && spot.procedure.find(name, ["step", "check"]) === undefined;
  return said(build, supply ? "within.supply" : "within.step", {
    amount: quantityRuns(build, quantityIn(detail, "time")),
    event: eventSaid(build, spot, name),
  });
}
