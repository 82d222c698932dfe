/**
 * How a bolt rubs, by the state its thread and the face under its head are in. Friction decides most of what becomes of a torque,
 * and it is never known exactly: so it is a range throughout.
 */
import { type Range, union } from "./range";

/**
 * Friction classes of VDI 2230 part 1, table A5 (µG and µK alike), checked against two reprints. Class E has no upper end
 * there; 0.5 is taken for it (common practice, no source).
 */
export const frictionClasses = {
  A: { low: 0.04, high: 0.1 },
  B: { low: 0.08, high: 0.16 },
  C: { low: 0.14, high: 0.24 },
  D: { low: 0.2, high: 0.35 },
  E: { low: 0.3, high: 0.5 },
} as const satisfies Record<string, Range>;

const { A, B, C, D, E } = frictionClasses;

/**
 * The state of a thread. `paste` is a lubricant with solids in it (molybdenum disulphide, graphite, copper), `locked` a liquid
 * thread lock.
 */
export type ThreadState = "dry" | "oiled" | "paste" | "locked" | "as-supplied";

/** Friction in the thread µG and under the head µK. */
export interface Friction {
  readonly thread: Range;
  readonly head: Range;
}

/**
 * The same table by state. Carbon steel: dry is “without” lubricant (C, D), oil and grease B, solids A or B, adhesive C, delivery condition
 * B or C. Stainless steel: dry E, oil D, pastes and waxes B or C; as it comes it may be waxed or bare. Not known:
 * all that may be.
 */
const carbonSteel: Readonly<Record<ThreadState | "unknown", Range>> = {
  dry: union(C, D),
  oiled: B,
  paste: union(A, B),
  locked: C,
  "as-supplied": union(B, C),
  unknown: union(A, D),
};
const stainlessSteel: Readonly<Record<ThreadState | "unknown", Range>> = {
  dry: E,
  oiled: D,
  paste: union(B, C),
  locked: union(C, E),
  "as-supplied": union(B, E),
  unknown: union(B, E),
};

/** What is said of a bolt's friction. */
export interface FrictionSaid {
  /** Null where nothing is said. */
  readonly state: ThreadState | null;
  /** Where the lubricant is put; null where that is not said. Only asked of `oiled` and `paste`. */
  readonly on: "thread" | "thread-and-head" | null;
  readonly stainless: boolean;
}

/**
 * The friction of a bolt in this state. Under the head it is the thread's only where the lubricant is said to be there too, or the
 * bolt is dry; a lubricant said for the thread alone may have run under the head, so both are allowed for.
 */
export function frictionOf({ state, on, stainless }: FrictionSaid): Friction {
  const table = stainless ? stainlessSteel : carbonSteel;
  const thread = table[state ?? "unknown"];
  if (state === "locked") return { thread, head: table["as-supplied"] };
  if (state !== "oiled" && state !== "paste") return { thread, head: thread };
  if (on === "thread-and-head") return { thread, head: thread };
  return { thread, head: union(thread, on === "thread" ? table.dry : table["as-supplied"]) };
}
