/**
 * The first later line that asks that something missing was done before it: what goes on in front of a part or bolts it
 * down, lays on, measures or turns it, takes it off once more, or starts the machine.
 */
import { checkOf, partFacts } from "../facts";
import type { Thing } from "../model";
import { type ActPoint, actRow, type Point, type Walk } from "../walk";

/** What asks: a line that must come right after, or anything that only needs it to have been done. */
export interface Asking {
  readonly at: number;
  /** It puts something in front of the thing, or fastens it: the thing goes right before it. */
  readonly together: boolean;
}

/** The first later line that asks for an act on a thing; null where none does. */
export function firstAsking(walk: Walk, thing: Thing, verb: string, since: number): Asking | null {
  const { points } = walk.graph;
  // A belt or hose that is laid goes on where it is laid, whatever is turned before.
  const laid = points.findIndex(
    (p, at) => at > since && verb === "fit" && p.kind === "act" && p.thing === thing && LAID.has(p.verb),
  );
  if (laid >= 0 && !points[laid]?.spot.through) return { at: laid, together: true };
  const puts = puttingOn(walk, thing, verb);
  const asks = askedBy(walk, thing, verb, points[since]?.parent ?? -1);
  const from = beltOnAfter(walk, thing, since);
  for (let at = from + 1; at < points.length; at++) {
    const point = points[at] as Point;
    if (point.spot.through) continue;
    if (point.kind === "act" && point.thing !== null && puts(point, point.thing))
      return { at, together: true };
    if (point.kind === "end-job" && isForgotten(walk, thing, at)) return { at, together: false };
    if (point.kind === "ask" ? proves(walk, point, thing) : point.kind === "act" && asks(point))
      return { at, together: false };
  }
  return null;
}

/** A pin in a shaft stays while the belt is off: the point at which that is on again, else `since`. */
function beltOnAfter({ graph, relations }: Walk, thing: Thing, since: number): number {
  const into = thing.kind === "temporary" ? relations.into(thing) : null;
  if (!into || relations.shaftOf(into) === null) return since;
  const on = graph.points.findIndex(
    (p, at) => at > since && p.kind === "act" && p.thing?.kind === "belt" && actRow(p.verb).ends === "off",
  );
  return on < 0 ? since : on;
}

/** Acts that need a belt or line to be on. */
const LAID: ReadonlySet<string> = new Set(["lay-on", "run"]);

type Asks = (point: ActPoint, on: Thing) => boolean;

function puttingOn({ relations }: Walk, thing: Thing, verb: string): Asks {
  const fronts = new Set(relations.fronts(thing, verb));
  const bolts = new Set(verb === "fit" ? relations.fastenersOf(thing) : []);
  return (point, on) => {
    const { ends, fastener } = actRow(point.verb);
    if (bolts.has(on)) return fastener === "placed" || fastener === "tightened";
    return fronts.has(on) && (ends === "off" || ends === "disconnected");
  };
}

function askedBy(
  { relations }: Walk,
  thing: Thing,
  verb: string,
  parent: number,
): (point: ActPoint) => boolean {
  const { ends, fastener } = actRow(verb);
  const into = thing.kind === "temporary" ? relations.into(thing) : null;
  const locks = into !== null && relations.shaftOf(into) !== null;
  const isBelt = thing.kind === "belt";
  return (point) => {
    const row = actRow(point.verb);
    const isMadeAgain = point.thing === thing && ends !== undefined && row.makes === ends;
    // What runs is stopped after all that is done while it runs; an outcome that starts it again stops it itself.
    if (verb === "stop") return isMadeAgain && point.parent === parent;
    if (point.thing === thing) return isMadeAgain;
    if (row.whole && point.thing?.kind === "machine")
      return !point.act.without.some(({ name }) => name === thing.name);
    const turns = point.verb === "turn" || point.verb === "align";
    return turns && ((isBelt && fastener === "placed") || locks);
  };
}

/** Whether a job that ends there leaves a pin in where it can be forgotten, and does not take it out just before. */
function isForgotten({ graph, relations }: Walk, thing: Thing, end: number): boolean {
  const into = thing.kind === "temporary" ? relations.into(thing) : null;
  if (!into || (relations.shaftOf(into) === null && !partFacts(into.entry).springLoaded)) return false;
  const { parent } = graph.points[end] as Point;
  return !graph.points.some(
    (p, at) => at < end && p.parent === parent && p.kind === "act" && p.thing === thing && p.verb === "pull",
  );
}

/** Whether a check proves a thing, or what it holds. */
function proves({ relations }: Walk, { spot }: Point, thing: Thing): boolean {
  const proved = checkOf(spot.entry).proves;
  const held = thing.kind === "fastener" ? relations.secured(thing) : [];
  return [thing, ...held].some(({ name }) => proved.some((p) => p.name === name));
}

/** The last line before a point that puts a supply on a thing whose joint is then open; -1 where none does. */
export function openedJoint({ graph, relations }: Walk, thing: Thing, since: number, until: number): number {
  return graph.points.findLastIndex((p, at) => {
    if (at <= since || at >= until || p.kind !== "act" || !actRow(p.verb).opensJoint || !p.thing)
      return false;
    return p.thing === thing || (p.thing.kind === "face" && relations.partOfFace(p.thing) === thing);
  });
}
