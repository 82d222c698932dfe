/**
 * Torque, then angle: what the angle adds to the preload, and whether the bolt yields.
 */
import { strengthAtMost } from "./classes";
import { assemblyPreload } from "./preload";
import { isPositive, type Range } from "./range";
import { boltResilience, gripRange, type JointMaterial, jointResilience } from "./resilience";
import { type Assumption, type Bolt, preloadOf } from "./tightening";

/** What is said of an angle stage. */
export interface AngleSaid {
  /** The torque before it, in newton metres. */
  readonly torque: Range;
  /** The angle turned after that torque, in radians; of several stages in a row, their sum. */
  readonly angle: number;
  /** Clamped length in metres. */
  readonly grip?: number | null;
  /** What the clamped parts are made of. */
  readonly joint?: JointMaterial | null;
}

interface YieldsAt {
  readonly low: number;
  readonly high: number | null;
}

/** What it comes to. Forces in newtons. */
export interface AngleStage {
  /** Preload from the torque alone. */
  readonly before: Range;
  /** What the angle would add if nothing yielded. */
  readonly gain: Range;
  /** Preload at the end, with what a bolt that yields can still hold. */
  readonly after: Range;
  /**
   * Preload at which the bolt begins to yield: of the weakest the class allows and of the strongest, null where the class sets no
   * upper strength (stainless): such a bolt is never said to yield. Null without a class.
   */
  readonly yieldsAt: YieldsAt | null;
  readonly yields: "yes" | "no" | "cannot-tell";
  readonly assumed: readonly Assumption[];
}

/**
 * The preload after torque and angle: the angle draws the head in by φ P / 2π, of which bolt and parts take their shares, so the
 * gain is φ P / (2π (δS + δP)) (VDI 2230, 5.4.3, angle-controlled tightening in the elastic range). Where clamped length or material are
 * not said, the bounds of what is met are taken. Parts of metal, half as wide again as the head and without a soft gasket, are taken for granted
 * (`wide-metal-parts`).
 *
 * “Yes” only where even the strongest bolt of the class, least strained, would yield; “no” only where even the weakest, most strained,
 * would not. The strongest is bounded by its greatest tensile strength, for no bolt yields later than it breaks.
 *
 * @returns undefined for a torque, angle or length that is none
 */
export function angleStage(
  bolt: Bolt,
  { torque, angle, grip = null, joint = null }: AngleSaid,
): AngleStage | undefined {
  const [before, length] = [preloadOf(bolt, torque), gripRange(bolt.thread, grip)];
  if (before === undefined || length === undefined || !(angle > 0) || !Number.isFinite(angle))
    return undefined;
  const [stretch, give] = [
    boltResilience(bolt.thread, length, bolt.stainless),
    jointResilience(bolt.bearing, length, joint),
  ];
  const drawnIn = (angle * bolt.thread.pitch) / (2 * Math.PI);
  const gain = { low: drawnIn / (stretch.high + give.high), high: drawnIn / (stretch.low + give.low) };
  const elastic = { low: before.force.low + gain.low, high: before.force.high + gain.high };
  if (!isPositive(gain) || !isPositive(elastic)) return undefined;
  const yieldsAt = yieldRange(bolt);
  const assumed: Assumption[] = [...bolt.assumed, "wide-metal-parts"];
  if (grip === null) assumed.push("grip-unknown");
  if (joint === null) assumed.push("joint-material-unknown");
  return {
    before: before.force,
    gain,
    after: heldBy(elastic, yieldsAt, breaksAt(bolt)),
    yieldsAt,
    yields: yieldsFrom(elastic, yieldsAt),
    assumed,
  };
}

function yieldRange({ thread, strength, friction }: Bolt): YieldsAt | null {
  if (strength === null) return null;
  const most = strength.tensileMost;
  return {
    low: assemblyPreload(thread, strength.yield, 1, friction.thread.high),
    high: most === null ? null : assemblyPreload(thread, most, 1, friction.thread.low),
  };
}

/** Preload at which the strongest bolt that this may be, least strained, breaks. */
const breaksAt = ({ thread, strength, friction }: Bolt): number =>
  assemblyPreload(thread, strengthAtMost(strength), 1, friction.thread.low);

/** Past yield a bolt holds about what it held there, and never more than it can bear. */
function heldBy(elastic: Range, yieldsAt: YieldsAt | null, most: number): Range {
  return {
    low: Math.min(elastic.low, yieldsAt?.low ?? most),
    high: Math.min(elastic.high, yieldsAt?.high ?? most),
  };
}

function yieldsFrom(elastic: Range, yieldsAt: YieldsAt | null): AngleStage["yields"] {
  if (yieldsAt === null) return "cannot-tell";
  if (yieldsAt.high !== null && elastic.low > yieldsAt.high) return "yes";
  return elastic.high < yieldsAt.low ? "no" : "cannot-tell";
}
