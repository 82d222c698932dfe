/**
 * A torque whose decimal point has slipped: no bolt of that thread could bear it, or none is tightened with so little, and a tenth
 * or ten times of it is just what is usual.
 */
import { allClasses, type BoltClass, isStainless, strengthAtMost } from "./classes";
import { frictionClasses } from "./friction";
import { holds, isPositive, type Range, union } from "./range";
import type { Thread } from "./threads";
import { type Bolt, type BoltSaid, boltOf, tighteningFor } from "./tightening";

/** A slip and the torque that was probably meant, in newton metres. */
export interface Slip {
  readonly slip: "ten-times-too-much" | "ten-times-too-little";
  readonly meant: number;
}

/**
 * How far a torque has to be under the least usual one before it counts as slipped, and how far under the least usual one the
 * torque meant may be: soft parts, short threads and sealing screws are tightened with less than the bolt could take (common
 * practice, no source).
 */
const farUnder = 1 / 6;
const stillUsual = 1 / 2;

/**
 * Whether a torque has slipped by one place, for a bolt of this thread and class; without a class, for all classes that the thread is
 * made in. Whatever else is said of the bolt narrows the answer; what is not counts as not known, so that only what no bolt
 * explains is reported. Null for everything else, also for a torque that is none.
 *
 * It does not know what the bolt threads into: into plastic or wood, or on a bearing or a plug, a small torque is right.
 */
export function slippedDecimal(said: BoltSaid, torque: number): Slip | null {
  if (!isPositive({ low: torque, high: torque })) return null;
  const classes = said.boltClass ? [said.boltClass] : classesFor(said.thread);
  const bolts = classes
    .map((boltClass) => boltOf({ ...said, boltClass }))
    .filter((bolt) => bolt.strength !== null);
  const usual = bolts.map(usualTorques).filter((range) => range !== undefined);
  const first = usual[0];
  if (first === undefined) return null;
  const typical = usual.reduce(union, first);
  const worth: Range = { low: typical.low * stillUsual, high: typical.high };
  const breaking = Math.max(...bolts.map(breakingTorque));
  if (torque > breaking && holds(worth, torque / 10))
    return { slip: "ten-times-too-much", meant: torque / 10 };
  if (torque < typical.low * farUnder && holds(worth, torque * 10)) {
    return { slip: "ten-times-too-little", meant: torque * 10 };
  }
  return null;
}

/** Metric threads are made in the classes of ISO, inch threads in grades; both in stainless. */
function classesFor(thread: Thread): readonly BoltClass[] {
  const own = thread.system === "metric" ? "ISO 898-1" : "SAE J429";
  return allClasses.filter((one) => one.standard === own || isStainless(one));
}

/** The torques tables give for such a bolt: 90 % of yield, oiled at best. */
function usualTorques(bolt: Bolt): Range | undefined {
  const { thread, head } = bolt.friction;
  const oiled = (range: Range): Range => ({
    low: Math.max(range.low, frictionClasses.B.low),
    high: range.high,
  });
  return tighteningFor({ ...bolt, friction: { thread: oiled(thread), head: oiled(head) } })?.torque;
}

/** The torque that even the strongest bolt of its class, with the most friction, does not bear. */
function breakingTorque(bolt: Bolt): number {
  const { strength } = bolt;
  if (strength === null) return Number.POSITIVE_INFINITY;
  return (
    tighteningFor(bolt, strengthAtMost(strength) / strength.yield)?.torque.high ?? Number.POSITIVE_INFINITY
  );
}
