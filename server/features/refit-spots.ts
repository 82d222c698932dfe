/**
 * Breaks in the text of a procedure at which lines of a refit can be put: in front of a point, or at the end of a block.
 */
import type { Child, Entry } from "../facts";
import { actRow, LEADS_AWAY, type Walk } from "../walk";

/** A place for lines of a refit. */
export interface RefitPlace {
  readonly file: string;
  /** Lines go in front of this one. */
  readonly line: number;
  /** The point before which that is. */
  readonly point: number;
  /** The block of the graph that it is in. */
  readonly block: number;
  /** What stands there: whole sections, steps, or the lines of a step. */
  readonly holds: "sections" | "steps" | "lines";
  /** It is in the body of a condition or an outcome. */
  readonly guarded: boolean;
  /** The set for each member of which it is done, where it is. */
  readonly set: string | null;
}

const OPEN: ReadonlySet<string> = new Set(["procedure", "section", "step", "for"]);
/** Blocks that are entered under a condition. */
export const GUARDS: ReadonlySet<string> = new Set(["when", "otherwise", "if"]);

/** The widest break in front of a point, behind another, in a block or what stands plainly in it. */
export function placeBefore(walk: Walk, before: number, after: number, frame: number): RefitPlace {
  const { points, blocks } = walk.graph;
  const chain: number[] = [];
  for (let b = points[before]?.block ?? frame; b !== frame && b >= 0; b = blocks[b]?.parent ?? -1)
    chain.unshift(b);
  let inside = frame;
  let at = points[before]?.spot.line ?? 0;
  let point = before;
  for (const block of chain) {
    const { construct, spot } = blocks[block] as (typeof blocks)[number];
    if (!OPEN.has(construct) || spot.through) {
      ({ at, point } = headOf(walk, block));
      break;
    }
    inside = block;
  }
  if (inside === (points[before]?.block ?? frame)) at = points[before]?.spot.through?.line ?? at;
  while (inside !== frame) {
    const { start, spot, parent } = blocks[inside] as (typeof blocks)[number];
    if (start <= after || putsBack(walk, start, point)) break;
    at = spot.line;
    point = start;
    inside = parent;
  }
  return placeIn(walk, inside, at, point);
}

/** The line and the point in front of a condition, a check or what is followed: of an `otherwise`, its `when`. */
function headOf({ graph }: Walk, block: number): { readonly at: number; readonly point: number } {
  const { blocks } = graph;
  const own = blocks[block] as (typeof blocks)[number];
  const isOther = own.construct === "otherwise";
  const head = isOther
    ? (blocks.findLast((b, i) => i < block && b.parent === own.parent && b.construct === "when") ?? own)
    : own;
  const { construct, spot, start } = head;
  // The test stands in front of the body.
  return { at: spot.through?.line ?? spot.line, point: construct === "when" ? start - 1 : start };
}

/** Whether something is put back between two points: a section of such steps takes one more. */
function putsBack({ graph }: Walk, from: number, to: number): boolean {
  return graph.points.slice(from, to).some((p) => {
    if (p.kind !== "act") return false;
    const { ends, fastener } = actRow(p.verb);
    return ends === "off" || ends === "drained" || fastener === "placed" || fastener === "tightened";
  });
}

/** The end of a block, before what leads away from it; of a procedure whose last section puts back, the end of that. */
export function endOf(walk: Walk, frame: number): RefitPlace {
  const { blocks } = walk.graph;
  const block = blocks[frame] as (typeof blocks)[number];
  const { spot, end } = block;
  const last = blocks.findLastIndex((b) => b.parent === frame && !b.spot.through);
  const section = blocks[last];
  const isLast = section && section.end >= end - 1 && section.spot.entry.hasBlock;
  if (section?.construct === "section" && isLast && isPuttingBack(walk, last))
    return placeIn(walk, last, section.spot.line + section.spot.entry.lineCount - 1, section.end);
  const leads = spot.entry.children.find((child: Child) => LEADS_AWAY.has(child.entry.construct));
  const line = leads ? spot.line + leads.row : spot.line + spot.entry.lineCount - 1;
  const isWhole = block.construct === "procedure";
  return placeIn(walk, frame, line, isWhole ? end - 1 : end);
}

/** Whether a section puts back and takes nothing off, outcomes and conditions aside. */
function isPuttingBack(walk: Walk, section: number): boolean {
  const { start, end } = walk.graph.blocks[section] as Walk["graph"]["blocks"][number];
  const plain = walk.graph.points.slice(start, end).filter((p) => p.kind === "act" && p.parent < 0);
  const takesOff = plain.some((p) => p.kind === "act" && TAKES_OFF.has(actRow(p.verb).makes ?? ""));
  return !takesOff && putsBack(walk, start, end);
}
const TAKES_OFF: ReadonlySet<string> = new Set(["off", "disconnected", "drained"]);

function placeIn({ graph }: Walk, block: number, line: number, point: number): RefitPlace {
  const { blocks } = graph;
  const around: (typeof blocks)[number][] = [];
  for (let b = block; b >= 0; b = blocks[b]?.parent ?? -1) around.push(blocks[b] as (typeof blocks)[number]);
  const own = around[0] as (typeof blocks)[number];
  const set = around.find((b) => b.construct === "for");
  return {
    file: own.spot.file,
    line,
    point,
    block,
    holds: holdsOf(around.map((b) => b.spot.entry)),
    guarded: around.some((b) => GUARDS.has(b.construct)),
    set: set ? (set.spot.entry.form.slots.find((s) => s.role === "set")?.names[0]?.name ?? "") : null,
  };
}

/** What goes into a block: what it holds already, else what may stand in the blocks around it. */
function holdsOf(around: readonly Entry[]): RefitPlace["holds"] {
  const [own, ...outer] = around;
  const holds = (construct: string): boolean =>
    own?.children.some((c) => c.entry.construct === construct) ?? false;
  if (own?.construct === "procedure") return holds("section") || !holds("step") ? "sections" : "steps";
  if (own?.construct === "section") return "steps";
  if (own?.construct === "step" || own?.construct === "if" || own?.construct === "check") return "lines";
  if (outer.some(({ construct }) => construct === "step" || construct === "if")) return "lines";
  return holds("section") ? "sections" : "steps";
}
