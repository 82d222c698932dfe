/**
 * How strong a bolt is: property classes of steel (ISO 898-1), grades of inch bolts (SAE J429), stainless steel
 * (ISO 3506-1). Minimum values, so a real bolt is at least this strong; `tensileMost` bounds it from above.
 */
import type { Thread } from "./threads";

/** A property class or grade. */
export interface BoltClass {
  readonly standard: "ISO 898-1" | "SAE J429" | "ISO 3506-1";
  /** As written on the head or in a list: `8.8`, `grade 5`, `A2-70`. */
  readonly designation: string;
  readonly rows: readonly StrengthRow[];
}

/** Stresses in pascals. */
export interface Strength {
  /** Least tensile strength Rm. */
  readonly tensile: number;
  /** Least yield: lower yield point or 0.2 % proof strength. */
  readonly yield: number;
  /** Stress under proof load: carried without lasting stretch. Null for stainless, which has none. */
  readonly proof: number | null;
  /** Most tensile strength a bolt of this class may have, by its greatest hardness. Null where none is laid down. */
  readonly tensileMost: number | null;
}

/** Diameters in metres, both included, with the strength that holds between them. */
export interface StrengthRow extends Strength {
  readonly from: number;
  readonly to: number;
}

const mm = 1e-3;
const inch = 25.4 * mm;
const MPa = 1e6;
/** 1000 psi (NIST SP 811, B.8: ksi). */
const ksi = 6.894757e6;

type Figures = readonly [
  from: number,
  to: number,
  tensile: number,
  yielding: number,
  proof: number | null,
  most: number | null,
];

function boltClass(
  standard: BoltClass["standard"],
  designation: string,
  length: number,
  stress: number,
  rows: readonly Figures[],
): BoltClass {
  return {
    standard,
    designation,
    rows: rows.map(([from, to, tensile, yielding, proof, most]) => ({
      from: from * length,
      to: to * length,
      tensile: tensile * stress,
      yield: yielding * stress,
      proof: proof === null ? null : proof * stress,
      tensileMost: most === null ? null : most * MPa,
    })),
  };
}

/**
 * ISO 898-1:2013, tables 3, 5 and 7, M1.6 to M39: least Rm, least ReL, Rpf or Rp0.2, stress under proof load, in MPa.
 * The last figure is the greatest hardness there turned into tensile strength (ISO 18265), from memory.
 */
const steel = ([designation, rows]: readonly [string, readonly Figures[]]): BoltClass =>
  boltClass("ISO 898-1", designation, mm, MPa, rows);
const steels: readonly (readonly [string, readonly Figures[]])[] = [
  ["4.6", [[1.6, 39, 400, 240, 225, 705]]],
  ["4.8", [[1.6, 39, 420, 340, 310, 705]]],
  ["5.6", [[1.6, 39, 500, 300, 280, 705]]],
  ["5.8", [[1.6, 39, 520, 420, 380, 705]]],
  ["6.8", [[1.6, 39, 600, 480, 440, 800]]],
  [
    "8.8",
    [
      [1.6, 16, 800, 640, 580, 1030],
      [16, 39, 830, 660, 600, 1080],
    ],
  ],
  ["9.8", [[1.6, 16, 900, 720, 650, 1155]]],
  ["10.9", [[1.6, 39, 1040, 940, 830, 1220]]],
  ["12.9", [[1.6, 39, 1220, 1100, 970, 1405]]],
];

/**
 * SAE J429, table 1, inch sizes to 1-1/2: least tensile strength, yield and proof stress in ksi, checked against two
 * reprints (grades 4, 5.2, 8.1 and 8.2 from memory). The last figure, in MPa, as for ISO 898-1.
 */
const grade = ([designation, rows]: readonly [string, readonly Figures[]]): BoltClass =>
  boltClass("SAE J429", `grade ${designation}`, inch, ksi, rows);
const grades: readonly (readonly [string, readonly Figures[]])[] = [
  ["1", [[0.25, 1.5, 60, 36, 33, 770]]],
  [
    "2",
    [
      [0.25, 0.75, 74, 57, 55, 770],
      [0.75, 1.5, 60, 36, 33, 770],
    ],
  ],
  ["4", [[0.25, 1.5, 115, 100, 65, 1025]]],
  [
    "5",
    [
      [0.25, 1, 120, 92, 85, 1080],
      [1, 1.5, 105, 81, 74, 970],
    ],
  ],
  ["5.2", [[0.25, 1, 120, 92, 85, 1140]]],
  ["8", [[0.25, 1.5, 150, 130, 120, 1230]]],
  ["8.1", [[0.25, 1.5, 150, 130, 120, 1195]]],
  ["8.2", [[0.25, 1, 150, 130, 120, 1230]]],
];

/**
 * ISO 3506-1:1997 and 2009, table 2, austenitic: least Rm and Rp0.2 in MPa, classes 70 and 80 up to M24 and 50 up to M39.
 * Checked against a reprint but for class 50 (from memory).
 */
const stainless = (["A1", "A2", "A3", "A4", "A5"] as const).flatMap((steelGroup) =>
  (
    [
      ["50", [[1.6, 39, 500, 210, null, null]]],
      ["70", [[1.6, 24, 700, 450, null, null]]],
      ["80", [[1.6, 24, 800, 600, null, null]]],
    ] as const
  ).map(([strength, rows]) => boltClass("ISO 3506-1", `${steelGroup}-${strength}`, mm, MPa, rows)),
);

/** Every class held here, from weak to strong within its standard. */
export const allClasses: readonly BoltClass[] = [...steels.map(steel), ...grades.map(grade), ...stainless];

/** Where a class sets no greatest strength, no bolt is this many times stronger than its least (common practice, no source). */
const strongest = 1.6;

/**
 * The tensile strength in pascals that no bolt is beyond: of its class, by its greatest hardness where that is laid down; without a class
 * (null), of the strongest class held here.
 */
export function strengthAtMost(strength: Strength | null): number {
  if (strength !== null) return strength.tensileMost ?? strength.tensile * strongest;
  return Math.max(...allClasses.flatMap(({ rows }) => rows.map((row) => strengthAtMost(row))));
}

/** Whether the bolt is of stainless steel, which rubs otherwise than carbon steel. */
export const isStainless = (one: BoltClass | null): boolean => one?.standard === "ISO 3506-1";

/**
 * The strength of a bolt of this class and thread. Undefined where its standard says nothing of that size, or where an
 * inch grade is said for a metric thread: then nothing is claimed.
 */
export function strengthOf(boltClass: BoltClass, thread: Thread): Strength | undefined {
  if (boltClass.standard === "SAE J429" && thread.system === "metric") return undefined;
  // A size that two rows share belongs to the first: “d ≤ 16”, “1/4 to 3/4”.
  return boltClass.rows.find(
    ({ from, to }) => thread.diameter >= from - slack && thread.diameter <= to + slack,
  );
}

/** Far under any step between two sizes. */
const slack = 1e-7;
