/**
 * The path of a belt or chain round its pulleys: spans, wraps, length, and what is wrong with the way it runs.
 */
import { type Layout, type LayoutProblem, layoutProblems, type Pulley } from "./layout";
import {
  crossing,
  distanceToSegment,
  minus,
  otherRound,
  type Point,
  type Round,
  type Segment,
  within,
} from "./plane";
import type { Passed } from "./tangents";
import { pathRound, pullTight, type Taut, tangentsBetween } from "./taut";

/** The straight piece of belt between two pulleys. Lengths in millimetres. */
export interface Span extends Segment {
  /** Pulleys, by their place in the layout. */
  readonly from: number;
  readonly to: number;
  readonly length: number;
  /** Whether it stays on one side of the line between the centres; an inner one goes across it. */
  readonly outer: boolean;
}

/** The belt on one pulley. */
export interface Wrap {
  readonly touched: boolean;
  /** The way the path goes round it, as seen in the view. */
  readonly round: Round;
  /** Radians of belt on it; 0 where it is not touched. */
  readonly angle: number;
  /** Where the belt comes on, and where it leaves, seen from the centre: radians, anticlockwise from the x axis. */
  readonly from: number;
  readonly to: number;
  /** Millimetres of belt on it. */
  readonly arc: number;
  /** Its teeth that are in mesh, whole ones and a share; null where it has none or the belt's back touches. */
  readonly teethInMesh: number | null;
}

export interface BeltPath {
  /** The way round it is walked, as seen in the view. */
  readonly round: Round;
  /** The way that was said does not work, and this one does. */
  readonly otherWayThanSaid: boolean;
  /** One for each pulley of the layout. */
  readonly wraps: readonly Wrap[];
  /** One for each pulley that is touched, in the order of the path. */
  readonly spans: readonly Span[];
  /** At the pitch line, in millimetres. */
  readonly length: number;
  /** Pulleys that stand clear of the tight belt, and by how many millimetres. */
  readonly untouched: readonly { readonly pulley: number; readonly gap: number }[];
  /** Pairs of spans, by their place in `spans`, that cross; those that have no pulley in common first. */
  readonly crossings: readonly (readonly [number, number])[];
  /** Spans that run into a pulley that is neither at their start nor at their end. */
  readonly cuts: readonly { readonly span: number; readonly pulley: number }[];
  /** How often the belt goes round in all: 1 for a belt that can be laid on, 0 for a crossed one. */
  readonly windings: number;
  /** It goes round once, crosses nothing unless it is said to, runs into nothing, and has every pulley on the side that was said. */
  readonly sound: boolean;
}

/** A path, sound or not; or what makes one impossible. Never both. */
export type PathFound =
  | { readonly path: BeltPath; readonly problems: readonly [] }
  | { readonly path: null; readonly problems: readonly LayoutProblem[] };

/**
 * Finds the path of a tight belt round 2 to 12 pulleys. Where no tight path is sound, what comes back is the path as it
 * was said, pulley after pulley, with its crossings and cuts. Nothing is ever thrown.
 */
export function beltPath(layout: Layout): PathFound {
  const problems = layoutProblems(layout);
  if (problems.length > 0) return { path: null, problems };
  const said = layout.round ?? "clockwise";
  const path = bestPath(layout.pulleys, said);
  const inside = layout.pulleys.filter((p) => p.side === "inside").length;
  if (!path) return { path: null, problems: [{ kind: "cannot-close", inside }] };
  return { path: { ...path, otherWayThanSaid: layout.round !== null && path.round !== said }, problems: [] };
}

/** A sound path, the way that was said before the other; else the nearest there is to one, the way that was said. */
function bestPath(pulleys: readonly Pulley[], said: Round): BeltPath | null {
  const rounds = [said, otherRound(said)];
  for (const round of rounds) {
    const tight = tightPath(pulleys, round);
    if (tight?.sound) return tight;
  }
  for (const round of rounds) {
    const sought = seek(pulleys, round);
    if (sought) return sought;
  }
  const tight = tightPath(pulleys, said);
  return tight?.windings === 1 && rightlySided(pulleys, tight) ? tight : pathAsSaid(pulleys, said);
}

/** The pulleys as a path walked this way round passes them. */
export function passedBy(pulleys: readonly Pulley[], round: Round): readonly Passed[] {
  const way = round === "anticlockwise" ? 1 : -1;
  return pulleys.map(({ centre, radius, side, against = false }) => ({
    centre,
    radius,
    sense: ((side === "inside") !== against ? way : -way) as 1 | -1,
  }));
}

function tightPath(pulleys: readonly Pulley[], round: Round): BeltPath | null {
  const passed = passedBy(pulleys, round);
  const tight = pullTight(passed);
  return tight && describe(pulleys, passed, tight, round);
}

/** Whether every pulley that is let go lies on the side of the belt that was said. */
function rightlySided(
  pulleys: readonly Pulley[],
  { spans, untouched }: Pick<BeltPath, "spans" | "untouched">,
) {
  const corners = spans.flatMap((span) => [span.start, span.end]);
  return untouched.every(({ pulley: index }) => {
    const pulley = pulleys[index] as Pulley;
    return within(pulley.centre, corners) === (pulley.side === "inside");
  });
}

/** The path pulley after pulley, whether each would be touched or not; null where two have no tangent. */
export function pathAsSaid(pulleys: readonly Pulley[], round: Round): BeltPath | null {
  const passed = passedBy(pulleys, round);
  const all = pulleys.map((_, index) => index);
  const path = pathRound(passed, all);
  return path && describe(pulleys, passed, path, round);
}

/**
 * The sound path that touches most pulleys, where there is one: every choice of pulleys is tried, at most 2¹² of them.
 * Pulling tight seldom misses it, but can come to rest on a belt that is wound up.
 */
function seek(pulleys: readonly Pulley[], round: Round): BeltPath | null {
  const passed = passedBy(pulleys, round);
  const between = tangentsBetween(passed);
  const way = round === "anticlockwise" ? 1 : -1;
  let best: BeltPath | null = null;
  let most = 1;
  for (let chosen = 1; chosen < 2 ** pulleys.length; chosen++) {
    const touched = pulleys.flatMap((_, index) => ((chosen >> index) & 1 ? [index] : []));
    if (touched.length <= most) continue;
    const path = pathRound(passed, touched, between);
    if (path === null || windingsOf(passed, path, way) !== 1) continue;
    const found = describe(pulleys, passed, path, round);
    if (found.sound) [best, most] = [found, touched.length];
  }
  return best;
}

/** How often a path goes round in all, counted the way it is walked. */
function windingsOf(passed: readonly Passed[], { touched, wraps }: Taut, way: 1 | -1): number {
  const turned = touched.reduce(
    (sum, index, place) => sum + (passed[index] as Passed).sense * (wraps[place] ?? 0),
    0,
  );
  return Math.round((way * turned) / (2 * Math.PI));
}

function describe(pulleys: readonly Pulley[], passed: readonly Passed[], taut: Taut, round: Round): BeltPath {
  const spans = spansOf(passed, taut);
  const wraps = pulleys.map((pulley, index) => wrapOf(pulley, passed[index] as Passed, taut, index));
  const untouched = untouchedOf(passed, taut, spans);
  const crossings = crossingsOf(spans);
  const cuts = cutsOf(pulleys, spans);
  const windings = windingsOf(passed, taut, round === "anticlockwise" ? 1 : -1);
  const sided = rightlySided(pulleys, { spans, untouched });
  return {
    round,
    otherWayThanSaid: false,
    wraps,
    spans,
    length:
      spans.reduce((sum, span) => sum + span.length, 0) + wraps.reduce((sum, wrap) => sum + wrap.arc, 0),
    untouched,
    crossings,
    cuts,
    windings,
    sound: pulleys.some(({ against }) => against)
      ? pulleys.length === 2 && cuts.length === 0
      : windings === 1 && crossings.length === 0 && cuts.length === 0 && sided,
  };
}

function spansOf(passed: readonly Passed[], { touched, tangents }: Taut): readonly Span[] {
  return tangents.map(({ start, end, length }, place) => {
    const from = touched[place] as number;
    const to = touched[(place + 1) % touched.length] as number;
    const outer = passed[from]?.sense === passed[to]?.sense;
    return { from, to, start, end, length, outer };
  });
}

function wrapOf(pulley: Pulley, { sense, centre }: Passed, taut: Taut, index: number): Wrap {
  const round: Round = sense === 1 ? "anticlockwise" : "clockwise";
  const place = taut.touched.indexOf(index);
  const into = taut.tangents[(place + taut.tangents.length - 1) % taut.tangents.length];
  const out = taut.tangents[place];
  const teeth = pulley.side === "inside" ? pulley.teeth : null;
  if (!into || !out)
    return {
      touched: false,
      round,
      angle: 0,
      from: 0,
      to: 0,
      arc: 0,
      teethInMesh: teeth === null ? null : 0,
    };
  const angle = taut.wraps[place] ?? 0;
  const share = angle / (2 * Math.PI);
  return {
    touched: true,
    round,
    angle,
    from: angleOf(minus(into.end, centre)),
    to: angleOf(minus(out.start, centre)),
    arc: pulley.around === undefined ? pulley.radius * angle : pulley.around * share,
    teethInMesh: teeth === null ? null : teeth * share,
  };
}

const angleOf = ({ x, y }: Point): number => Math.atan2(y, x);

/** How far each pulley that is let go stands off the nearest span. */
function untouchedOf(passed: readonly Passed[], { touched }: Taut, spans: readonly Span[]) {
  return passed.flatMap(({ centre, radius }, pulley) => {
    if (touched.includes(pulley)) return [];
    const nearest = Math.min(...spans.map((span) => distanceToSegment(centre, span)));
    return [{ pulley, gap: Math.max(0, nearest - radius) }];
  });
}

function crossingsOf(spans: readonly Span[]): readonly (readonly [number, number])[] {
  const pairs = spans.flatMap((a, i) =>
    spans.slice(i + 1).flatMap((b, after) => (crossing(a, b) ? [[i, i + 1 + after] as const] : [])),
  );
  const beside = ([a, b]: readonly [number, number]) => b - a === 1 || b - a === spans.length - 1;
  return [...pairs.filter((pair) => !beside(pair)), ...pairs.filter(beside)];
}

/** A span may graze a pulley by this share of its radius: rounding. */
const GRAZE = 1e-6;

function cutsOf(pulleys: readonly Pulley[], spans: readonly Span[]) {
  return spans.flatMap((span, index) =>
    pulleys.flatMap(({ centre, radius }, pulley) => {
      if (pulley === span.from || pulley === span.to) return [];
      return distanceToSegment(centre, span) < radius * (1 - GRAZE) ? [{ span: index, pulley }] : [];
    }),
  );
}
