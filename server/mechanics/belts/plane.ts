/**
 * Points, directions and straight pieces in the view's plane: x to the right, y up. Lengths in millimetres, angles in
 * radians, anticlockwise from the x axis.
 */

/** A place in the view, or the way from one place to another. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A straight piece, walked from its start to its end. */
export interface Segment {
  readonly start: Point;
  readonly end: Point;
}

/** How the hands of a clock go, or against them, as seen in the view. */
export type Round = "clockwise" | "anticlockwise";

/** The other way round. */
export const otherRound = (round: Round): Round => (round === "clockwise" ? "anticlockwise" : "clockwise");

/** From `a` to `b`. */
export const minus = (b: Point, a: Point): Point => ({ x: b.x - a.x, y: b.y - a.y });

/** The place `by` times `along` away from a point. */
export const moved = (from: Point, along: Point, by: number): Point => ({
  x: from.x + along.x * by,
  y: from.y + along.y * by,
});

export const dot = (a: Point, b: Point): number => a.x * b.x + a.y * b.y;

/** Over nought where `b` lies to the left of `a`. */
export const cross = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;

export const lengthOf = (a: Point): number => Math.hypot(a.x, a.y);

export const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

/** Turned by a quarter to the left. */
export const leftOf = (a: Point): Point => ({ x: -a.y, y: a.x });

/** The direction of an angle, of length one. */
export const direction = (angle: number): Point => ({ x: Math.cos(angle), y: Math.sin(angle) });

/** The nearest distance from a point to a straight piece, its ends included. */
export function distanceToSegment(point: Point, { start, end }: Segment): number {
  const along = minus(end, start);
  const square = dot(along, along);
  if (square === 0) return distance(point, start);
  const share = Math.min(1, Math.max(0, dot(minus(point, start), along) / square));
  return distance(point, moved(start, along, share));
}

/** So near to a piece's end, as a share of the lengths at hand, counts as at the end. */
const AT_END = 1e-9;

/** Whether two straight pieces cross, each at a place between its own ends; pieces that only touch do not. */
export function crossing(a: Segment, b: Segment): boolean {
  const alongA = minus(a.end, a.start);
  const alongB = minus(b.end, b.start);
  const size = lengthOf(alongA) * lengthOf(alongB);
  const area = cross(alongA, alongB);
  if (size === 0 || Math.abs(area) <= AT_END * size) return false;
  const between = minus(b.start, a.start);
  const onA = cross(between, alongB) / area;
  const onB = cross(between, alongA) / area;
  return onA > AT_END && onA < 1 - AT_END && onB > AT_END && onB < 1 - AT_END;
}

/** Whether a point lies within a closed polygon that does not cross itself (even-odd rule). */
export function within(point: Point, corners: readonly Point[]): boolean {
  let inside = false;
  corners.forEach((a, index) => {
    const b = corners[(index + 1) % corners.length] ?? a;
    if (a.y > point.y === b.y > point.y) return;
    if (point.x < a.x + ((point.y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside;
  });
  return inside;
}
