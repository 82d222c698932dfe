/**
 * What a torque does to a bolt of which some things are known and others are not: the preload it gives, the share of the
 * bolt's yield it uses, and the torque that would use a given share. All are ranges over friction and head, so a rule speaks only
 * where the whole range says the same, and shows what was assumed.
 */
import { type BoltClass, isStainless, type Strength, strengthOf } from "./classes";
import { type Friction, type FrictionSaid, frictionOf, type ThreadState } from "./friction";
import { type Bearing, bearingOf, type Head } from "./heads";
import { assemblyPreload, shareOfYield, torqueLever } from "./preload";
import { isPositive, type Range, spanOf } from "./range";
import { geometryOf, type Thread } from "./threads";

/** What was taken because nothing better is known; a message names them. */
export type Assumption =
  | "friction-unknown"
  | "lubricated-where-unknown"
  | "head-unknown"
  | "grip-unknown"
  | "joint-material-unknown"
  | "wide-metal-parts";

/** What a procedure says of a bolt. Whatever may be left out makes the ranges wider. */
export interface BoltSaid {
  readonly thread: Thread;
  readonly boltClass?: BoltClass | null;
  readonly state?: ThreadState | null;
  readonly lubricated?: FrictionSaid["on"];
  readonly head?: Head | null;
}

/** A bolt with all that can be told of it. */
export interface Bolt {
  readonly thread: Thread;
  /** Null without a class, or where the class does not cover the size: then nothing is said of yield. */
  readonly strength: Strength | null;
  readonly stainless: boolean;
  readonly friction: Friction;
  readonly bearing: Bearing;
  readonly assumed: readonly Assumption[];
}

/** The bolt that a procedure says. */
export function boltOf({
  thread,
  boltClass = null,
  state = null,
  lubricated = null,
  head = null,
}: BoltSaid): Bolt {
  const bearing = bearingOf(thread, head);
  const stainless = isStainless(boltClass);
  const wet = state === "oiled" || state === "paste";
  const assumed: Assumption[] = [];
  if (state === null) assumed.push("friction-unknown");
  if (wet && lubricated === null) assumed.push("lubricated-where-unknown");
  if (!bearing.standard) assumed.push("head-unknown");
  const strength = boltClass === null ? null : (strengthOf(boltClass, thread) ?? null);
  return {
    thread,
    strength,
    stainless,
    friction: frictionOf({ state, on: lubricated, stainless }),
    bearing,
    assumed,
  };
}

/** What a torque makes of a bolt. */
export interface Preload {
  /** Newtons. */
  readonly force: Range;
  /** Share of the least yield that is used while tightening, 1 at yield; null where the strength is not known. */
  readonly share: Range | null;
}

/**
 * The preload a torque gives: FM = MA / (P / 2π + d2 µG / (2 cos 30°) + µK DKm / 2) over all friction and heads that may be (VDI 2230,
 * ISO 16047). It holds up to yield; past it the force no longer grows with the torque.
 *
 * @param torque newton metres at the bolt
 * @returns undefined for a torque that is none: nought, negative, reversed, not finite
 */
export function preloadOf(bolt: Bolt, torque: Range): Preload | undefined {
  const { thread, friction, bearing, strength } = bolt;
  if (!isPositive(torque)) return undefined;
  const force = {
    low: torque.low / torqueLever(thread, friction.thread.high, friction.head.high, bearing.mean.high),
    high: torque.high / torqueLever(thread, friction.thread.low, friction.head.low, bearing.mean.low),
  };
  if (!isPositive(force)) return undefined;
  const share = strength && shareRange(bolt, torque, strength.yield);
  return share === null || isPositive(share) ? { force, share } : undefined;
}

/**
 * Share of yield over all that may be. More friction under the head or a wider head takes torque from the thread, so these go
 * one way; friction in the thread takes preload and adds torsion, so the share falls and may rise again: see `threadFrictions`.
 */
function shareRange({ thread, friction, bearing }: Bolt, torque: Range, yielding: number): Range {
  const at = (moment: number, threadFriction: number, headFriction: number, mean: number): number =>
    shareOfYield(
      thread,
      moment / torqueLever(thread, threadFriction, headFriction, mean),
      yielding,
      threadFriction,
    );
  const least = (headLever: number): number[] => threadFrictions(thread, friction.thread, headLever);
  const { head } = friction;
  return {
    low: Math.min(
      ...least((head.high * bearing.mean.high) / 2).map((f) =>
        at(torque.low, f, head.high, bearing.mean.high),
      ),
    ),
    high: Math.max(
      ...least((head.low * bearing.mean.low) / 2).map((f) => at(torque.high, f, head.low, bearing.mean.low)),
    ),
  };
}

/**
 * The thread frictions at which share and torque can be greatest or least: both ends, and between them the one where the
 * derivative of (lever of thread + lever of head) / equivalent factor is nought. With L the thread's lever, h the head's and
 * c = 2 k √3 / d0 that is at L = 1 / (c² h).
 */
function threadFrictions(thread: Thread, range: Range, headLever: number): number[] {
  const { stressDiameter, pitchDiameter, flankAngle } = geometryOf(thread);
  const squared = 27 / stressDiameter ** 2;
  const lever = 1 / (squared * headLever);
  const turning = ((lever - thread.pitch / (2 * Math.PI)) * 2 * Math.cos(flankAngle / 2)) / pitchDiameter;
  return turning > range.low && turning < range.high
    ? [range.low, turning, range.high]
    : [range.low, range.high];
}

/** A torque with the preload it goes with. */
export interface Tightening {
  /** Newton metres. */
  readonly torque: Range;
  /** Newtons. */
  readonly force: Range;
}

/** The share of yield that tables of tightening torques are made for (VDI 2230: ν = 0.9). */
export const usualShare = 0.9;

/**
 * The torques that may use a share of a bolt's yield, and the preloads they give. Under the low end the bolt is used less whatever
 * its friction, over the high end more.
 *
 * @returns undefined where the strength is not known, or the share is no positive figure
 */
export function tighteningFor(bolt: Bolt, share: number = usualShare): Tightening | undefined {
  const { thread, strength, friction, bearing } = bolt;
  if (strength === null || !(share > 0)) return undefined;
  const forceAt = (f: number): number => assemblyPreload(thread, strength.yield, share, f);
  const torques = [
    [friction.head.low, bearing.mean.low] as const,
    [friction.head.high, bearing.mean.high] as const,
  ].flatMap(([headFriction, mean]) =>
    threadFrictions(thread, friction.thread, (headFriction * mean) / 2).map(
      (f) => forceAt(f) * torqueLever(thread, f, headFriction, mean),
    ),
  );
  const [torque, force] = [
    spanOf(torques),
    spanOf([forceAt(friction.thread.low), forceAt(friction.thread.high)]),
  ];
  return isPositive(torque) && isPositive(force) ? { torque, force } : undefined;
}
