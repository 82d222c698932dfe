/**
 * What the lines of a procedure ask of acts that are added to it: which of them must come before a line, and which lines
 * before them.
 */
import { checkOf } from "../facts";
import type { Thing } from "../model";
import type { RightingAct } from "../rules/righting";
import { isInFront, mustPrecede, precedes } from "../rules/righting-order";
import { type ActPoint, actRow, type Point, type Walk } from "../walk";

/** Whether an act of the text decides how what another puts right stands. */
export function isSettledBy(point: Point | undefined, { verb, thing }: RightingAct): boolean {
  if (point?.kind !== "act" || point.thing !== thing) return false;
  if (thing.kind === "fastener") return actRow(point.verb).fastener !== undefined;
  const { makes, ends } = actRow(point.verb);
  const own = actRow(verb).ends;
  return own !== undefined && (makes === own || ends === own);
}

/** Whether a later line asks that an act was done: because it cannot be done but after it, or only by custom. */
export function asksFor(
  walk: Walk,
  point: Point | undefined,
  at: number,
  act: RightingAct,
): "it must" | "by custom" | null {
  if (point?.kind === "ask") {
    const proved = checkOf(point.spot.entry).proves.map(({ name }) => name);
    const held = walk.relations.secured(act.thing);
    return [act.thing, ...held].some(({ name }) => proved.includes(name)) ? "it must" : null;
  }
  if (point?.kind !== "act" || !point.thing || point.thing === act.thing) return null;
  const { whole, reach } = actRow(point.verb);
  if (whole && point.thing.kind === "machine") return isLeftOff(walk, point, act.thing) ? null : "it must";
  if (act.verb === "stop") return reach ? "it must" : null;
  // A spring is let down on purpose while its belt is off.
  if (point.verb === "pull" && act.thing.kind === "belt") return null;
  const there = actAt(walk, point, at);
  if (isPutAway(walk, there, at) || isBeforeEnding(walk, point)) return null;
  return mustPrecede(walk, act, there) ? "it must" : precedes(walk, act, there) ? "by custom" : null;
}

/** Whether what held a part is let go of after the part came off: it holds nothing then, and waits for nothing. */
function isPutAway({ graph }: Walk, { thing, verb, since }: RightingAct, at: number): boolean {
  if (actRow(verb).ends !== "supported") return false;
  return graph.points.some(
    (p, i) => i > since && i < at && p.kind === "act" && p.thing === thing && actRow(p.verb).makes === "off",
  );
}

/** Whether a line that ends something stands in an outcome that ends the job: those ways never come to what is owed. */
function isBeforeEnding({ graph }: Walk, { verb, block, parent }: ActPoint): boolean {
  if (parent < 0 || actRow(verb).ends === undefined) return false;
  return graph.unfinished.some((end) => graph.points[end]?.block === block);
}

/** Whether a start leaves a thing off on purpose. */
function isLeftOff({ relations }: Walk, { act }: ActPoint, thing: Thing): boolean {
  const without = new Set(act.without.map(({ name }) => name));
  if (without.has(thing.name)) return true;
  const held = thing.kind === "fastener" ? relations.secured(thing) : [];
  return held.length > 0 && held.every(({ name }) => without.has(name));
}

/** Whether what stands there must come before an act that is added: it puts something back, or must be reached. */
export function comesBefore(walk: Walk, point: Point | undefined, at: number, act: RightingAct): boolean {
  if (point?.kind === "ask") return marksBehind(walk, point).some((front) => front === act.thing);
  if (point?.kind !== "act" || !point.thing || point.verb === "stop") return false;
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
