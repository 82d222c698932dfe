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
import { keptBySegment, type Segment } from "./segments";

const KINDS = ["part", "line", "fastener"];
const FIRST_OFF = 1;
const SECOND_OFF = 2;
const LABELLED = 4;

/** A watch for each two things that are like each other and both come off. */
export function watchLikes(graph: Graph, relations: Relations): readonly Watch[] {
  const likers = new Set(graph.segments.flatMap(({ segment }) => likersIn(segment, relations)));
  if (likers.size === 0) return [];
  const others = [...likers].flatMap((thing) =>
    likeness(thing).flatMap((name) => relations.byName(name, KINDS) ?? []),
  );
  const acts = actsOn(graph, relations, new Set([...likers, ...others]));
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

/** The things with a likeness that a segment touches. */
const likersIn = keptBySegment((segment: Segment, relations: Relations): readonly Thing[] =>
  [...touchesOf(segment, relations).roles.keys()].filter((thing) => likeness(thing).length > 0),
);

/** The acts on some things, in the order in which the text touches them. */
function actsOn({ segments }: Graph, relations: Relations, things: ReadonlySet<Thing>): Map<Thing, number[]> {
  const acts = new Map<Thing, number[]>();
  for (const { segment, at } of segments) {
    const { roles } = touchesOf(segment, relations);
    for (const thing of things) {
      const points = (roles.get(thing) ?? []).flatMap((role) =>
        role.does === "act" ? [at.points + role.point] : [],
      );
      if (points.length > 0) acts.set(thing, [...(acts.get(thing) ?? []), ...points]);
    }
  }
  return acts;
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
