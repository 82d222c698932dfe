/**
 * The sets of values that a condition or outcome may still have, as small numbers: each set that is met gets the next one.
 */
import type { Graph } from "./graph";

/** Sets of values of each variable, as small numbers. */
export interface Masks {
  /** What is left of a set when some values are taken out of it or kept; -1 where nothing is. */
  readonly narrow: (variable: number, set: number, mask: bigint) => number;
}

/** The set of an outcome before its check is made, and that of all values. */
export const UNASKED = 0;
export const FULL = 1;

/** The sets of a graph's variables, made as they are met. */
export function masksOf({ variables }: Graph): Masks {
  const sets = variables.all.map(({ full }) => [0n, full]);
  return {
    narrow: (variable, set, mask) => {
      // Before its check is made an outcome has no value: no test on it holds.
      if (set === UNASKED) return mask >= 0n ? -1 : UNASKED;
      const known = sets[variable] as bigint[];
      const left = (known[set] as bigint) & mask;
      if (left === 0n) return -1;
      const found = known.indexOf(left, 1);
      return found >= 0 ? found : known.push(left) - 1;
    },
  };
}
