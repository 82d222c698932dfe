/**
 * Where a missing line can be worked: before the first later line that puts back what stands in front, else at the end
 * of the last step before the machine is started; what was done under a condition is put right under it.
 */
import { constructs } from "../../grammar";
import type { Place, Thing } from "../model";
import { actRow, type Point, type Walk } from "../walk";
import type { Change, Fix, Message } from "./types";
import { above, indentOf } from "./walked";

/** Lines that lead away: what is added goes before them. */
const LEADS_AWAY: ReadonlySet<string> = new Set(["go-on", "go-to", "repeat", "check-again", "end-job"]);

/** Where lines can be put, with the indentation they have there. */
export interface Workable {
  readonly place: Place;
  readonly indent: string;
}

/**
 * A place after a point at which a thing can be worked on by an act; null where none is known.
 *
 * @param since the point that brought the state about; -1 where it was so from the start
 */
export function workablePlace(walk: Walk, thing: Thing, verb: string, since: number): Workable | null {
  const { points } = walk.graph;
  const parent = points[since]?.parent ?? -1;
  if (points[since]?.spot.through) return null;
  const front = firstInFront(walk, thing, verb, since);
  if (front >= 0 && points[front]?.parent === parent) return beforeLine(points[front] as Point);
  if (parent >= 0) return endOfBody(walk, since);
  return endOfStep(walk, since);
}

/** A fix that adds lines at a workable place; none where there is no such place. */
export function addedLines(
  workable: Workable | null,
  title: Message,
  lines: readonly string[],
): Fix<Place>[] {
  if (!workable || lines.length === 0) return [];
  const { place, indent } = workable;
  const text = lines.map((line) => `${indent}${line}\n`).join("");
  return [{ title, safe: false, changes: [{ place, text }] }];
}

/** A fix that adds lines right above a point. */
export function addedAbove(point: Point, title: Message, lines: readonly string[]): Fix<Place>[] {
  return addedLines(beforeLine(point), title, lines);
}

/** A fix that adds a clause at the end of an act's own line, or as a line of its block. */
export function addedClause(point: Point, title: Message, clause: string): Fix<Place>[] {
  const { entry, file, line, through } = point.spot;
  const head = entry.line;
  if (through || !head) return [];
  if (entry.hasBlock) {
    const place: Place = { file, line: line + entry.lineCount - 1, start: 0, end: 0 };
    const changes: Change<Place>[] = [{ place, text: `${indentOf(entry)}  ${clause}\n` }];
    return [{ title, safe: false, changes }];
  }
  const end = (head.comment ? head.text.slice(0, head.comment.start) : head.text).trimEnd().length;
  return [{ title, safe: false, changes: [{ place: { file, line, start: end, end }, text: `  ${clause}` }] }];
}

function beforeLine(point: Point): Workable | null {
  const place = above(point);
  return place ? { place, indent: indentOf(point.spot.entry) } : null;
}

/** The first later act that puts back what must be off for this one; -1 where none does. */
function firstInFront({ graph, relations }: Walk, thing: Thing, verb: string, since: number): number {
  const fronts = new Set(relations.fronts(thing, verb));
  return graph.points.findIndex(
    (p, at) =>
      at > since &&
      p.kind === "act" &&
      !p.spot.through &&
      p.thing !== null &&
      fronts.has(p.thing) &&
      (actRow(p.verb).ends === "off" || actRow(p.verb).ends === "disconnected"),
  );
}

/** The end of the body that a point stands in, before what leads away from it. */
function endOfBody({ graph }: Walk, since: number): Workable | null {
  const { points, blocks } = graph;
  const { block, spot } = points[since] as Point;
  const body = blocks[block];
  if (!body || body.spot.through) return null;
  const rows = body.spot.entry.children;
  const leads = rows.find((c) => LEADS_AWAY.has(c.entry.construct));
  const like = rows[0]?.entry ?? spot.entry;
  const { file, line, entry } = body.spot;
  if (!entry.hasBlock) return null;
  const at = leads ? line + leads.row : line + entry.lineCount - 1;
  return { place: { file, line: at, start: 0, end: 0 }, indent: indentOf(like) };
}

/** The end of the last step before the machine is started after a point; of the last of all where it is not. */
function endOfStep({ graph }: Walk, since: number): Workable | null {
  const { points, blocks, procedure } = graph;
  const start = points.findIndex((p, at) => at > since && p.kind === "act" && actRow(p.verb).whole);
  const limit = start < 0 ? points.length : start;
  const around = (block: number, construct: string): number => {
    let b = block;
    while (b >= 0 && blocks[b]?.construct !== construct) b = blocks[b]?.parent ?? -1;
    return b;
  };
  const own = around(points[since]?.block ?? -1, "step");
  const each = around(points[since]?.block ?? -1, "for");
  const step = blocks.findLast((b, i) => {
    const { entry, file, through } = b.spot;
    const isOwn = i === own;
    if (b.construct !== "step" || through || file !== procedure.thing.file || !entry.hasBlock) return false;
    // What is done for each of a set is put right for each.
    if (each >= 0 && around(i, "for") !== each) return false;
    const isPlain = (points[b.start]?.parent ?? -1) < 0 || b.start === b.end;
    return isOwn || (b.start > since && b.end <= limit && isPlain && !isUnderCondition(blocks, i));
  });
  if (!step) return null;
  const { entry, file, line } = step.spot;
  const leads = entry.children.find((c) => LEADS_AWAY.has(c.entry.construct));
  const at = leads ? line + leads.row : line + entry.lineCount - 1;
  const act = entry.children.find((c) => constructs.get(c.entry.construct)?.act)?.entry;
  return {
    place: { file, line: at, start: 0, end: 0 },
    indent: act ? indentOf(act) : `${indentOf(entry)}  `,
  };
}

const CONDITIONS: ReadonlySet<string> = new Set(["when", "otherwise", "if"]);

function isUnderCondition(blocks: Walk["graph"]["blocks"], block: number): boolean {
  for (let b = block; b >= 0; b = blocks[b]?.parent ?? -1)
    if (CONDITIONS.has(blocks[b]?.construct ?? "")) return true;
  return false;
}
