/**
 * The straight spans of a belt: the one line that leaves a pulley and comes to the next, each passed on its own side.
 */
import { dot, leftOf, minus, moved, type Point, type Segment } from "./plane";

/** A pulley as a path passes it. */
export interface Passed {
  readonly centre: Point;
  readonly radius: number;
  /** 1 where the path goes round it anticlockwise (its centre to the left), −1 where clockwise. */
  readonly sense: 1 | -1;
}

/** The straight piece from one pulley to the next. */
export interface Tangent extends Segment {
  /** Of length one, the way the path is walked. */
  readonly along: Point;
  readonly length: number;
}

/**
 * The tangent from `from` to `to`, the way the path is walked: an outer one where both are passed in the same sense, an
 * inner one where not.
 *
 * A centre lies `sense × radius` to the left of the line, so that the centres' distance D, resolved along the line and
 * to its left, is D = ℓ·u + δ·n, where δ is the difference of those two figures: ℓ² = D² − δ², the right-angled triangle
 * of every textbook on belts (for example Shigley, Mechanical Engineering Design, "Flexible mechanical elements").
 *
 * @returns null where the circles lie so that there is no such line
 */
export function tangent(from: Passed, to: Passed): Tangent | null {
  const between = minus(to.centre, from.centre);
  const offset = to.sense * to.radius - from.sense * from.radius;
  const square = dot(between, between);
  const rest = square - offset * offset;
  // Circles that just touch leave an inner tangent of no length, which rounding may put below nought.
  if (square === 0 || rest < -1e-8 * square) return null;
  const length = Math.sqrt(Math.max(0, rest));
  const left = leftOf(between);
  const along = {
    x: (length * between.x - offset * left.x) / square,
    y: (length * between.y - offset * left.y) / square,
  };
  const normal = leftOf(along);
  return {
    start: moved(from.centre, normal, -from.sense * from.radius),
    end: moved(to.centre, normal, -to.sense * to.radius),
    along,
    length,
  };
}

/** A wrap that falls short of a whole turn by less is none at all: rounding. */
const WHOLE_TURN = 2 * Math.PI - 1e-9;

/** How far a path turns round a pulley between two directions, in its sense: from 0 up to a whole turn. */
export function turning(into: Point, out: Point, sense: 1 | -1): number {
  const left = into.x * out.y - into.y * out.x;
  const turn = sense * Math.atan2(left, dot(into, out));
  const whole = turn < 0 ? turn + 2 * Math.PI : turn;
  return whole > WHOLE_TURN ? 0 : whole;
}

/** How far a pulley stands off the line; below nought where it stands in the way. */
export function standsOff(pulley: Passed, line: Tangent): number {
  const left = dot(minus(pulley.centre, line.start), leftOf(line.along));
  return pulley.sense * left - pulley.radius;
}
