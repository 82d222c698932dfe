/**
 * Where a missing line can be worked: before the first later line that asks for it (`asked-for.ts`), in the step of that
 * line or at the end of the one before; right behind a sealant; where nothing asks, at the end of the last step. What came
 * off under a condition goes back under it.
 */
import { constructs } from "../../grammar";
import type { Place, Thing } from "../model";
import { LEADS_AWAY, type Point, type Walk } from "../walk";
import { firstAsking, openedJoint } from "./asked-for";
import type { Change, Fix, Message } from "./types";
import { above, below, indentOf } from "./walked";

/** Where lines can be put, with the indentation they have there. */
export interface Workable {
  readonly place: Place;
  readonly indent: string;
  /** The condition under which the lines are put there, as its head is written; the text itself has none there. */
  readonly under?: string;
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
  const asking = firstAsking(walk, thing, verb, since);
  const until = asking ? levelWith(walk, asking.at, parent) : -1;
  const limit = until < 0 ? points.length : until;
  const joint = verb === "fit" ? openedJoint(walk, thing, since, limit) : -1;
  if (joint >= 0 && isUnder(walk, joint, parent)) return afterLine(points[joint] as Point);
  const point = points[until];
  if (asking && point) {
    const isSame = until === asking.at && (asking.together || isWithinStep(walk, until));
    if (isSame || (parent >= 0 && point.kind !== "ask" && !isOutcome(point))) return beforeLine(point);
    return endOfStep(walk, since, limit) ?? beforeLine(points[headOf(walk, until)] as Point);
  }
  if (parent < 0) return endOfStep(walk, since, limit);
  return underCondition(walk, thing, verb, since) ?? endOfBody(walk, since);
}

/** Where it would be put right if it came about under no condition, under the condition it came about under. */
function underCondition(walk: Walk, thing: Thing, verb: string, since: number): Workable | null {
  const { points, variables } = walk.graph;
  const test = points[points[since]?.parent ?? -1];
  if (test?.kind !== "test" || test.parent >= 0 || test.spot.entry.construct !== "when") return null;
  // What stands under “otherwise” has no condition that can be written.
  if (guardAround(walk.graph.blocks, points[since]?.block ?? -1) !== "when") return null;
  if (variables.all[test.variable]?.once !== true) return null;
  const asking = firstAsking(walk, thing, verb, since);
  const until = asking ? levelWith(walk, asking.at, -1) : points.length;
  const point = points[until];
  const isWithin = point !== undefined && until === asking?.at && isWithinStep(walk, until);
  const place = isWithin ? beforeLine(point) : endOfStep(walk, since, until);
  return place && { ...place, under: (test.spot.entry.line?.text ?? "").trim() };
}

/** Whether a point stands in a step behind other lines of it. */
function isWithinStep({ graph }: Walk, at: number): boolean {
  const block = graph.blocks[graph.points[at]?.block ?? -1];
  return block?.construct === "step" && block.start < at;
}

/** The point itself, or the test around it that stands under the same condition as `parent`; -1 where it stands elsewhere. */
function levelWith({ graph }: Walk, at: number, parent: number): number {
  for (let p = at; p >= 0; p = graph.points[p]?.parent ?? -1)
    if (isAlikeTest(graph, graph.points[p]?.parent ?? -1, parent)) return p;
  return -1;
}

const isUnder = ({ graph }: Walk, at: number, parent: number): boolean =>
  isAlikeTest(graph, graph.points[at]?.parent ?? -1, parent);

/** Whether two tests are the same, or ask the same of a condition that is chosen once. */
function isAlikeTest(graph: Walk["graph"], a: number, b: number): boolean {
  if (a === b) return true;
  const [one, other] = [graph.points[a], graph.points[b]];
  if (one?.kind !== "test" || other?.kind !== "test") return false;
  const isOnce = graph.variables.all[one.variable]?.once === true;
  const isSame = isOnce && one.variable === other.variable && one.mask === other.mask;
  return isSame && isAlikeTest(graph, one.parent, other.parent);
}

/** Whether a point tests how a check turned out, as its outcomes do: nothing can be put between them. */
const isOutcome = ({ kind, spot }: Point): boolean => kind === "test" && spot.entry.construct !== "when";

/** The first point of the condition or check that a test belongs to; another point is its own. */
function headOf({ graph }: Walk, at: number): number {
  const point = graph.points[at] as Point;
  return isOutcome(point) ? (graph.regions[point.region]?.start ?? at) : at;
}

/** A fix that adds lines at a workable place; none where there is no such place. */
export function addedLines(
  workable: Workable | null,
  title: Message,
  lines: readonly string[],
): Fix<Place>[] {
  if (!workable || lines.length === 0) return [];
  const { place, indent, under } = workable;
  const all = under ? [under, ...lines.map((line) => `  ${line}`), "}"] : lines;
  const text = all.map((line) => `${indent}${line}\n`).join("");
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

function afterLine(point: Point): Workable | null {
  const place = below(point);
  return place ? { place, indent: indentOf(point.spot.entry) } : null;
}

function beforeLine(point: Point): Workable | null {
  const place = above(point);
  return place ? { place, indent: indentOf(point.spot.entry) } : null;
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

/** The end of the last step between a point and a limit. */
function endOfStep({ graph }: Walk, since: number, limit: number): Workable | null {
  const { points, blocks, procedure } = graph;
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
    return b.end <= limit && (isOwn || (b.start > since && isPlain && !isUnderCondition(blocks, i)));
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

const isUnderCondition = (blocks: Blocks, block: number): boolean => guardAround(blocks, block) !== "";

/** The innermost condition or outcome around a block, by its construct; empty where none is. */
function guardAround(blocks: Blocks, block: number): string {
  for (let b = block; b >= 0; b = blocks[b]?.parent ?? -1) {
    const construct = blocks[b]?.construct ?? "";
    if (CONDITIONS.has(construct)) return construct;
  }
  return "";
}

type Blocks = Walk["graph"]["blocks"];
