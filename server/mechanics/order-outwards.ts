/**
 * The order for bolts that do not stand on a circle, as those of a cylinder head: from the middle outwards, to and fro across it, so
 * that the part is pressed flat from the middle and cannot be trapped bent. And the passes that stages make of any order.
 */
import { distance, isWholeOrder, middleOf, type Point } from "./order";

/**
 * The order from the middle out, as numbers of the places given, from 1. Bolts as near to the middle as one another (to one part in
 * a hundred of the whole) are a ring; in a ring each next one is the farthest from the one before, so the order spirals outwards
 * crosswise (common practice of engine manuals; no standard).
 *
 * @returns null for no places, more than 1000, or figures that are not finite
 */
export function fromMiddleOut(places: readonly Point[]): readonly number[] | null {
  const middle = middleOf(places);
  if (middle === null) return null;
  const out = places.map((place) => distance(place, middle));
  const tolerance = Math.max(...out) * sameRing;
  const left = places.map((_, index) => index).sort((a, b) => (out[a] ?? 0) - (out[b] ?? 0) || a - b);
  const order: number[] = [];
  while (left.length > 0) {
    const nearest = out[left[0] ?? 0] ?? 0;
    const ring = left.filter((index) => (out[index] ?? 0) <= nearest + tolerance);
    const next = farthest(places, ring, order.at(-1));
    order.push(next);
    left.splice(left.indexOf(next), 1);
  }
  return order.map((index) => index + 1);
}

/** Bolts whose distances from the middle differ by no more than this share of the largest are one ring. */
const sameRing = 1 / 100;

/** Of a ring, the place farthest from the last; of equally far ones, the first given. */
function farthest(places: readonly Point[], ring: readonly number[], last: number | undefined): number {
  const from = places[last ?? -1];
  const away = (index: number): number => {
    const place = places[index];
    return from === undefined || place === undefined ? 0 : distance(place, from);
  };
  const most = Math.max(...ring.map(away));
  return ring.find((index) => away(index) >= most * (1 - 1e-9)) ?? 0;
}

/**
 * Whether a given order goes from the middle out: no bolt is tightened while one is still loose that lies nearer to the middle by about
 * the least distance between two bolts or more. Less is allowed because makers' spirals go along the rows, not by exact rings.
 *
 * @returns null where the order does not name each place once, or a figure is none
 */
export function isFromMiddleOut(order: readonly number[], places: readonly Point[]): boolean | null {
  const middle = middleOf(places);
  if (middle === null || !isWholeOrder(order, places.length)) return null;
  const out = order.map((hole) => distance(places[hole - 1] ?? middle, middle));
  const allowed = Math.max(leastApart(places) * ringLeeway, Math.max(...out) * sameRing * (1 + 1e-9));
  let nearestLeft = Number.POSITIVE_INFINITY;
  for (const one of [...out].reverse()) {
    if (one > nearestLeft + allowed) return false;
    nearestLeft = Math.min(nearestLeft, one);
  }
  return true;
}

/** So that a single row, taken from one end, does not pass by the width of a hair. */
const ringLeeway = 0.9;

function leastApart(places: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [index, a] of places.entries()) {
    for (const b of places.slice(index + 1)) least = Math.min(least, distance(a, b));
  }
  return Number.isFinite(least) ? least : 0;
}

/** One pass over the bolts. */
export interface Pass {
  /** Number of the stage, from 1. */
  readonly stage: number;
  readonly order: readonly number[];
}

/** The passes of a tightening in stages: every bolt is brought to one stage, in the order, before any goes on to the next. */
export function passesOf(order: readonly number[], stages: number): readonly Pass[] {
  const count = Number.isInteger(stages) && stages > 0 && stages <= 100 ? stages : 0;
  return Array.from({ length: count }, (_, index) => ({ stage: index + 1, order }));
}
