/**
 * Holes: where they lie when only their layout is said, how large they are drawn, and the way from one to the next.
 */
import { distance, distanceToSegment, type Point, type Round } from "../mechanics/belts/plane";
import { arrowhead, circle, line, TYPE, text } from "./svg";

/** A hole, by its number, and where it lies in the view: millimetres, x to the right, y up. */
export interface Hole {
  readonly number: number;
  readonly at: Point;
}

/**
 * Where holes lie on a circle; how far from the middle does not matter.
 *
 * @param first where the first one lies: radians, anticlockwise from the x axis
 */
export function circlePlaces(
  numbers: readonly number[],
  first = Math.PI / 2,
  round: Round = "clockwise",
): readonly Hole[] {
  const way = round === "clockwise" ? -1 : 1;
  return numbers.map((number, index) => {
    const angle = first + (way * 2 * Math.PI * index) / numbers.length;
    return { number, at: { x: 100 * Math.cos(angle), y: 100 * Math.sin(angle) } };
  });
}

/** Where holes lie in a row, from the left. */
export function rowPlaces(numbers: readonly number[]): readonly Hole[] {
  return numbers.map((number, index) => ({ number, at: { x: 100 * index, y: 0 } }));
}

/** Where holes lie in a grid, counted as text is read: along each row from the left, the rows from the top. */
export function gridPlaces(numbers: readonly number[], rows: number): readonly Hole[] {
  const along = Math.ceil(numbers.length / Math.max(1, rows));
  return numbers.map((number, index) => ({
    number,
    at: { x: 100 * (index % along), y: -100 * Math.floor(index / along) },
  }));
}

/** The nearest that two holes lie to each other; null where there are no two places. */
export function nearest(places: readonly Point[]): number | null {
  const apart = places.flatMap((a, index) => places.slice(index + 1).map((b) => distance(a, b)));
  const found = apart.filter((one) => one > 0);
  return found.length === 0 ? null : found.reduce((least, one) => Math.min(least, one));
}

/** The holes on the paper. */
export interface Pattern {
  readonly places: ReadonlyMap<number, Point>;
  /** Of the circle that a hole is drawn as. */
  readonly radius: number;
  readonly onCircle: boolean;
}

const LARGEST = 4.4;
const SMALLEST = 2.2;
/** Between two holes, for the number that stands beside one. */
const BETWEEN = 4;

/** The holes as large as they are usually drawn, smaller where they lie nearer together. */
export function patternOf(places: ReadonlyMap<number, Point>, onCircle: boolean): Pattern {
  const apart = nearest([...places.values()]) ?? Number.POSITIVE_INFINITY;
  return { places, onCircle, radius: Math.max(SMALLEST, Math.min(LARGEST, (apart - BETWEEN) / 2)) };
}

/** The circle that the holes lie on. */
export function holeCircle({ places, onCircle }: Pattern): string {
  const all = [...places.values()];
  const middle = middleOf(all);
  const first = all[0] ?? middle;
  if (!onCircle) return "";
  return circle(middle, distance(first, middle), {
    fill: "none",
    stroke: "#000",
    "stroke-width": 0.25,
    "stroke-dasharray": "3 1 0.6 1",
  });
}

const middleOf = (places: readonly Point[]): Point => ({
  x: places.reduce((sum, p) => sum + p.x, 0) / places.length,
  y: places.reduce((sum, p) => sum + p.y, 0) / places.length,
});

/** More steps than these are a tangle. */
const MOST_STEPS = 11;

/** Thin arrows from each hole to the next; none at all where one would run over a third hole and be misread. */
export function stepsOf(order: readonly number[], { places, radius }: Pattern): readonly string[] {
  const way = order.flatMap((number) => places.get(number) ?? []);
  const steps = way.slice(1).map((end, index) => ({ start: way[index] ?? end, end }));
  const clear = steps.every(({ start, end }) =>
    way.every(
      (hole) => hole === start || hole === end || distanceToSegment(hole, { start, end }) > radius + 0.5,
    ),
  );
  return clear && steps.length <= MOST_STEPS ? steps.map(({ start, end }) => step(start, end, radius)) : [];
}

/** A thin arrow from one hole to the next; none where they are too near. */
function step(from: Point, to: Point, radius: number): string {
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  const tip = { x: to.x - (radius + 0.4) * Math.cos(angle), y: to.y - (radius + 0.4) * Math.sin(angle) };
  if (distance(from, to) < 2 * radius + 2.5) return "";
  return line(from, tip, { stroke: "#777", "stroke-width": 0.25 }) + arrowhead(tip, angle, 1.9);
}

/**
 * A hole: the number of its turn in the circle, the first in a double ring; its own number outside, where it differs.
 *
 * @param order the holes' numbers in the order they are turned; empty where only the holes are to be shown
 */
export function holePiece(number: number, order: readonly number[], pattern: Pattern): string {
  const { radius, places } = pattern;
  const at = places.get(number);
  if (!at) return "";
  const turn = order.indexOf(number) + 1;
  const words = order.length > 0 ? (turn > 0 ? `${turn}` : "–") : `${number}`;
  const isFirst = turn === 1 && radius > 3;
  const size = words.length > 2 || radius < LARGEST ? TYPE.note : TYPE.number + 0.4;
  return (
    circle(at, radius, { fill: "#fff", stroke: "#000", "stroke-width": turn === 1 && !isFirst ? 0.8 : 0.4 }) +
    (isFirst ? circle(at, radius - 0.8, { fill: "none", stroke: "#000", "stroke-width": 0.25 }) : "") +
    text({ x: at.x, y: at.y + size * 0.36 }, words, size, {
      "text-anchor": "middle",
      "font-weight": "bold",
    }) +
    (showsHoles(order) ? outside(at, `${number}`, pattern) : "")
  );
}

/** Whether the holes' own numbers say more than the order's. */
export const showsHoles = (order: readonly number[]): boolean =>
  order.some((number, index) => number !== index + 1);

/** A hole's own number on the free side: outwards on a circle, else above it, or below it in the lower half. */
function outside(at: Point, words: string, { places, radius, onCircle }: Pattern): string {
  const middle = middleOf([...places.values()]);
  const [dx, dy] = [at.x - middle.x, at.y - middle.y];
  const length = Math.hypot(dx, dy);
  const way = onCircle && length > 0.5 ? { x: dx / length, y: dy / length } : { x: 0, y: dy > 0.5 ? 1 : -1 };
  const off = radius + 2.4;
  const where = { x: at.x + way.x * off, y: at.y + way.y * off + TYPE.note * 0.36 };
  return text(where, words, TYPE.note, { "text-anchor": "middle" });
}
