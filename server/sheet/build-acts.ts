/**
 * Acts as items of the sheet: sentences, with people, left-hand threads, stages and boxes; and waits.
 */
import type { Thing } from "../model";
import type { Quantity } from "../units/quantity";
import type { Action, Drawing, Tightening, Wait } from "./blocks";
import { moreSaid } from "./build-clauses";
import { type Build, itemOf, quantityRuns, rangeOf, saidIn, type Titled } from "./build-context";
import { holdingSaid, isLeftHanded, mainSaid, THREADED, waitSentence } from "./build-sentences";
import { boxesOf, orderSaid, stageSaid, stagesDone } from "./build-stages";
import { type Use, WHAT } from "./build-uses";
import { sentences } from "./fill";

/**
 * The act at a place of the job, as one or more items: a tightening has one for each fastener. Behind them the drawings that stand
 * there.
 */
export function actionsOf(build: Build, use: Use): readonly (Action | Wait | Drawing)[] {
  const { spot, act, what } = use;
  if (act.verb === "wait") return [waitOf(build, use)];
  const fasteners = what.filter((thing) => thing.kind === "fastener");
  if (act.verb !== "tighten" || fasteners.length === 0)
    return [
      actionOf(build, use, saidIn(spot, spot.entry.form, ...WHAT), ""),
      ...build.drawings.behind(use, what),
    ];
  const rest = what.filter((thing) => thing.kind !== "fastener");
  return [...fasteners.map((one) => [one]), ...(rest.length > 0 ? [rest] : [])].flatMap((things, index) => [
    actionOf(build, use, things, index === 0 ? "" : `.${index + 1}`),
    ...build.drawings.behind(use, things),
  ]);
}

function actionOf(build: Build, use: Use, what: readonly Titled[], suffix: string): Action {
  const { spot, act } = use;
  const things = use.what.filter((thing) => what.includes(thing));
  const fastener = things.find((thing) => thing.kind === "fastener");
  const tightening = act.verb === "tighten" && fastener ? tighteningOf(build, use, fastener) : undefined;
  const drawings = build.drawings.shownIn(use, things);
  return {
    kind: "action",
    ...itemOf(spot, suffix),
    sentence: sentences([
      holdingSaid(build, spot),
      mainSaid(build, use, what, things),
      ...moreSaid(build, use, things),
    ]),
    ...(act.people > 1 ? { people: act.people } : {}),
    ...(isLeftHand(use, things) ? { leftHand: true as const } : {}),
    ...(tightening ? { tightening } : {}),
    ...(drawings.length > 0 ? { drawings } : {}),
  };
}

/** Whether every thread that an act turns is left-hand; where only some are, the sentence says which. */
function isLeftHand({ act }: Use, things: readonly Thing[]): boolean {
  const fasteners = things.filter(({ kind }) => kind === "fastener");
  return THREADED.has(act.verb) && fasteners.length > 0 && fasteners.every(isLeftHanded);
}

function tighteningOf(build: Build, use: Use, fastener: Thing): Tightening | undefined {
  const stages = stagesDone(build, use, fastener);
  if (stages.length === 0) return undefined;
  const boxes = boxesOf(use.spot, use.act, fastener, stages);
  const order = orderSaid(build, use.spot, use.act, fastener, stages, boxes);
  return {
    stages: stages.map((stage) => stageSaid(build, use.spot, stage)),
    ...(order.length > 0 ? { order } : {}),
    boxes,
  };
}

function waitOf(build: Build, use: Use): Wait {
  const { spot, act } = use;
  const id = waitSentence(act.words);
  const minutes =
    act.quantity?.kind === "time"
      ? Math.ceil(((act.quantity.low ?? act.quantity.nominal)?.si ?? 0) / 60 - 1e-9)
      : 0;
  const measured = act.quantity && (id === "wait.below" || id === "wait.above") ? act.quantity : null;
  return {
    kind: "wait",
    ...itemOf(spot),
    sentence: sentences([
      mainSaid(build, use, saidIn(spot, spot.entry.form, ...WHAT), use.what),
      ...moreSaid(build, use, use.what),
    ]),
    ...(minutes > 0 && (id === "wait.time" || id === "wait.after") ? { minutes } : {}),
    ...(measured ? { until: untilOf(build, measured, id === "wait.below") } : {}),
  };
}

function untilOf(build: Build, level: Quantity, below: boolean): NonNullable<Wait["until"]> {
  const limit = below
    ? { ...level, shape: "under" as const, low: null, highIncluded: false }
    : { ...level, shape: "over" as const, high: null, lowIncluded: false };
  const [first] = quantityRuns(build, { ...limit, nominal: null });
  return { limit: first ? [first] : [], ...rangeOf(build, { ...limit, nominal: null }) };
}
