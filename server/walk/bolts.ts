/**
 * What a fastener says of itself, as the mechanics of bolts take it: rules, sheet and hover all work from here, so that they show
 * the same figures.
 */
import { type FastenerFacts, fastenerFacts, type Stage } from "../facts";
import { type AngleStage, angleStage } from "../mechanics/angle";
import type { BoltClass } from "../mechanics/classes";
import { classOf, isClass } from "../mechanics/classes-read";
import type { ThreadState } from "../mechanics/friction";
import type { Range } from "../mechanics/range";
import type { JointMaterial } from "../mechanics/resilience";
import type { Thread } from "../mechanics/threads";
import { isThread, threadOf } from "../mechanics/threads-read";
import { type Bolt, type BoltSaid, boltOf } from "../mechanics/tightening";
import type { Thing } from "../model";
import type { Quantity } from "../units/quantity";

/** A fastener of which the thread is known. */
export interface KnownBolt {
  readonly facts: FastenerFacts;
  readonly thread: Thread;
  /** Null where it is not said, or is none. */
  readonly boltClass: BoltClass | null;
  readonly said: BoltSaid;
  readonly bolt: Bolt;
}

/** What the names in a fastener mean. */
export type Finder = (name: string) => Thing | undefined;

/** The bolt that a fastener is; null where its thread is not said or is no standard one. */
export function boltIn(fastener: Thing, find: Finder): KnownBolt | null {
  const facts = fastenerFacts(fastener.entry);
  const thread = facts.thread === "" ? null : threadOf(facts.thread);
  if (thread === null || !isThread(thread)) return null;
  const read = facts.class === "" ? null : classOf(facts.class, thread);
  const boltClass = read !== null && isClass(read) ? read : null;
  const lubricated = facts.oiledOn === "head" ? null : facts.oiledOn;
  const said: BoltSaid = { thread, boltClass, state: stateOf(facts, find), lubricated };
  return { facts, thread, boltClass, said, bolt: boltOf(said) };
}

/** Lubricants with solids in them, by what they are called in the languages of the sheet; they may rub less than oil. */
const SOLIDS = /paste|p[aâ]te|pasta|moly|graphit|grafit|copper|kupfer|cuivre|cobre|anti-?seize/iu;

/** Oil under the head alone leaves the thread as it is, of which nothing is said. */
function stateOf({ state, lubricant, oiledOn }: FastenerFacts, find: Finder): ThreadState | null {
  if (state !== "oiled") return state;
  if (oiledOn === "head") return null;
  const thing = lubricant ? find(lubricant.name) : undefined;
  return thing && !SOLIDS.test(`${thing.name} ${thing.title}`) ? "oiled" : "paste";
}

const SOFT: ReadonlySet<string> = new Set(["plastic", "wood"]);

/** Whether a fastener clamps metal in metal, as far as is said: it sets nothing and does not go into plastic or wood. */
export const clampsMetal = ({ setting, material }: FastenerFacts): boolean => !setting && !SOFT.has(material);

/** Whether it adjusts a bearing or is only run down: backed off again, turned on a turning part, or locked by a pin or tab. */
export const adjusts = ({ stages, lockedBy }: FastenerFacts): boolean =>
  lockedBy.length > 0 ||
  stages.some((s) => s.kind === "back" || s.kind === "back-to" || s.whileTurning !== null);

/** A torque as the range it may be, in newton metres; a limit on one side is taken for the figure a wrench is set to. */
export function torqueRange({ kind, low, high, nominal }: Quantity): Range | null {
  const [from, to] = [low ?? nominal ?? high, high ?? nominal ?? low];
  return kind === "torque" && from && to ? { low: from.si, high: to.si } : null;
}

/** The torque of a stage, if it is one. */
export const stageTorque = ({ kind, value }: Stage): Range | null =>
  kind === "torque" && value ? torqueRange(value) : null;

const JOINTS: Readonly<Record<string, JointMaterial>> = {
  steel: "steel",
  iron: "iron",
  aluminium: "aluminium",
};

/**
 * What the angles after a torque make of a bolt: the torque is the last one before them, the angle their sum. Null where the tightening
 * is not torques, then angles. What the bolt threads into is taken for the material of the joint.
 */
export function angleIn({ facts, bolt }: KnownBolt): AngleStage | null {
  const first = facts.stages.findIndex((s) => s.kind === "angle");
  const [before, angles] = [facts.stages.slice(0, first), facts.stages.slice(first)];
  const torque = first > 0 ? stageTorque(before[before.length - 1] as Stage) : null;
  const each = angles.map((s) => (s.kind === "angle" ? (s.value?.nominal?.si ?? null) : null));
  if (torque === null || each.some((angle) => angle === null)) return null;
  const angle = each.reduce<number>((sum, one) => sum + (one ?? 0), 0);
  const grip = facts.grip?.nominal?.si ?? null;
  return angleStage(bolt, { torque, angle, grip, joint: JOINTS[facts.material] ?? null }) ?? null;
}
