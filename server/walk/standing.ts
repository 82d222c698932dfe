/**
 * What a procedure says to be so when it begins, and what it leaves so when it ends.
 */
import { namesIn } from "../facts";
import type { Thing } from "../model";
import { DEPARTURE_NAMES, DEPARTURES } from "./acts";
import type { Graph } from "./graph";
import type { Relations } from "./relations";
import type { Standing } from "./things";

/** The departures under `starts with` or `ends with`; a part that is off has its fasteners out. */
export function standingOf(graph: Graph, construct: "starts" | "ends", relations: Relations): Standing {
  const standing = new Map<Thing, Set<string>>();
  const add = (thing: Thing, departure: string): void => {
    standing.set(thing, (standing.get(thing) ?? new Set()).add(departure));
  };
  for (const { entry } of graph.procedure.thing.entry.children) {
    if (entry.construct !== construct) continue;
    for (const line of entry.children) {
      const departure =
        DEPARTURE_NAMES.find((d) => DEPARTURES[d].said === line.entry.construct) ?? line.entry.construct;
      for (const slot of line.entry.form.slots) {
        for (const { name } of namesIn(line.entry.form, slot.role)) {
          const thing = graph.scope.find(name, slot.accepts);
          if (thing) add(thing, departure);
        }
      }
    }
  }
  const isOff = (thing: Thing): boolean => standing.get(thing)?.has("off") === true;
  for (const thing of [...standing.keys()].filter(isOff)) {
    for (const fastener of relations.fastenersOf(thing)) {
      if (relations.secured(fastener).every(isOff)) add(fastener, "off");
    }
  }
  return standing;
}
