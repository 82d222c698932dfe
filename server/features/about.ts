/**
 * What there is to say about a thing, in sentences: the facts of its own block, quantities with their other unit.
 */
import {
  beltFacts,
  checkOf,
  type Detail,
  type Entry,
  type FastenerFacts,
  fastenerFacts,
  fluidFacts,
  headerOf,
  markFacts,
  type NameAt,
  namesIn,
  partFacts,
  quantityIn,
  type Stage,
  shaftFacts,
  slotIn,
  temporaryFacts,
  toolFacts,
} from "../facts";
import type { Machine, Thing } from "../model";
import { hoverPhrase as say } from "../phrases/hover";
import { formatQuantity } from "../units/format";
import type { Quantity } from "../units/quantity";
import { aboutBeltRun } from "./about-belts";
import { aboutBolt } from "./about-bolts";
import { aboutRun } from "./about-runs";
import { inBothUnits } from "./figure-text";

type Sentences = (string | null)[];

/**
 * Sentences about a thing. `machine` is the one it is seen from, for what holds it; `onSheet` is what a sheet prints of a
 * fastener, which then is not said again.
 */
export function aboutThing(
  thing: Thing,
  machine: Machine | null,
  onSheet: readonly string[] = [],
): readonly string[] {
  const { entry } = thing;
  switch (thing.kind) {
    case "fastener":
      return kept([
        ...(onSheet.length > 0 ? [...onSheet, ...besideSheet(entry)] : aboutFastener(entry)),
        ...aboutBolt(thing, machine),
      ]);
    case "line":
      return kept([...aboutRun(thing, machine), ...aboutPart(entry), heldBy(thing, machine)]);
    case "part":
    case "clip":
      return kept([...aboutPart(entry), heldBy(thing, machine)]);
    case "belt":
      return kept([
        ...aboutBelt(entry),
        ...aboutPart(entry),
        heldBy(thing, machine),
        ...aboutBeltRun(thing, machine),
      ]);
    case "fluid":
    case "consumable":
      return kept(aboutFluid(entry));
    case "tool":
      return kept(aboutTool(entry));
    case "temporary":
      return kept(aboutTemporary(entry));
    case "shaft":
      return kept(aboutShaft(entry));
    case "mark":
      return kept(aboutMark(entry));
    case "set":
      return kept([things("members", namesIn(entry.form, "members"))]);
    case "check":
      return kept(aboutCheck(entry));
    case "procedure":
      return kept(aboutProcedure(entry));
    default:
      return [];
  }
}

const kept = (sentences: Sentences): readonly string[] => sentences.filter((s) => s !== null);

const value = (id: Parameters<typeof say>[0], quantity: Quantity | null): string | null =>
  quantity && say(id, { value: inBothUnits(quantity) });
const text = (id: Parameters<typeof say>[0], said: string): string | null =>
  said === "" ? null : say(id, { text: said });
const things = (id: Parameters<typeof say>[0], names: readonly (NameAt | null)[]): string | null => {
  const said = names.flatMap((n) => n?.name ?? []);
  return said.length === 0 ? null : say(id, { things: said.join(", ") });
};
const when = (id: Parameters<typeof say>[0], said: boolean): string | null => (said ? say(id) : null);

function aboutFastener(entry: Entry): Sentences {
  const facts = fastenerFacts(entry);
  return [
    things("secures", facts.secures),
    say("fastener-size", {
      count: String(facts.count),
      thread: facts.thread || say("thread.unsaid"),
      class: facts.class || say("class.unsaid"),
      state: threadState(facts),
    }),
    tightening(facts),
    order(facts),
    facts.leftHandOn.length > 0
      ? things("left-hand-on", facts.leftHandOn)
      : when("left-hand", facts.leftHand),
    ...facts.lengths.map(
      ({ holes, length }) =>
        length && say("lengths", { value: inBothUnits(length), holes: holes.join(", ") }),
    ),
    things("locked-by", facts.lockedBy),
    spanner(facts.spanner),
    when("setting", facts.setting),
    when("renew-every-time", facts.renewEveryTime),
    facts.renewWhen === "" ? null : say("renew-when", { reason: facts.renewWhen }),
    facts.reuse && reuse(facts.reuse),
    things("behind", facts.behind),
    things("for-each", [facts.forEach]),
    things("only-on", facts.onlyOn),
    things("like", facts.like),
  ];
}

/** What a sheet's tightening table does not say of a fastener. */
function besideSheet(entry: Entry): Sentences {
  const facts = fastenerFacts(entry);
  return [
    things("secures", facts.secures),
    when("setting", facts.setting),
    spanner(facts.spanner),
    things("behind", facts.behind),
    things("for-each", [facts.forEach]),
    things("only-on", facts.onlyOn),
    things("like", facts.like),
  ];
}

function threadState({ state, lubricant }: FastenerFacts): string {
  if (state === null) return say("state.unsaid");
  if (state === "oiled")
    return lubricant ? say("state.oiled-with", { lubricant: lubricant.name }) : say("state.oiled");
  return state === "locked"
    ? say("state.locked", { lubricant: lubricant?.name ?? "" })
    : say(`state.${state}`);
}

function tightening({ stages }: FastenerFacts): string {
  if (stages.length === 0) return say("tightening.none");
  return say("tightening", { stages: stages.map(stageText).join(say("stage.then")) });
}

/** A stage of a tightening in words: `snug 40 N·m (30 lb·ft)`. */
export function stageText(stage: Stage): string {
  const amount = stage.value ? inBothUnits(stage.value) : stage.text;
  const how =
    stage.kind === "back" || stage.kind === "back-to" || stage.kind === "by-feel"
      ? say(`stage.${stage.kind}`, { value: amount })
      : amount;
  return stage.name === "" ? how : say("stage.named", { stage: stage.name, value: how }).trimEnd();
}

function order(facts: FastenerFacts): string | null {
  const method = facts.method ?? facts.stages.find((s) => s.method !== null)?.method ?? null;
  if (method) return say(`order.${method}`);
  return facts.order.length === 0 ? null : say("order.given", { holes: facts.order.join(", ") });
}

/** A spanner is marked with its size, so a figure in another unit would name one that does not fit. */
const spanner = (size: Quantity | null): string | null =>
  size && say("spanner", { value: formatQuantity(size, { plain: true }) });

function reuse(detail: Detail): string {
  const limit = quantityIn(detail, "limit");
  if (limit) return say("reuse-length", { value: inBothUnits(limit) });
  const times = slotIn(detail, "times")?.count;
  return times == null ? say("reuse-said") : say("reuse-times", { count: String(times) });
}

function aboutPart(entry: Entry): Sentences {
  const facts = partFacts(entry);
  return [
    value("weight", facts.weight),
    things("behind", facts.behind),
    things("contains", facts.contains),
    things("carries", facts.carries),
    when("spring-loaded", facts.springLoaded),
    when("high-voltage", facts.highVoltage),
    when("battery", facts.battery),
    when("hot", facts.hot),
    when("pressurised", facts.pressurised),
    when("handed", facts.handed),
    when("own-place", facts.ownPlace),
    when("renew-every-time", facts.renewEveryTime),
    things("for-each", [facts.forEach]),
    things("only-on", facts.onlyOn),
    things("like", facts.like),
  ];
}

function heldBy(thing: Thing, machine: Machine | null): string | null {
  const fasteners =
    machine?.things.filter(
      (t) => t.kind === "fastener" && fastenerFacts(t.entry).secures.some((s) => s.name === thing.name),
    ) ?? [];
  return fasteners.length === 0 ? null : say("held-by", { things: fasteners.map((f) => f.name).join(", ") });
}

function aboutBelt(entry: Entry): Sentences {
  const facts = beltFacts(entry);
  return [
    facts.teeth === null ? null : say("teeth", { count: String(facts.teeth) }),
    value("pitch", facts.pitch),
    value("length", facts.length),
    things(
      "pulleys",
      facts.pulleys.map((p) => p.part),
    ),
  ];
}

function aboutFluid(entry: Entry): Sentences {
  const facts = fluidFacts(entry);
  return [
    value("capacity", facts.capacity),
    when("hot", facts.hot),
    when("pressurised", facts.pressurised),
    when("fuel", facts.fuel),
    when("harmful", facts.harmful),
    text("grade", facts.grade),
    value("open-time", facts.openTime),
    value("cure", facts.cure),
    text("dispose", facts.dispose),
  ];
}

function aboutTool(entry: Entry): Sentences {
  const facts = toolFacts(entry);
  return [
    value("range", facts.range),
    value("rating", facts.rating),
    things("alternative", facts.alternative),
    when("impact", facts.impact),
    when("proves-dead", facts.provesDead),
  ];
}

function aboutTemporary(entry: Entry): Sentences {
  const facts = temporaryFacts(entry);
  return [
    things("into", [facts.into]),
    things("over", [facts.over]),
    things("on", [facts.on]),
    value("diameter", facts.diameter),
    facts.count > 1 ? say("count", { count: String(facts.count) }) : null,
  ];
}

function aboutShaft(entry: Entry): Sentences {
  const { turns, turnsOnly, beltOff } = shaftFacts(entry);
  const off = beltOff === "free" ? say("belt-off-free") : value("belt-off", beltOff);
  return [turns && say(turnsOnly ? "turns-only" : "turns", { direction: turns }), off];
}

function aboutMark(entry: Entry): Sentences {
  const facts = markFacts(entry);
  return [things("on", [facts.on]), value("angle", facts.angle), things("behind", facts.behind)];
}

function aboutCheck(entry: Entry): Sentences {
  const facts = checkOf(entry);
  const limits = facts.limits.map(
    ({ what, value: limit }) =>
      limit && (what === "" ? value("limit", limit) : say("limit-of", { what, value: inBothUnits(limit) })),
  );
  return [...limits, ...facts.questions.map((q) => text("question", q)), things("marks", facts.marks)];
}

function aboutProcedure(entry: Entry): Sentences {
  const header = headerOf(entry);
  return [
    things("for-machine", [header.machine]),
    text("document", header.documentNumber),
    value("working-time", header.workingTime),
  ];
}
