/**
 * Whether a belt of a given length fits: the path's length over the travel of its tensioners.
 */
import { type Layout, layoutProblems, type Pulley } from "./layout";
import { type BeltPath, beltPath } from "./path";
import { direction, moved } from "./plane";

/** The lengths of belt a layout can take. In millimetres. */
export interface LengthRange {
  /** With the tensioners slackest. */
  readonly shortest: number;
  /** As the layout stands, the tensioners in the middle of their travel. */
  readonly middle: number;
  /** With the tensioners tightest. */
  readonly longest: number;
  /** A tensioner cannot go the whole of its travel, because it would run into another pulley. */
  readonly stopped: boolean;
}

/** What a belt's length is to a layout. `by` is in millimetres of belt. */
export type Fit =
  /** `position` of the tensioners: −1 slackest, 0 in the middle, 1 tightest. */
  | { readonly kind: "fits"; readonly position: number }
  | { readonly kind: "too-long" | "too-short"; readonly by: number };

/**
 * The layout with every tensioner moved along the bisector of its wrap, away from the middle of its travel.
 *
 * @param position from −1, half the travel towards slack, to 1, half the travel towards tight
 */
export function tensioned(layout: Layout, path: BeltPath, position: number): Layout {
  const pulleys = layout.pulleys.map((pulley, index): Pulley => {
    const wrap = path.wraps[index];
    if (!wrap?.touched || pulley.travel === 0) return pulley;
    const middle = wrap.from + ((wrap.round === "anticlockwise" ? 1 : -1) * wrap.angle) / 2;
    return {
      ...pulley,
      centre: moved(pulley.centre, direction(middle), (position * pulley.travel) / 2),
    };
  });
  return { pulleys, round: path.round };
}

/** The length at a position that the pulleys leave free. */
function lengthAt(layout: Layout, path: BeltPath, position: number): number {
  return beltPath(tensioned(layout, path, position)).path?.length ?? path.length;
}

/** Halvings of a travel: to less than a millionth of it. */
const HALVINGS = 20;
/** The most steps a travel is looked along in. */
const MOST_STEPS = 100;

/** The furthest position towards `end` that can be reached without one pulley running into another. */
function furthest(layout: Layout, path: BeltPath, end: 1 | -1): number {
  const travel = Math.max(...layout.pulleys.map((p) => p.travel));
  if (travel === 0) return end;
  const isFree = (position: number) => layoutProblems(tensioned(layout, path, position)).length === 0;
  // A step is shorter than the smallest pulley is wide, so that none is jumped over.
  const smallest = Math.min(...layout.pulleys.map((p) => p.radius));
  const steps = Math.min(MOST_STEPS, Math.max(1, Math.ceil(travel / 2 / smallest)));
  for (let step = 1; step <= steps; step++) {
    let taken = (end * step) / steps;
    if (isFree(taken)) continue;
    let free = (end * (step - 1)) / steps;
    for (let halving = 0; halving < HALVINGS; halving++) {
      const between = (free + taken) / 2;
      if (isFree(between)) free = between;
      else taken = between;
    }
    return free;
  }
  return end;
}

/** The lengths of belt that a layout can take, from its path. All three are the same where nothing can be moved. */
export function lengthRange(layout: Layout, path: BeltPath): LengthRange {
  const [slack, tight] = [furthest(layout, path, -1), furthest(layout, path, 1)];
  return {
    shortest: Math.min(lengthAt(layout, path, slack), path.length),
    middle: path.length,
    longest: Math.max(lengthAt(layout, path, tight), path.length),
    stopped: slack !== -1 || tight !== 1,
  };
}

/**
 * Whether a belt fits.
 *
 * @param length of the belt at its pitch line; null comes back where it is no length
 * @param allowance how much longer or shorter than the range it may be, for what stretches and what is rounded
 */
export function fitOf(layout: Layout, path: BeltPath, length: number, allowance = 0): Fit | null {
  if (!Number.isFinite(length) || length <= 0) return null;
  const { shortest, longest } = lengthRange(layout, path);
  if (length > longest + allowance) return { kind: "too-long", by: length - longest };
  if (length < shortest - allowance) return { kind: "too-short", by: shortest - length };
  return { kind: "fits", position: positionFor(layout, path, length) };
}

/** Where the tensioners stand for a length between the two ends, by halving: the path grows all the way. */
function positionFor(layout: Layout, path: BeltPath, length: number): number {
  let [low, high] = [furthest(layout, path, -1), furthest(layout, path, 1)];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const between = (low + high) / 2;
    if (lengthAt(layout, path, between) < length) low = between;
    else high = between;
  }
  return layout.pulleys.some((p) => p.travel > 0) ? (low + high) / 2 : 0;
}
