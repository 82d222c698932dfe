/**
 * The stages of a tightening as they stand on the sheet: which ones an act goes through, in words and both units, and
 * what the wrench is set to where an adapter is used.
 */
import {
  type Act,
  clauseOf,
  fastenerFacts,
  leverageOf,
  methodIn,
  type OrderMethod,
  type Stage as StageFact,
  slotIn,
  stageOf,
  toolFacts,
} from "../facts";
import { settingShare, wrenchSetting } from "../mechanics/setting";
import type { Spot, Thing } from "../model";
import { type ActWord, actTemplate } from "../phrases/acts";
import { keeps, type OrderSaid, orderOf } from "../walk/orders";
import { type Build, dual, dualRuns, grouped, thingAt, thingsIn, titles } from "./build-context";
import type { Use } from "./build-uses";
import { fill, plain, textOf } from "./fill";
import type { Dual, Runs, Stage } from "./inline";

/** A stage that an act goes through, with the tools it is done with. */
export interface StageDone {
  readonly fact: StageFact;
  readonly tools: readonly Thing[];
}

/** The stages of a fastener that a tightening goes through, given what the tightenings before it have reached. */
export function stagesDone(build: Build, { spot, act, index }: Use, fastener: Thing): readonly StageDone[] {
  const { stages } = fastenerFacts(fastener.entry);
  const tools = thingsIn(spot, clauseOf(spot.entry, "with"), "tools");
  if (act.stages.length > 0) {
    return act.stages.map(({ name, detail }) => ({
      fact: stages.find((stage) => stage.name === name.name) ?? stageOf(detail),
      tools: [...thingsIn(spot, clauseOf(detail, "with"), "tools"), ...tools],
    }));
  }
  const from = reached(build, fastener, index, stages);
  const last = act.toStage
    ? stages.findIndex((stage) => stage.name === act.toStage?.name)
    : stages.length - 1;
  const kept = stages.slice(from > last ? 0 : from, last + 1);
  return kept.map((fact) => ({ fact, tools }));
}

/** How many stages have been reached before an act; none after the fastener was loosened, taken out or fitted. */
function reached(build: Build, fastener: Thing, before: number, stages: readonly StageFact[]): number {
  const last = build.uses.on(fastener).findLast(({ index }) => index < before);
  if (last?.act.verb !== "tighten") return 0;
  const named = [last.act.toStage, ...last.act.stages.map(({ name }) => name)];
  const done = Math.max(-1, ...named.map((name) => stages.findIndex((stage) => stage.name === name?.name)));
  // A whole tightening that comes again begins from the first stage.
  return done + 1 >= stages.length ? 0 : done + 1;
}

/** A stage as it is printed. */
export function stageSaid(build: Build, spot: Spot, { fact, tools }: StageDone): Stage {
  const only = fact.onlyOn.flatMap((name) => thingAt(spot, name, ["variant", "option", "bulletin"]) ?? []);
  const name = plain(fact.name.replaceAll("-", " "));
  const said =
    only.length > 0 && fact.name
      ? textOf(words(build, "stage.only-on", { stage: name, variants: titles(build, only) }))
      : textOf(name);
  const setting = settingOf(build, fact, tools);
  return {
    ...(said === "" ? {} : { name: said }),
    value: valueSaid(build, fact),
    ...(setting ? { setting } : {}),
  };
}

function words(build: Build, id: ActWord, args: Readonly<Record<string, Runs>>): Runs {
  return fill(actTemplate(build.language, id), args);
}

function valueSaid(build: Build, { kind, value, text }: StageFact): Dual {
  if (kind === "by-feel")
    return { value: textOf(words(build, "stage.by-feel", { text: plain(bare(text)) })) };
  if (kind === "back-to")
    return { value: textOf(words(build, "stage.back-to", { text: plain(bare(text)) })) };
  if (value === null) return { value: "–" };
  if (kind === "back")
    return { value: textOf(words(build, "stage.back", { value: dualRuns(dual(build, value)) })) };
  if (kind === "angle")
    return { value: textOf(words(build, "stage.angle", { value: dualRuns(dual(build, value)) })) };
  return dual(build, value);
}

/** The writer's words without the full stop that the sentence around them brings. */
export function bare(text: string): string {
  return text.trim().replace(/\.$/, "");
}

/** What the wrench is set to where one of the tools is an adapter. */
function settingOf(build: Build, { kind, value }: StageFact, tools: readonly Thing[]): Dual | undefined {
  if (kind !== "torque" || value === null) return undefined;
  for (const tool of tools) {
    const adapter = tool.kind === "tool" ? toolFacts(tool.entry).adapter : null;
    const leverage = adapter && leverageOf(adapter);
    // Square to the wrench nothing changes.
    const setting = leverage && settingShare(...leverage) !== 1 ? wrenchSetting(value, ...leverage) : null;
    if (setting) return dual(build, setting);
  }
  return undefined;
}

/**
 * In which order several fasteners are turned: as the act says, else as the fastener does. Nothing for one. Numbers that
 * stand at the boxes already are not said again beside the name of the method.
 */
export function orderSaid(
  build: Build,
  spot: Spot,
  act: Act,
  fastener: Thing | undefined,
  stages: readonly StageDone[] = [],
  boxes: readonly string[] = [],
): Runs {
  const groups = fastener ? byOrder(spot, act, fastener, stages) : [];
  if (groups.length > 1 || groups.some((group) => group.stages.length < stages.length))
    return groups.flatMap(({ said: { method, order }, stages: own }, index) => [
      ...plain(index === 0 ? "" : "; "),
      ...plain(`${own.map(({ fact }) => fact.name.replaceAll("-", " ")).join(", ")}: `),
      ...orderIn(build, method, order),
    ]);
  const { method, order } = turningOrder(spot, act, fastener, stages);
  return orderIn(build, method, method !== null && order.join() === boxes.join() ? [] : order);
}

/** Stages that are gone through in one order. */
export interface Ordered {
  readonly said: OrderSaid;
  readonly stages: readonly StageDone[];
}

/** The stages of a tightening by the order that each is gone through in; those that have none are left out. */
export function byOrder(
  spot: Spot,
  act: Act,
  fastener: Thing,
  stages: readonly StageDone[],
): readonly Ordered[] {
  const each = stages
    .map((stage) => ({ stage, said: turningOrder(spot, act, fastener, [stage]) }))
    .filter(({ said: { method, order } }) => method !== null || order.length > 0);
  const groups = grouped(
    each,
    ({ said: { method, order } }) => `${order.length > 0 ? order.join() : method}`,
  );
  return [...groups.values()].map((group) => ({
    said: (group[0] as (typeof group)[0]).said,
    stages: group.map(({ stage }) => stage),
  }));
}

/** The method and the numbers, which are worked out where the method is said with the places of the holes. */
export function turningOrder(
  spot: Spot,
  act: Act,
  fastener: Thing | undefined,
  stages: readonly StageDone[],
): OrderSaid {
  const own = {
    method: methodIn(spot.entry.details),
    order: slotIn(clauseOf(spot.entry, "order"), "holes")?.holes ?? [],
  };
  if (!fastener) return own;
  const facts = fastenerFacts(fastener.entry);
  if (own.method !== null || own.order.length > 0) {
    // The maker's own numbers go before those worked out, unless they go another way than this act.
    const given = act.verb === "tighten" && keeps(facts, { ...own, order: facts.order }) !== false;
    const order = own.order.length === 0 && given ? facts.order : own.order;
    return { ...own, order: orderOf(facts, { ...own, order }) };
  }
  if (act.verb !== "tighten" || facts.count < 2) return own;
  const staged = stages.find(({ fact }) => fact.order.length > 0 || fact.method !== null)?.fact;
  const method = staged?.method ?? facts.method;
  const order = staged && staged.order.length > 0 ? staged.order : facts.order;
  return { method, order: orderOf(facts, { method, order }) };
}

function orderIn(build: Build, method: OrderMethod, holes: readonly number[]): Runs {
  const said = method ? plain(actTemplate(build.language, method)) : [];
  const numbers = plain(holes.join(", "));
  if (said.length === 0 || numbers.length === 0) return said.length > 0 ? said : numbers;
  return [...said, ...plain(": "), ...numbers];
}

/** More boxes a stage than this are one box. */
const MOST_BOXES = 24;

/** The boxes beside each stage: one a bolt, in the order they are turned. */
export function boxesOf(
  spot: Spot,
  act: Act,
  fastener: Thing,
  stages: readonly StageDone[],
): readonly string[] {
  const { count, numbered } = fastenerFacts(fastener.entry);
  if (count < 2 || count > MOST_BOXES) return [""];
  const [first, ...others] = byOrder(spot, act, fastener, stages);
  const { order } = first?.said ?? turningOrder(spot, act, fastener, stages);
  // Stages in orders of their own share their boxes, which then stand as the holes are counted.
  if (order.length === count && others.length === 0) return order.map(String);
  const labels =
    numbered.length === count ? numbered : Array.from({ length: count }, (_, index) => index + 1);
  return labels.map(String);
}

/** How many of a fastener there are, those of every member of a set it belongs to. */
export function countOf(spot: Spot, fastener: Thing): number {
  const { count, forEach } = fastenerFacts(fastener.entry);
  const set = thingAt(spot, forEach, ["set"]);
  return count * (set ? Math.max(1, membersOf(set).length) : 1);
}

/** The names of a set's members as they are printed. */
export function membersOf(set: Thing): readonly string[] {
  const slot = slotIn(set.entry.form, "members");
  return (slot?.names ?? []).map((name) => name.name.replaceAll("-", " "));
}
