/**
 * Chance for tests, from a seed: the same seed always gives the same numbers.
 */

/** Gives the next number, from 0 up to but not including 1. */
export type Random = () => number;

/** A source of chance (mulberry32, a public-domain generator, from memory). */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** A whole number from 0 up to but not including `count`. */
export function below(random: Random, count: number): number {
  return Math.floor(random() * count);
}

/** One of several. */
export function pick<T>(random: Random, from: readonly T[]): T {
  return from[below(random, from.length)] as T;
}
