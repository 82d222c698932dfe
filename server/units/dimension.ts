/**
 * Kinds of quantity, and the base dimensions each is made of.
 *
 * Two things go beyond the SI base on purpose. The plane angle counts as a base of its own, so that torque
 * (joule per radian) is told from energy (joule) and rotation speed from frequency. A temperature difference
 * is told from a point on the temperature scale, because only the point has an offset between its units.
 */

/** What a figure measures. Two units convert into each other when they are of one kind. */
export type Kind =
  | "torque"
  | "angle"
  | "length"
  | "area"
  | "volume"
  | "mass"
  | "force"
  | "pressure"
  | "temperature"
  | "temperature-difference"
  | "time"
  | "speed"
  | "rotation-speed"
  | "frequency"
  | "flow"
  | "voltage"
  | "current"
  | "resistance"
  | "capacitance"
  | "charge"
  | "power"
  | "energy"
  | "spring-rate"
  | "density"
  | "percentage";

/** The base dimensions, in a fixed order. */
export const bases = [
  "length",
  "mass",
  "time",
  "current",
  "temperature",
  "temperature-difference",
  "angle",
] as const;

/** Exponents over `bases`, in that order. */
export type Dimension = readonly [number, number, number, number, number, number, number];

const dimensions: Readonly<Record<Kind, Dimension>> = {
  torque: [2, 1, -2, 0, 0, 0, -1],
  angle: [0, 0, 0, 0, 0, 0, 1],
  length: [1, 0, 0, 0, 0, 0, 0],
  area: [2, 0, 0, 0, 0, 0, 0],
  volume: [3, 0, 0, 0, 0, 0, 0],
  mass: [0, 1, 0, 0, 0, 0, 0],
  force: [1, 1, -2, 0, 0, 0, 0],
  pressure: [-1, 1, -2, 0, 0, 0, 0],
  temperature: [0, 0, 0, 0, 1, 0, 0],
  "temperature-difference": [0, 0, 0, 0, 0, 1, 0],
  time: [0, 0, 1, 0, 0, 0, 0],
  speed: [1, 0, -1, 0, 0, 0, 0],
  "rotation-speed": [0, 0, -1, 0, 0, 0, 1],
  frequency: [0, 0, -1, 0, 0, 0, 0],
  flow: [3, 0, -1, 0, 0, 0, 0],
  voltage: [2, 1, -3, -1, 0, 0, 0],
  current: [0, 0, 0, 1, 0, 0, 0],
  resistance: [2, 1, -3, -2, 0, 0, 0],
  capacitance: [-2, -1, 4, 2, 0, 0, 0],
  charge: [0, 0, 1, 1, 0, 0, 0],
  power: [2, 1, -3, 0, 0, 0, 0],
  energy: [2, 1, -2, 0, 0, 0, 0],
  "spring-rate": [0, 1, -2, 0, 0, 0, 0],
  density: [-3, 1, 0, 0, 0, 0, 0],
  percentage: [0, 0, 0, 0, 0, 0, 0],
};

/** Every kind, in the order of the type. */
export const kinds: readonly Kind[] = Object.keys(dimensions) as Kind[];

/** The exponents of a kind over `bases`. */
export function dimensionOf(kind: Kind): Dimension {
  return dimensions[kind];
}

/** Whether figures of the two kinds can be compared: their exponents are the same. */
export function sameDimension(a: Kind, b: Kind): boolean {
  return dimensions[a].every((exponent, index) => exponent === dimensions[b][index]);
}
