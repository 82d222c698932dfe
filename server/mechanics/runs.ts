/**
 * Open runs: hoses, cables and wires through clips, from where the clips lie. Lengths in millimetres, x to the right and
 * y up in the view.
 */
import { crossing, distance, minus, type Point, type Segment } from "./belts/plane";

/** What is wrong with the places of a run, told by their order in it, from 0. */
export type RunProblem =
  | { readonly kind: "too-few"; readonly count: number }
  | { readonly kind: "bad-place"; readonly place: number }
  /** Two that follow each other lie at the same place. */
  | { readonly kind: "coincident"; readonly places: readonly [number, number] };

/** How the run bends at a place between two others. Millimetres and radians. */
export interface Bend {
  readonly place: number;
  /** How far it turns off: 0 straight on, π back on itself. */
  readonly angle: number;
  /** The circle through the place and the two beside it: how gently a run that goes through all three can bend. */
  readonly through: number;
  /** The largest arc that leaves the straight pieces halfway at most, cutting the corner off. */
  readonly rounded: number;
  /** The larger of the two: no run through these places bends more gently without going further afield. */
  readonly gentlest: number;
}

export interface Run {
  readonly pieces: readonly Segment[];
  /** From the first place to the last, straight from each to the next: the least there can be. */
  readonly length: number;
  readonly bends: readonly Bend[];
  /** Pairs of pieces, by their order, that cross. */
  readonly crossings: readonly (readonly [number, number])[];
}

export type RunFound =
  | { readonly run: Run; readonly problems: readonly [] }
  | { readonly run: null; readonly problems: readonly RunProblem[] };

/** As for belts: a hundred kilometres. */
const LARGEST = 1e8;

/** The run through places in order. Nothing is ever thrown. */
export function runThrough(places: readonly Point[]): RunFound {
  const problems = problemsOf(places);
  if (problems.length > 0) return { run: null, problems };
  const pieces = places.slice(1).map((end, index) => ({ start: places[index] as Point, end }));
  const run: Run = {
    pieces,
    length: pieces.reduce((sum, { start, end }) => sum + distance(start, end), 0),
    bends: pieces.slice(1).map((_, index) => bendAt(places, index + 1)),
    crossings: pieces.flatMap((a, i) =>
      pieces.slice(i + 1).flatMap((b, after) => (crossing(a, b) ? [[i, i + 1 + after] as const] : [])),
    ),
  };
  return { run, problems: [] };
}

function problemsOf(places: readonly Point[]): readonly RunProblem[] {
  if (places.length < 2) return [{ kind: "too-few", count: places.length }];
  const measured = (figure: number) => Number.isFinite(figure) && Math.abs(figure) <= LARGEST;
  const bad = places.flatMap(({ x, y }, place): RunProblem[] =>
    measured(x) && measured(y) ? [] : [{ kind: "bad-place", place }],
  );
  if (bad.length > 0) return bad;
  return places.slice(1).flatMap((here, index): RunProblem[] => {
    const apart = distance(here, places[index] as Point);
    return apart > 0 ? [] : [{ kind: "coincident", places: [index, index + 1] }];
  });
}

/** Turned off by less than this, in radians, it runs straight on: rounding. */
const STRAIGHT = 1e-9;

/** Circle through three points: R = abc / 4A. Arc in a corner: r = t / tan(θ/2), with tangent length t (any textbook). */
function bendAt(places: readonly Point[], place: number): Bend {
  const [a, b, c] = [places[place - 1], places[place], places[place + 1]] as [Point, Point, Point];
  const [into, out] = [minus(b, a), minus(c, b)];
  const [before, after, across] = [distance(a, b), distance(b, c), distance(a, c)];
  const area = into.x * out.y - into.y * out.x;
  const angle = Math.abs(Math.atan2(area, into.x * out.x + into.y * out.y));
  if (angle < STRAIGHT) return { place, angle: 0, through: Infinity, rounded: Infinity, gentlest: Infinity };
  const through = Math.abs(area) > 0 ? (before * after * across) / (2 * Math.abs(area)) : 0;
  // A piece between two bends is shared by both; one at an end of the run is free.
  const room = Math.min(place === 1 ? before : before / 2, place === places.length - 2 ? after : after / 2);
  const rounded = room / Math.tan(angle / 2);
  return { place, angle, through, rounded, gentlest: Math.max(through, rounded) };
}

/** What is left of a run's length. */
export interface Slack {
  /** Over the straight way, in millimetres; below nought where it does not reach. */
  readonly left: number;
  /** Whether that is at least what is needed. */
  readonly enough: boolean;
}

/**
 * The slack of a run.
 *
 * @param length of the hose, cable or wire between the first place and the last
 * @param needed slack, 0 or more
 * @returns null where a figure is not one
 */
export function slackOf(run: Run, length: number, needed = 0): Slack | null {
  if (!(length > 0 && Number.isFinite(length) && needed >= 0)) return null;
  const left = length - run.length;
  return { left, enough: left >= needed };
}
