/**
 * Screw threads: what a thread is, all the standard ones, and the geometry that tightening is worked out from.
 */
import { metricSizes, unifiedSizes } from "./threads-table";

/** A standard thread. Lengths in metres. */
export interface Thread {
  readonly system: "metric" | "unified";
  /** Coarse is the pitch meant where none is said. */
  readonly series: "coarse" | "fine";
  /** As the standards write it: `M10`, `M10 x 1.25`, `1/2-13 UNC`, `#10-32 UNF`. */
  readonly designation: string;
  /** Its diameter alone, as written: `M10`, `1/2`, `#10`. */
  readonly size: string;
  /** Nominal (major) diameter d. */
  readonly diameter: number;
  readonly pitch: number;
  readonly leftHand: boolean;
}

/** What follows from diameter and pitch. Lengths in metres, area in square metres, angle in radians. */
export interface ThreadGeometry {
  /** d2. */
  readonly pitchDiameter: number;
  /** d3, at the root of the bolt's thread. */
  readonly rootDiameter: number;
  /** The diameter of a plain bar as strong as the thread: (d2 + d3) / 2. */
  readonly stressDiameter: number;
  /** As, or At: the area of that bar. */
  readonly stressArea: number;
  /** Between the two flanks. */
  readonly flankAngle: number;
}

const mm = 1e-3;
const inch = 25.4 * mm;

/** Every standard thread, right-hand, by diameter and from coarse to fine: metric first, then unified. */
export const allThreads: readonly Thread[] = [
  ...metricSizes.flatMap(([diameter, coarse, fine]) => [
    ...(coarse === null ? [] : [metric(diameter, coarse, true)]),
    ...fine.map((pitch) => metric(diameter, pitch, false)),
  ]),
  ...unifiedSizes.flatMap(([size, diameter, coarse, fine]) => [
    ...(coarse === null ? [] : [unified(size, diameter, coarse, "UNC")]),
    unified(size, diameter, fine, "UNF"),
  ]),
];

function metric(diameter: number, pitch: number, coarse: boolean): Thread {
  return {
    system: "metric",
    series: coarse ? "coarse" : "fine",
    designation: coarse ? `M${diameter}` : `M${diameter} x ${pitch}`,
    size: `M${diameter}`,
    diameter: diameter * mm,
    pitch: pitch * mm,
    leftHand: false,
  };
}

function unified(size: string, diameter: number, threadsAnInch: number, series: "UNC" | "UNF"): Thread {
  return {
    system: "unified",
    series: series === "UNC" ? "coarse" : "fine",
    designation: `${size}-${threadsAnInch} ${series}`,
    size,
    diameter: diameter * inch,
    pitch: inch / threadsAnInch,
    leftHand: false,
  };
}

/** Height of the sharp triangle of a 60° thread, in pitches (ISO 68-1). */
const sharp = Math.sqrt(3) / 2;

/**
 * The geometry of a thread's basic profile: d2 = d − 3/4 H (ISO 724, ASME B1.1). The root of a metric bolt is
 * d3 = d − 17/12 H = d − 1.226 869 P, and its stress area π/4 ((d2 + d3) / 2)² (ISO 898-1). The unified stress area is
 * 0.7854 (D − 0.9743 / n)² (ASME B1.1), which is the same formula over a root of d − 3/2 H.
 */
export function geometryOf({ system, diameter, pitch }: Thread): ThreadGeometry {
  const height = sharp * pitch;
  const pitchDiameter = diameter - (3 / 4) * height;
  const rootDiameter = diameter - (system === "metric" ? 17 / 12 : 3 / 2) * height;
  const stressDiameter = (pitchDiameter + rootDiameter) / 2;
  return {
    pitchDiameter,
    rootDiameter,
    stressDiameter,
    stressArea: (Math.PI / 4) * stressDiameter ** 2,
    flankAngle: Math.PI / 3,
  };
}
