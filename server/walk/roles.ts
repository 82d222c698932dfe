/**
 * What each point of a graph means to each thing: the acts on it, those that take it along, and the questions that
 * acts on other things put to it.
 */

import { checkOf, toolFacts } from "../facts";
import type { Thing } from "../model";
import { actRow } from "./acts";
import type { Graph } from "./graph";
import type { ActPoint, AskPoint, Point } from "./points";
import type { Relations } from "./relations";
import { keptBySegment, type Segment } from "./segments";

export type Role =
  | { readonly point: number; readonly does: "act"; readonly act: ActPoint }
  /** An assembly that carries it comes off or goes on. */
  | { readonly point: number; readonly does: "carried"; readonly carrier: number; readonly off: boolean }
  /** It must be so that what is worked on there can be: out of the way, let go of, drained, held, back in place. */
  | {
      readonly point: number;
      readonly does: "asked";
      readonly why: Why;
      readonly asker: Thing;
    };

/** Why the state of a thing matters to an act on another. */
export type Why =
  | "reach"
  | "release"
  | "cover"
  | "measure"
  | "empty"
  | "bear"
  | "lift"
  | "clamp"
  | "lock"
  | "start";

/** The codes that say that what was asked for was not so. */
export const ASKED: Readonly<Record<Why, string>> = {
  reach: "blocked-by",
  release: "fastener-still-holds",
  cover: "blocked-by",
  measure: "measured-before-reachable",
  empty: "not-drained",
  bear: "support-missing",
  lift: "support-missing",
  clamp: "tightened-before-fitted",
  lock: "fastener-still-holds",
  start: "started-too-soon",
};

/** One person lifts no more than this, in kilograms: common practice, no source. */
const ONE_LIFTS = 25;

/** What the points of a segment mean to each thing, counted from its first point; and the starts among them. */
export interface Touches {
  readonly roles: ReadonlyMap<Thing, readonly Role[]>;
  /** Points at which the machine is started. */
  readonly starts: readonly number[];
}

/** What a segment does to each thing, each list in the order of its points. */
export const touchesOf = keptBySegment(
  ({ points }: Segment, relations: Relations): Touches => touchesIn(points, relations),
);

function touchesIn(points: readonly Point[], relations: Relations): Touches {
  const roles = new Map<Thing, Role[]>();
  const add: Add = (thing, role) => {
    const list = roles.get(thing);
    if (list) list.push(role);
    else roles.set(thing, [role]);
  };
  const starts: number[] = [];
  points.forEach((point, at) => {
    if (point.kind === "ask") addMeasured(point, at, relations, add);
    if (point.kind !== "act" || !point.thing || point.thing.doubtful) return;
    const { thing, verb } = point;
    const row = actRow(verb);
    const ask = (why: Why, of: readonly Thing[]): void => {
      for (const one of of) add(one, { point: at, does: "asked", why, asker: thing });
    };
    if (row.whole && thing.kind === "machine") starts.push(at);
    if (row.reach) ask("reach", relations.fronts(thing, verb));
    if (row.ends === "off" || row.ends === "disconnected") ask("cover", relations.coversOf(thing));
    if (row.released && thing.kind !== "fastener") ask("release", relations.fastenersOf(thing));
    if (thing.kind === "fastener") {
      const secured = row.clamps ? relations.secured(thing) : [];
      // One that secures several things may hold those that are on.
      if (secured.length === 1) ask("clamp", secured);
      if (row.unlocked) ask("lock", relations.locksOf(thing));
    }
    if (row.emptied && !isCaught(point)) ask("empty", relations.fluidsIn(thing));
    if (row.held) {
      ask("bear", relations.borneBy(thing));
      if (relations.weightOf(thing) > ONE_LIFTS && !isLifted(point)) ask("lift", [thing]);
    }
    add(thing, { point: at, does: "act", act: point });
    if (row.makes !== "off" && row.ends !== "off") return;
    for (const carried of relations.carriedBy(thing)) {
      add(carried, {
        point: at,
        does: "carried",
        carrier: relations.carriers(carried).indexOf(thing),
        off: row.makes === "off",
      });
    }
  });
  return { roles, starts };
}

/** The roles in a whole graph of some things, or of all: in the order of their points, those at starts last. */
export function rolesIn(
  graph: Graph,
  relations: Relations,
  things: ReadonlySet<Thing> | null,
): ReadonlyMap<Thing, readonly Role[]> {
  const roles = new Map<Thing, Role[]>();
  const starts: number[] = [];
  for (const { segment, at } of graph.segments) {
    const touches = touchesOf(segment, relations);
    for (const start of touches.starts) starts.push(at.points + start);
    const add = (thing: Thing): void => {
      const found = touches.roles.get(thing);
      if (!found) return;
      let list = roles.get(thing);
      if (!list) {
        list = [];
        roles.set(thing, list);
      }
      for (const role of found) list.push({ ...role, point: role.point + at.points });
    };
    // The fewer of the two are looked up in the other.
    if (things && things.size < touches.roles.size) for (const thing of things) add(thing);
    else for (const thing of touches.roles.keys()) if (!things || things.has(thing)) add(thing);
  }
  if (starts.length > 0) {
    for (const [thing, list] of roles) {
      if (!list.some((role) => role.does === "act")) continue;
      for (const at of starts) addWhole(graph, at, relations, thing, list);
    }
  }
  return roles;
}

type Add = (thing: Thing, role: Role) => void;

/** A mark that is looked at must be seen. */
function addMeasured({ spot }: AskPoint, at: number, relations: Relations, add: Add): void {
  for (const name of checkOf(spot.entry).marks) {
    const mark = relations.byName(name, ["mark"]);
    for (const front of mark ? relations.fronts(mark, "align") : [])
      add(front, { point: at, does: "asked", why: "measure", asker: mark as Thing });
  }
}

/** At a start everything that the job has had its hands on must be back, but for what is left off on purpose. */
function addWhole(graph: Graph, at: number, relations: Relations, thing: Thing, roles: Role[]): void {
  if (thing.kind === "machine") return;
  const start = graph.points[at] as ActPoint;
  const without = start.act.without.flatMap((n) => graph.scope.find(n.name, LEFT_OFF) ?? []);
  if (without.includes(thing)) return;
  const held = thing.kind === "fastener" ? relations.secured(thing) : [];
  if (held.length > 0 && held.every((part) => without.includes(part))) return;
  roles.push({ point: at, does: "asked", why: "start", asker: start.thing as Thing });
}

/** What may be left off on purpose at a start. */
const LEFT_OFF = ["part", "belt", "line"];

/** A tray, or anything else with a capacity, catches what runs out. */
function isCaught({ supplies }: ActPoint): boolean {
  return supplies.some((s) => s.kind === "tool" && toolFacts(s.entry).range?.kind === "volume");
}

/** Several people, or gear that is rated for a load, lift what one person cannot. */
function isLifted({ act, supplies }: ActPoint): boolean {
  return act.people > 1 || supplies.some((s) => s.kind === "tool" && toolFacts(s.entry).rating !== null);
}
