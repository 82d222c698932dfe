/**
 * The formulas between torque, preload and stress of one bolt, each figure exact. Forces in newtons, torques in newton metres,
 * lengths in metres, stresses in pascals.
 */
import { geometryOf, type Thread } from "./threads";

/**
 * The factor k of `equivalentFactor`: how the torsion of tightening counts in the thread's cross-section. In the plastic reading
 * (3/2, VDI 2230 since 2001) the section carries it up to its middle; in the elastic one (2, VDI 2230 of 1986 and the many tables made
 * from it) its edge alone decides, which gives preloads up to a tenth lower.
 */
export const torsionFactor = { plastic: 3 / 2, elastic: 2 } as const;

/**
 * Torque in the thread, as a lever arm: MG / FM = P / 2π + d2 µG / (2 cos 30°), printed as 0.16 P + 0.58 d2 µG (VDI 2230,
 * formula R13/1; the same as ISO 16047, 7.2, but for a term under one part in a thousand).
 */
export function threadLever(thread: Thread, threadFriction: number): number {
  const { pitchDiameter, flankAngle } = geometryOf(thread);
  return thread.pitch / (2 * Math.PI) + (pitchDiameter * threadFriction) / (2 * Math.cos(flankAngle / 2));
}

/** Torque a newton of preload: MA / FM = MG / FM + µK DKm / 2 (VDI 2230). */
export function torqueLever(
  thread: Thread,
  threadFriction: number,
  headFriction: number,
  bearing: number,
): number {
  return threadLever(thread, threadFriction) + (headFriction * bearing) / 2;
}

/**
 * How many times the tensile stress the equivalent stress is while the thread is turned under load:
 * √(1 + 3 [k (d2 / d0) (P / π d2 + 1.155 µG)]²) with d0 the stress diameter (VDI 2230, von Mises), k see `torsionFactor`.
 */
export function equivalentFactor(thread: Thread, threadFriction: number, torsion: number): number {
  // (d2 / d0)(P / π d2 + 1.155 µG) is twice the thread's lever over d0.
  const ratio = (torsion * 2 * threadLever(thread, threadFriction)) / geometryOf(thread).stressDiameter;
  return Math.sqrt(1 + 3 * ratio ** 2);
}

/**
 * The assembly preload that uses a share of a bolt's yield: FM = A0 ν Rp0.2 / equivalent factor (VDI 2230, table A1 to A4 with ν = 0.9).
 */
export function assemblyPreload(
  thread: Thread,
  yielding: number,
  share: number,
  threadFriction: number,
  torsion: number = torsionFactor.plastic,
): number {
  return (
    (geometryOf(thread).stressArea * share * yielding) / equivalentFactor(thread, threadFriction, torsion)
  );
}

/** The share of a bolt's yield that a preload uses while it is being tightened. */
export function shareOfYield(
  thread: Thread,
  force: number,
  yielding: number,
  threadFriction: number,
  torsion: number = torsionFactor.plastic,
): number {
  return force / assemblyPreload(thread, yielding, 1, threadFriction, torsion);
}

/** Proof load of a bolt: stress area × stress under proof load (ISO 898-1, table 5; SAE J429). */
export function proofLoad(thread: Thread, proof: number): number {
  return geometryOf(thread).stressArea * proof;
}

/** Least load at which a bolt may break: stress area × least tensile strength (ISO 898-1, table 4). */
export function ultimateLoad(thread: Thread, tensile: number): number {
  return geometryOf(thread).stressArea * tensile;
}
