/**
 * How much a bolt stretches and the parts it clamps give, for each newton: metres per newton. The stretch decides what an angle
 * does. A bolt's shank and what is clamped are seldom known, so both come as ranges.
 */
import type { Bearing } from "./heads";
import { isPositive, type Range } from "./range";
import { geometryOf, type Thread } from "./threads";

/** What the clamped parts are made of. Softer ones (plastic, wood, a thick gasket) are not worked out. */
export type JointMaterial = "steel" | "iron" | "aluminium";

const GPa = 1e9;
/** Young's modulus of bolts: about 205 GPa for steel (VDI 2230), 195 for austenitic stainless (from memory). */
const boltModulus = {
  steel: { low: 200 * GPa, high: 212 * GPa },
  stainless: { low: 185 * GPa, high: 205 * GPa },
} as const satisfies Record<string, Range>;
/** Of clamped parts: structural steel, grey to ductile iron, aluminium alloys (common handbook figures, from memory). */
const jointModulus: Readonly<Record<JointMaterial | "unknown", Range>> = {
  steel: { low: 195 * GPa, high: 215 * GPa },
  iron: { low: 90 * GPa, high: 180 * GPa },
  aluminium: { low: 65 * GPa, high: 77 * GPa },
  unknown: { low: 65 * GPa, high: 215 * GPa },
};

/**
 * Stretch of a bolt δS over its clamped length. Least: the whole length as thick as the nominal diameter and rigid ends. Most:
 * the whole length threaded, δ = l / (E Ad3), with what gives at either end by VDI 2230, 5.1.1.1: the head 0.5 d / (E AN), the engaged thread
 * 0.5 d / (E Ad3) and the nut or tapped part 0.4 d / (E AN). A bolt with a waist stretches more and is not held here.
 */
export function boltResilience(thread: Thread, grip: Range, stainless: boolean): Range {
  const { diameter } = thread;
  const modulus = boltModulus[stainless ? "stainless" : "steel"];
  const nominal = (Math.PI / 4) * diameter ** 2;
  const root = (Math.PI / 4) * geometryOf(thread).rootDiameter ** 2;
  return {
    low: grip.low / (modulus.high * nominal),
    high: (grip.high / root + (0.5 * diameter) / root + (0.9 * diameter) / nominal) / modulus.low,
  };
}

/**
 * Give of parts δP when pressure spreads in a cone of half angle φ from under the head to the middle, and back to the nut:
 * δP = 2 ln[(dW + dh)(dW + l tan φ − dh) / ((dW − dh)(dW + l tan φ + dh))] / (E π dh tan φ) (VDI 2230, 5.1.2.1; the same as
 * the frusta of machine-design textbooks).
 */
export function coneResilience(
  outer: number,
  hole: number,
  length: number,
  spread: number,
  modulus: number,
): number {
  const end = outer + length * spread;
  const ratio = ((outer + hole) * (end - hole)) / ((outer - hole) * (end + hole));
  return (2 * Math.log(ratio)) / (modulus * Math.PI * hole * spread);
}

const spreadAt = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);
/** Half angles of the cone, from narrow parts to wide ones (VDI 2230, figure 5.1/4, from memory). */
const spreads = { narrow: spreadAt(22), wide: spreadAt(33) } as const;

/** Give of the clamped parts δP, for parts at least half as wide again as the head. */
export function jointResilience(
  { outer, hole }: Bearing,
  grip: Range,
  material: JointMaterial | null,
): Range {
  const modulus = jointModulus[material ?? "unknown"];
  return {
    low: coneResilience(outer.high, hole.low, grip.low, spreads.wide, modulus.high),
    high: coneResilience(outer.low, hole.high, grip.high, spreads.narrow, modulus.low),
  };
}

/** Clamped lengths that are met, in diameters, where none is said (common practice, no source). */
const usualGrip: Range = { low: 1, high: 20 };

/** The clamped length: as said, else what is met. Undefined for a length that is none. */
export function gripRange(thread: Thread, grip: number | null): Range | undefined {
  const range =
    grip === null
      ? { low: usualGrip.low * thread.diameter, high: usualGrip.high * thread.diameter }
      : { low: grip, high: grip };
  return isPositive(range) ? range : undefined;
}
