/**
 * From a line of a text to the point of the graph that it stands before.
 */
import type { Graph } from "./graph";

/**
 * The point before which a line of a text stands: of the head of a step or check its first point, within one the first
 * that is not above the line. -1 where the line is no part of the graph.
 *
 * @param through the line of the `follow` that leads to the text; null where it is the procedure's own
 */
export function pointBefore(graph: Graph, file: string, line: number, through: number | null = null): number {
  const { blocks, points } = graph;
  const block = blocks.findLast(
    ({ spot }) =>
      spot.file === file &&
      (spot.through?.line ?? null) === through &&
      spot.line <= line &&
      line < spot.line + spot.entry.lineCount,
  );
  if (!block) return -1;
  const lineOf = (at: number): number => {
    const spot = points[at]?.spot;
    if (!spot) return -1;
    return spot.file === file && (spot.through?.line ?? null) === through
      ? spot.line
      : (spot.through?.line ?? -1);
  };
  if (line <= block.spot.line) return block.start;
  for (let at = block.start; at < block.end; at++)
    if (lineOf(at) >= line && points[at]?.kind !== "done") return at;
  return Math.min(block.end, points.length - 1);
}
