/**
 * What each point of a graph means to each thing: the acts on it, those that take it along, and the questions that
 * acts on other things put to it.
 */

import type { Thing } from "../model";
import { actRow } from "./acts";
import type { Graph } from "./graph";
import type { ActPoint } from "./points";
import type { Relations } from "./relations";

export type Role =
  | { readonly point: number; readonly does: "act"; readonly act: ActPoint }
  /** An assembly that carries it comes off or goes on. */
  | { readonly point: number; readonly does: "carried"; readonly carrier: number; readonly off: boolean }
  /** It must be out of the way of, or let go of, what is worked on there. */
  | {
      readonly point: number;
      readonly does: "asked";
      readonly why: "reach" | "release";
      readonly asker: Thing;
    };

/** The roles of every thing that a graph touches, each in the order of its points. */
export function rolesOf(graph: Graph, relations: Relations): ReadonlyMap<Thing, readonly Role[]> {
  const roles = new Map<Thing, Role[]>();
  const add = (thing: Thing, role: Role): void => {
    const list = roles.get(thing);
    if (list) list.push(role);
    else roles.set(thing, [role]);
  };
  graph.points.forEach((point, at) => {
    if (point.kind !== "act" || !point.thing || point.thing.doubtful) return;
    const { thing, verb } = point;
    const row = actRow(verb);
    if (row.reach)
      for (const front of relations.fronts(thing, verb))
        add(front, { point: at, does: "asked", why: "reach", asker: thing });
    if (row.released && thing.kind !== "fastener") {
      for (const fastener of relations.fastenersOf(thing))
        add(fastener, { point: at, does: "asked", why: "release", asker: thing });
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
  return roles;
}
