/**
 * Where the acts of a refit go: as late as may be, but before what asks that they are done (a start, what stands in
 * front, a proof, a supply), and in a text of steps at the widest break that there is.
 */
import type { Child, Entry } from "../facts";
import { checkOf } from "../facts";
import type { Thing } from "../model";
import type { RightingAct } from "../rules/righting";
import { isInFront, precedes } from "../rules/righting-order";
import { type ActPoint, actRow, type Point, type Walk } from "../walk";
import type { RefitDue } from "./refit-dues";

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

/** One act of a due thing, on its way to a place. */
export interface Placeable {
  readonly due: RefitDue;
  /** The act as it is on one of the ways. */
  readonly act: RightingAct;
  readonly key: string;
  readonly place: RefitPlace;
}

interface Bounded extends Placeable {
  /** It cannot come before or at this point. */
  readonly after: number;
  /** It must come before this point; the end of its block where nothing asks for it. */
  readonly before: number;
  readonly asked: boolean;
  readonly frame: number;
}

/** By what the acts of one thing on several ways are one act. */
export const actKey = ({ verb, onWheels }: RightingAct): string => `${verb}${onWheels ? " on wheels" : ""}`;

/** What else may lead away from a body: what is added goes before it. */
const LEADS_AWAY: ReadonlySet<string> = new Set(["go-on", "go-to", "repeat", "check-again", "end-job"]);
const OPEN: ReadonlySet<string> = new Set(["procedure", "section", "step", "for"]);
const GUARDS: ReadonlySet<string> = new Set(["when", "otherwise", "if"]);

/**
 * Places every act of what is due. `inBodies` are the things that go back in the body of the condition or outcome in
 * which they came off.
 */
export function placedActs(
  walk: Walk,
  dues: readonly RefitDue[],
  inBodies: ReadonlySet<RefitDue>,
): readonly Placeable[] {
  let all = dues.flatMap((due) => placeables(walk, due, inBodies.has(due)));
  // One that must come first moves up with the other; each moves at most once past each.
  for (let round = 0; round < all.length; round++) {
    const moved = all.map((one) => movedFor(walk, one, all));
    if (moved.every((one, i) => one === all[i])) break;
    all = moved;
  }
  return all;
}

function placeables(walk: Walk, due: RefitDue, inBody: boolean): readonly Bounded[] {
  const owed = due.stands.filter((stand) => due.actsFor(stand).length > 0);
  const frames = inBody
    ? [...new Set(owed.map(({ since }) => bodyOf(walk, since)))]
    : [
        sharedFrame(
          walk,
          owed.map(({ since }) => since),
        ),
      ];
  return frames.flatMap((frame) => {
    const here = inBody ? owed.filter(({ since }) => bodyOf(walk, since) === frame) : owed;
    const acts = new Map<string, RightingAct>();
    for (const stand of here)
      for (const act of due.actsFor(stand)) if (!acts.has(actKey(act))) acts.set(actKey(act), act);
    return [...acts].map(([key, act]) => bounded(walk, due, act, key, frame));
  });
}

function bounded(walk: Walk, due: RefitDue, act: RightingAct, key: string, frame: number): Bounded {
  const { points, blocks } = walk.graph;
  const end = Math.min(due.at, blocks[frame]?.end ?? due.at, points.length - 1);
  let after = act.since;
  for (let at = Math.max(0, act.since + 1); at < end; at++)
    if (isOn(points[at], due.thing) || comesBefore(walk, points[at], at, act)) after = at;
  for (let before = after + 1; before <= end; before++) {
    const isLast = before === end;
    if (isLast ? due.at === points.length - 1 : !asksFor(walk, points[before], before, act)) continue;
    const one = { due, act, key, after, before, asked: true, frame };
    const place = placeFor(walk, one);
    // A body that must not be come behind in is passed by: what is done in it goes on otherwise.
    if (place.point > after || isLast) return { ...one, place };
  }
  const one = { due, act, key, after, before: end, asked: false, frame };
  return { ...one, place: placeFor(walk, one) };
}

const isOn = (point: Point | undefined, thing: Thing): boolean =>
  point?.kind === "act" && point.thing === thing;

/** Moves an act so that it is not behind what must come after it, nor before what must come first. */
function movedFor(walk: Walk, one: Bounded, all: readonly Bounded[]): Bounded {
  for (const other of all) {
    if (other === one) continue;
    const { point, guarded } = other.place;
    // What goes back in a body is no concern of what goes back on every way, but for what must be reached.
    if (guarded !== one.place.guarded && !isInFront(walk, one.act, other.act)) continue;
    if (point < one.place.point && precedes(walk, one.act, other.act) && other.before > one.after) {
      const sooner = { ...one, before: Math.min(one.before, other.before), asked: true };
      const place = placeFor(walk, sooner);
      return { ...sooner, place: place.point <= point ? place : other.place };
    }
    if (point > one.place.point && !one.asked && precedes(walk, other.act, one.act))
      return { ...one, before: other.before, asked: other.asked, place: other.place };
  }
  return one;
}

/** Whether a later line asks that an act was done. */
function asksFor(walk: Walk, point: Point | undefined, at: number, act: RightingAct): boolean {
  if (point?.kind === "ask") {
    const proved = checkOf(point.spot.entry).proves.map(({ name }) => name);
    const held = walk.relations.secured(act.thing);
    return [act.thing, ...held].some(({ name }) => proved.includes(name));
  }
  if (point?.kind !== "act" || !point.thing || point.thing === act.thing) return false;
  if (actRow(point.verb).whole && point.thing.kind === "machine") return !isLeftOff(walk, point, act.thing);
  if (act.verb === "stop") return actRow(point.verb).reach === true;
  // A spring is let down on purpose while its belt is off.
  if (point.verb === "pull" && act.thing.kind === "belt") return false;
  return precedes(walk, act, actAt(walk, point, at));
}

/** Whether a start leaves a thing off on purpose. */
function isLeftOff({ relations }: Walk, { act }: ActPoint, thing: Thing): boolean {
  const without = new Set(act.without.map(({ name }) => name));
  if (without.has(thing.name)) return true;
  const held = thing.kind === "fastener" ? relations.secured(thing) : [];
  return held.length > 0 && held.every(({ name }) => without.has(name));
}

/** Whether what stands there must come before an act that is added: it puts something back, or must be reached. */
function comesBefore(walk: Walk, point: Point | undefined, at: number, act: RightingAct): boolean {
  if (point?.kind === "ask") return marksBehind(walk, point).some((front) => front === act.thing);
  if (point?.kind !== "act" || !point.thing) return false;
  const { ends, fastener } = actRow(point.verb);
  const puts = ends !== undefined || fastener === "placed" || fastener === "tightened";
  const there = actAt(walk, point, at);
  return isInFront(walk, there, act) || (puts && precedes(walk, there, act));
}

/** What stands in front of the marks that a check looks at. */
function marksBehind({ relations }: Walk, { spot }: Point): readonly Thing[] {
  return checkOf(spot.entry).marks.flatMap((name) => {
    const mark = relations.byName(name, ["mark"]);
    return mark ? relations.fronts(mark, "align") : [];
  });
}

/** An act of the text as one that puts right: what lets go has been so since what held. */
function actAt({ graph }: Walk, { verb, thing }: ActPoint, at: number): RightingAct {
  const { ends } = actRow(verb);
  const holds = (p: Point): boolean => p.kind === "act" && p.thing === thing && actRow(p.verb).makes === ends;
  const held = ends === "raised" || ends === "supported";
  const since = held ? graph.points.findLastIndex((p, i) => i < at && holds(p)) : at;
  return { verb, thing: thing as Thing, since, lines: [], onWheels: false };
}

function placeFor(walk: Walk, { before, asked, after, frame }: Omit<Bounded, "place">): RefitPlace {
  const { points, blocks } = walk.graph;
  const isInside = before < (blocks[frame]?.end ?? 0) && points[before]?.spot !== undefined;
  return asked && isInside ? placeBefore(walk, before, after, frame) : endOf(walk, frame);
}

/** The widest break in front of a point, behind another, in a block or what stands plainly in it. */
function placeBefore(walk: Walk, before: number, after: number, frame: number): RefitPlace {
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
function endOf(walk: Walk, frame: number): RefitPlace {
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

/** The condition or outcome in whose body a point stands; the procedure where it stands in none. */
export function bodyOf({ graph }: Walk, at: number): number {
  const { points, blocks } = graph;
  for (let b = points[at]?.block ?? 0; b > 0; b = blocks[b]?.parent ?? 0) {
    const block = blocks[b];
    if (block && GUARDS.has(block.construct) && !block.spot.through) return b;
  }
  return 0;
}

/** The innermost repetition over a set that all of some points stand in, no condition between; else the procedure. */
function sharedFrame({ graph }: Walk, sinces: readonly number[]): number {
  const { points, blocks } = graph;
  const framesOf = (at: number): readonly number[] => {
    const frames: number[] = [];
    for (let b = points[at]?.block ?? 0; b > 0; b = blocks[b]?.parent ?? 0) {
      const block = blocks[b] as (typeof blocks)[number];
      if (GUARDS.has(block.construct) || block.spot.through) frames.length = 0;
      else if (block.construct === "for") frames.push(b);
    }
    return frames;
  };
  const [first = [], ...others] = sinces.map(framesOf);
  return first.find((frame) => others.every((frames) => frames.includes(frame))) ?? 0;
}
