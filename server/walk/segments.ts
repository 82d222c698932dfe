/**
 * A procedure's graph is made piece by piece: one segment for each line or block right under its head. A segment is
 * made once, with points counted from its own first, and kept while nothing in it, and nothing it names, has changed;
 * placing it only shifts its numbers.
 */
import type { Part, Thing } from "../model";
import type { Block, Region } from "./build";
import type { Point, Spot } from "./points";

/** A jump or return, and the step, check or section it leads to. */
export interface Pending {
  readonly point: number;
  readonly target: Thing | null;
}

/** What one part of a procedure gives, or a `when` with its `otherwise`, counted from zero. */
export interface Segment {
  readonly parts: readonly Part[];
  readonly points: readonly Point[];
  readonly blocks: readonly Block[];
  readonly regions: readonly Region[];
  /** How many returns each of its counters allows. */
  readonly bounds: readonly number[];
  /** First points of its steps, checks and sections, by the line of their head. */
  readonly starts: ReadonlyMap<number, number>;
  /** Jumps that lead to one of those, here or in another segment. */
  readonly pending: readonly Pending[];
  /** Its points that decide where the way goes on. */
  readonly controls: readonly number[];
  /** What those decide, as text: equal where two segments part the ways alike, however much is done between. */
  readonly skeleton: string;
  /** Whether some act in it supports a part. */
  readonly supports: boolean;
  /** Whether it may be kept: what a followed procedure names is not known to it. */
  readonly lasts: boolean;
}

/** How many points, blocks, regions and counters come before a segment, and the line that it begins on. */
export interface Bases {
  readonly line: number;
  readonly points: number;
  readonly blocks: number;
  readonly regions: number;
  readonly counters: number;
}

/** A segment where it stands in the whole. */
export interface Placed {
  readonly segment: Segment;
  readonly at: Bases;
  readonly points: readonly Point[];
  readonly blocks: readonly Block[];
  readonly regions: readonly Region[];
}

/** Makes what a segment says, held against something, be worked out once as long as both stay the same. */
export function keptBySegment<A, T>(
  work: (segment: Segment, against: A) => T,
): (segment: Segment, against: A) => T {
  const kept = new WeakMap<Segment, { readonly against: A; readonly made: T }>();
  return (segment, against) => {
    const known = kept.get(segment);
    if (known && known.against === against) return known.made;
    const made = work(segment, against);
    kept.set(segment, { against, made });
    return made;
  };
}

/** How many lines further down a segment stands than where it was made. */
export const movedDown = ({ parts }: Segment, { line }: Bases): number => line - (parts[0] as Part).line;

/**
 * Puts a segment in its place; the one before is kept where it stands there already. `current` says what a step or
 * check is now: it is another thing on another line.
 */
export function placed(
  segment: Segment,
  at: Bases,
  before: Placed | undefined,
  current: (target: Thing) => Thing,
): Placed {
  if (before && before.segment === segment && isSame(before.at, at)) return before;
  const down = movedDown(segment, at);
  const spotOf = spotsDown(down);
  const renamed = down === 0 ? (target: Thing): Thing => target : current;
  return {
    segment,
    at,
    points: segment.points.map((point) => shifted(point, at, spotOf(point.spot), renamed)),
    blocks: segment.blocks.map((block) => ({
      ...block,
      spot: spotOf(block.spot),
      start: block.start + at.points,
      end: block.end + at.points,
      parent: block.parent < 0 ? 0 : block.parent + at.blocks,
    })),
    regions: segment.regions.map((region) => ({
      start: region.start + at.points,
      end: region.end + at.points,
      parent: region.parent < 0 ? -1 : region.parent + at.regions,
      tests: region.tests.map((test) => test + at.points),
    })),
  };
}

const isSame = (a: Bases, b: Bases): boolean =>
  a.line === b.line &&
  a.points === b.points &&
  a.blocks === b.blocks &&
  a.regions === b.regions &&
  a.counters === b.counters;

/** Puts spots so many lines down; points of one line share theirs. */
function spotsDown(down: number): (spot: Spot) => Spot {
  if (down === 0) return (spot) => spot;
  let last: Spot | null = null;
  let moved: Spot | null = null;
  return (spot) => {
    if (moved && last && last.entry === spot.entry && last.line === spot.line) return moved;
    last = spot;
    const { entry, file, line, through } = spot;
    moved = { entry, file, line: line + down, through };
    return moved;
  };
}

/** A point in its place. Written out kind by kind: there are as many as the procedure has acts, at every edit. */
function shifted(point: Point, at: Bases, spot: Spot, current: (target: Thing) => Thing): Point {
  const parent = point.parent < 0 ? -1 : point.parent + at.points;
  const region = point.region < 0 ? -1 : point.region + at.regions;
  // What stands in no block of the segment stands in that of the procedure, the first.
  const block = point.block < 0 ? 0 : point.block + at.blocks;
  switch (point.kind) {
    case "act": {
      const { at: where, verb, act, thing, supplies } = point;
      return { kind: "act", spot, parent, region, block, at: where, verb, act, thing, supplies };
    }
    case "caution":
      return { kind: "caution", spot, parent, region, block, hazard: point.hazard };
    case "done":
      return { kind: "done", spot, parent, region, block, thing: current(point.thing) };
    case "test":
      return {
        ...point,
        spot,
        parent,
        region,
        block,
        elseAt: point.elseAt + at.points,
        counters: point.counters.map((counter) => counter + at.counters),
      };
    case "jump":
    case "go-to":
      return { kind: point.kind, spot, parent, region, block, to: point.to + at.points };
    case "return":
      return {
        ...point,
        spot,
        parent,
        region,
        block,
        to: point.to + at.points,
        counter: point.counter < 0 ? -1 : point.counter + at.counters,
      };
    default:
      return { ...point, spot, parent, region, block };
  }
}

/** Points that a way passes straight through. */
export const PASSED: ReadonlySet<Point["kind"]> = new Set(["act", "caution", "done", "words"]);

/** The points that decide where the way goes on. */
export function controlsOf(points: readonly Point[]): number[] {
  const controls: number[] = [];
  points.forEach((point, at) => {
    if (!PASSED.has(point.kind)) controls.push(at);
  });
  return controls;
}

/** What the deciding points of a segment say, without where exactly they stand, and where its named steps begin. */
export function skeletonOf(
  points: readonly Point[],
  controls: readonly number[],
  pending: readonly Pending[],
  bounds: readonly number[],
  named: ReadonlyMap<string, number>,
): string {
  const order = new Map(controls.map((at, i) => [at, i]));
  const targets = new Map(pending.map(({ point, target }) => [point, target?.id ?? ""]));
  // Where a way goes on, as the next deciding point from there.
  const nth = (at: number): number => {
    let next = at;
    while (next < points.length && !order.has(next)) next++;
    return order.get(next) ?? controls.length;
  };
  const said = controls.map((at) => {
    const point = points[at] as Point;
    const parent = point.parent < 0 ? -1 : order.get(point.parent);
    const row: (string | number | undefined)[] = [point.kind, parent, point.region];
    if (point.kind === "test") {
      const { variable, mask, counters, usedUp, passes, yes, no } = point;
      row.push(
        variable,
        String(mask),
        counters.join("+"),
        String(usedUp),
        String(passes),
        yes,
        no,
        nth(point.elseAt),
      );
    } else if (point.kind === "ask") row.push(point.variable);
    else if (point.kind === "return" || point.kind === "jump" || point.kind === "go-to") {
      row.push(targets.get(at) ?? nth(point.to));
      if (point.kind === "return") row.push(point.counter, bounds[point.counter] ?? -1);
    }
    return row.join("\t");
  });
  for (const [name, start] of named) said.push(`${name}\t${nth(start)}`);
  return said.join("\n");
}
