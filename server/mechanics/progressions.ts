/**
 * Rows of moments that come round again and again at even steps, as a mark that stands in line once a turn: exact, in
 * turns of one shaft.
 */
import {
  commonDivisor,
  commonMultiple,
  compare,
  type Fraction,
  floor,
  fraction,
  less,
  plus,
  remainder,
  times,
  ZERO,
} from "./fractions";

/** `first`, `first + every`, `first + 2 every` … and backwards without end; 0 ≤ first < every. */
export interface Progression {
  readonly first: Fraction;
  readonly every: Fraction;
}

/** The row through a moment. `every` must be over nought. */
export const progression = (through: Fraction, every: Fraction): Progression => ({
  first: remainder(through, every),
  every,
});

/**
 * The moments that two rows share: by the Chinese remainder theorem, over the common denominator.
 *
 * @returns null where they share none
 */
export function shared(a: Progression, b: Progression): Progression | null {
  const under = [a.first, a.every, b.first, b.every].reduce((m, f) => commonMultiple(m, f.under), 1n);
  const scaled = ({ over, under: own }: Fraction) => over * (under / own);
  const [firstA, everyA, firstB, everyB] = [
    scaled(a.first),
    scaled(a.every),
    scaled(b.first),
    scaled(b.every),
  ];
  const divisor = commonDivisor(everyA, everyB);
  if (divisor === 0n || (firstB - firstA) % divisor !== 0n) return null;
  const steps =
    (((firstB - firstA) / divisor) * inverse(everyA / divisor, everyB / divisor)) % (everyB / divisor);
  const every = fraction(commonMultiple(everyA, everyB), under);
  const through = fraction(firstA + steps * everyA, under);
  return every && through ? progression(through, every) : null;
}

/** The whole number x with a·x ≡ 1 (mod m), for a and m without a common divisor; 0 where m is 1. */
function inverse(a: bigint, m: bigint): bigint {
  let [r, nextR] = [m, ((a % m) + m) % m];
  let [x, nextX] = [0n, 1n];
  while (nextR > 0n) {
    const quotient = r / nextR;
    [r, nextR] = [nextR, r - quotient * nextR];
    [x, nextX] = [nextX, x - quotient * nextX];
  }
  return m === 1n ? 0n : ((x % m) + m) % m;
}

/** The moments of a row on either side of one, and the nearest (the later of two as near). */
export interface Nearest {
  /** At it, or the last before it. */
  readonly before: Fraction;
  /** At it, or the next after it. */
  readonly after: Fraction;
  readonly nearest: Fraction;
}

/** What of a row is nearest to a moment. */
export function nearestIn({ first, every }: Progression, moment: Fraction): Nearest {
  const since = less(moment, first);
  const steps = {
    over: floor(fraction(since.over * every.under, since.under * every.over) ?? ZERO),
    under: 1n,
  };
  const before = plus(first, times(steps, every));
  const after = compare(before, moment) === 0 ? before : plus(before, every);
  const nearest = compare(less(moment, before), less(after, moment)) < 0 ? before : after;
  return { before, after, nearest };
}
