/**
 * What an edit changed in a graph: which segments it put in the place of which, as long as the ways part as before.
 * What is known of all else can then be taken over, its points shifted.
 */
import { lowerBound } from "./control";
import type { Graph } from "./graph";
import type { Placed } from "./segments";

/** The segments that an edit put in the place of others, where those part the ways alike. */
export interface Change {
  readonly before: Graph;
  readonly after: Graph;
  readonly old: readonly Placed[];
  readonly now: readonly Placed[];
  /** The segment that stands for the one at an index of the old ones; undefined where that was replaced. */
  readonly keptAs: (index: number) => Placed | undefined;
}

/** What an edit changed; null where it may have changed the ways themselves. */
export function changeBetween(before: Graph, after: Graph): Change | null {
  if (before.variables !== after.variables || before.controls.length !== after.controls.length) return null;
  const [a, b] = [before.segments, after.segments];
  if (a.length === b.length) {
    const replaced = a.flatMap(({ segment }, i) => (segment === b[i]?.segment ? [] : [i]));
    if (!replaced.every((i) => a[i]?.segment.skeleton === b[i]?.segment.skeleton)) return null;
    const gone = new Set(replaced);
    return {
      before,
      after,
      old: replaced.map((i) => a[i] as Placed),
      now: replaced.map((i) => b[i] as Placed),
      keptAs: (index) => (gone.has(index) ? undefined : b[index]),
    };
  }
  return changeOfCount(before, after);
}

/** Segments were added or taken away: those in front of the first and behind the last that differ are kept. */
function changeOfCount(before: Graph, after: Graph): Change | null {
  const [a, b] = [before.segments, after.segments];
  let first = 0;
  while (first < Math.min(a.length, b.length) && a[first]?.segment === b[first]?.segment) first++;
  let behind = 0;
  while (
    behind < Math.min(a.length, b.length) - first &&
    a[a.length - 1 - behind]?.segment === b[b.length - 1 - behind]?.segment
  )
    behind++;
  const old = a.slice(first, a.length - behind);
  const now = b.slice(first, b.length - behind);
  const skeleton = (segments: readonly Placed[]): string =>
    segments.flatMap(({ segment }) => segment.skeleton || []).join("\n");
  if (skeleton(old) !== skeleton(now)) return null;
  return {
    before,
    after,
    old,
    now,
    keptAs: (index) => {
      if (index < first) return b[index];
      return index < a.length - behind ? undefined : b[index + b.length - a.length];
    },
  };
}

/** Where a point that still stands, or its twin among the deciding points, is now. */
export function pointAfter({ before, after, keptAs }: Change, point: number): number {
  if (point < 0) return point;
  const { segments, controls } = before;
  const index = lowerBound(startsOf(before), point + 1) - 1;
  const kept = point === before.points.length - 1 ? undefined : keptAs(index);
  if (kept) return point - (segments[index] as Placed).at.points + kept.at.points;
  return after.controls[lowerBound(controls, point)] as number;
}

const kept = new WeakMap<Graph, readonly number[]>();

/** The first point of each segment. */
function startsOf(graph: Graph): readonly number[] {
  const known = kept.get(graph);
  if (known) return known;
  const starts = graph.segments.map(({ at }) => at.points);
  kept.set(graph, starts);
  return starts;
}
