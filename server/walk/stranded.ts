/**
 * Lines that stand after one that leads away: what comes after “end job”, “go to”, “go on” or a return in the same body.
 * Whether a way comes there all the same, as where a second return waits for the first to be used up, is looked at then.
 */
import type { Graph } from "./graph";
import type { Point } from "./points";
import { keptBySegment, type Segment } from "./segments";

/** Lines that lead away from what stands behind them. */
export const LEADS_AWAY: ReadonlySet<string> = new Set([
  "go-on",
  "go-to",
  "repeat",
  "check-again",
  "end-job",
]);

/** The first points behind lines that lead away, in the order of the text. */
export function behindLeads({ segments }: Graph): readonly number[] {
  return segments.flatMap(({ segment, at }) => behindIn(segment, null).map((local) => at.points + local));
}

const behindIn = keptBySegment(({ points }: Segment, _: null): readonly number[] =>
  points.flatMap((point, at) => {
    const before = points[at - 1];
    return before && leads(before) && isLine(point) && isBeside(before, point) ? [at] : [];
  }),
);

const leads = ({ spot }: Point): boolean => LEADS_AWAY.has(spot.entry.construct);

/** Whether a point is a line of its own, not one that the end of a block puts down. */
const isLine = (point: Point): boolean =>
  point.kind !== "done" && point.kind !== "end" && (point.kind !== "jump" || leads(point));

const isBeside = (a: Point, b: Point): boolean =>
  a.block === b.block && a.parent === b.parent && a.spot.line !== b.spot.line;
