/**
 * Things that can be mistaken for each other: once two of a kind are off at the same time, one of them must have been
 * labelled before.
 */
import { fastenerFacts, type NameAt, partFacts } from "../facts";
import type { Thing } from "../model";
import { actRow } from "./acts";
import { ALL_BITS, type Watch } from "./faults";
import type { Graph } from "./graph";
import type { Relations } from "./relations";
import { touchesOf } from "./roles";

const KINDS = ["part", "line", "fastener"];
const FIRST_OFF = 1;
const SECOND_OFF = 2;
const LABELLED = 4;

/** A watch for each two things that are like each other and both come off. */
export function watchLikes(graph: Graph, relations: Relations): readonly Watch[] {
  const acts = new Map<Thing, number[]>();
  for (const { segment, at } of graph.segments) {
    for (const [thing, roles] of touchesOf(segment, relations).roles) {
      if (likeness(thing).length === 0 && !KINDS.includes(thing.kind)) continue;
      for (const role of roles)
        if (role.does === "act") acts.set(thing, [...(acts.get(thing) ?? []), at.points + role.point]);
    }
  }
  const watches: Watch[] = [];
  const seen = new Set<string>();
  for (const thing of acts.keys()) {
    for (const name of likeness(thing)) {
      const other = relations.byName(name, KINDS);
      const key = [thing.id, other?.id ?? ""].sort().join(" ");
      if (!other || other === thing || !acts.has(other) || seen.has(key)) continue;
      seen.add(key);
      watches.push(watchPair(graph, thing, other, acts.get(thing) ?? [], acts.get(other) ?? []));
    }
  }
  return watches;
}

function likeness(thing: Thing): readonly NameAt[] {
  return thing.kind === "fastener" ? fastenerFacts(thing.entry).like : partFacts(thing.entry).like;
}

function watchPair(
  graph: Graph,
  first: Thing,
  second: Thing,
  firstActs: readonly number[],
  secondActs: readonly number[],
): Watch {
  const code = first.kind === "fastener" ? "long-and-short-mixed" : "not-told-apart";
  const mark = (thing: Thing, other: Thing) => ({ code, thing, other, state: "", bits: ALL_BITS });
  const ofFirst = new Set(firstActs);
  const end = graph.points.length - 1;
  return {
    thing: first,
    marks: [mark(first, second), mark(second, first)],
    starts: [{ state: 0, where: null }],
    points: new Set([...firstActs, ...secondActs].filter((at) => at !== end)),
    step: (state, at, report) => {
      const point = graph.points[at];
      if (point?.kind !== "act") return state;
      if (point.verb === "label") return state | LABELLED;
      const bit = ofFirst.has(at) ? FIRST_OFF : SECOND_OFF;
      const { makes, ends, fastener } = actRow(point.verb);
      if (makes === "off" || makes === "disconnected" || fastener === "out") {
        const both = state | bit;
        if ((both & 3) !== 3 || (both & LABELLED) !== 0) return both;
        report(bit === FIRST_OFF ? 0 : 1);
        return both | LABELLED;
      }
      return ends === "off" || ends === "disconnected" || fastener === "placed" ? state & ~bit : state;
    },
  };
}
