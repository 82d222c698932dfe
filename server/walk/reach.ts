/**
 * Where no way leads: blocks that are never entered, conditions on checks that were never made, jumps into the middle
 * of a block, and whether the end of the job can be come to at all. It rests on what parts the ways alone.
 */
import type { Block } from "./build";
import { changeBetween, pointAfter } from "./change";
import type { Control } from "./control";
import { follow, markKey } from "./follow";
import type { Graph } from "./graph";
import type { Point, TestPoint } from "./points";
import type { Placed, Segment } from "./segments";
import { sliceOf } from "./slice";
import { behindLeads } from "./stranded";

export interface Reach {
  /** What is never come to: sections, steps and checks, and the bodies of conditions and outcomes; the outermost only. */
  readonly unreached: readonly Block[];
  /** Tests on a check that has not been made on any way that comes there. */
  readonly unasked: readonly number[];
  /** Jumps and returns that lead into a block they do not stand in. */
  readonly inward: readonly number[];
  /** Lines behind one that always leads away, as points. */
  readonly stranded: readonly number[];
  /** Whether some way comes to the end of the job. */
  readonly ends: boolean;
}

/** Where no way leads, with what is kept of it for the same procedure after an edit. */
export interface Reached {
  readonly graph: Graph;
  readonly reach: Reach;
  /** The blocks of each segment, by their index in it, that are never come to; the outermost only. */
  readonly never: ReadonlyMap<Segment, readonly number[]>;
}

/** Looks where no way leads. Where an edit left the ways as they were, only what it put in is looked at again. */
export function reachedIn(control: Control, before: Reached | null): Reached {
  const { graph } = control;
  const { points } = graph;
  const change = before && changeBetween(before.graph, graph);
  const taken = change ? before : null;
  const unasked =
    change && taken ? taken.reach.unasked.map((at) => pointAfter(change, at)) : unaskedIn(control);
  const never = new Map<Segment, readonly number[]>();
  const replaced = new Set(change?.now.map(({ segment }) => segment));
  const unreached: Block[] = [];
  for (const one of graph.segments) {
    const { segment, blocks } = one;
    const known = replaced.has(segment) ? undefined : taken?.never.get(segment);
    const found = known ?? neverIn(control, one);
    never.set(segment, found);
    unreached.push(...found.map((index) => blocks[index] as Block));
  }
  const reach = {
    unreached: unreached.filter((block) => {
      const test = testBefore(points, block.start);
      // A condition that cannot hold at all is another matter than one that is settled before.
      return !unasked.includes(test) && (points[test] as TestPoint | undefined)?.mask !== 0n;
    }),
    unasked,
    inward: graph.controls.filter((at) => leadsInward(points, at)),
    stranded: behindLeads(graph).filter((at) => !isReached(control, at)),
    ends: taken ? taken.reach.ends : isReached(control, points.length - 1),
  };
  return { graph, reach, never };
}

function neverIn(control: Control, { blocks }: Placed): readonly number[] {
  const found: number[] = [];
  let past = -1;
  blocks.forEach((block, index) => {
    if (block.start < past || !BEGINS.has(block.construct) || block.end <= block.start) return;
    if (isReached(control, block.start)) return;
    found.push(index);
    past = block.end;
  });
  return found;
}

/** Blocks that can be passed by for good. */
const BEGINS: ReadonlySet<string> = new Set(["section", "step", "check", "when", "otherwise", "if"]);

/** The test whose body begins at a point; -1 where none does. */
function testBefore(points: Graph["points"], at: number): number {
  return points[at - 1]?.kind === "test" && points[at]?.parent === at - 1 ? at - 1 : -1;
}

/** Whether some way comes to a point. */
export function isReached(control: Control, at: number): boolean {
  if (control.reachable[at] === 0) return false;
  const slice = sliceOf(control, [at]);
  if (slice.straight) return true;
  const starts = [{ state: 0, where: null }];
  const { faults, cutShort } = follow(slice, {
    starts,
    points: [at],
    step: (state, _point, report) => {
      report(0);
      return state;
    },
  });
  return faults.length > 0 || cutShort;
}

/** Conditions that ask how a check turned out which no way has made before. */
function unaskedIn(control: Control): readonly number[] {
  const { graph, asks } = control;
  return graph.controls.filter((at) => {
    const point = graph.points[at] as Point;
    if (point.kind !== "test" || point.spot.entry.construct !== "when") return false;
    if (graph.variables.all[point.variable]?.once !== false || control.reachable[at] === 0) return false;
    const asked = asks.get(point.variable) ?? [];
    if (asked.length === 0) return true;
    const own = new Set(asked);
    const slice = sliceOf(control, [...asked, at]);
    const followed = follow(slice, {
      starts: [{ state: 0, where: null }],
      points: [...asked, at],
      step: (state, p, report) => {
        if (own.has(p)) return 1;
        if (state === 0) report(0);
        return state;
      },
    });
    const bare = followed.marked.get(markKey(at, 0)) ?? 0;
    return !followed.cutShort && bare > 0 && bare === followed.visits.get(at);
  });
}

/** Whether a jump leads into the body of a test that it does not stand in itself. */
function leadsInward(points: readonly Point[], at: number): boolean {
  const jump = points[at] as Point;
  if (jump.kind !== "go-to" && jump.kind !== "return") return false;
  const around = points[jump.to]?.parent ?? -1;
  if (around < 0) return false;
  for (let test = jump.parent; test >= 0; test = (points[test] as TestPoint).parent)
    if (test === around) return false;
  return true;
}
