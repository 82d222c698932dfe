/**
 * What goes with putting a thing back and is no state of it: oil or thread lock on a fastener, the pin that holds the
 * tensioner back while a belt goes on, the clips of a hose.
 */
import { beltFacts, fastenerFacts, partFacts, runFacts } from "../facts";
import type { Procedure, Thing } from "../model";
import type { RightingAct } from "../rules/righting";
import { type ActPoint, actRow, type Walk } from "../walk";

/** The act with the lines that go with it. `at` is the point before which it is done. */
export function tended(procedure: Procedure, walk: Walk, act: RightingAct, at: number): RightingAct {
  if (act.verb !== "fit") return act;
  const { thing } = act;
  const [before, after] =
    thing.kind === "fastener"
      ? [lubricated(procedure, thing), []]
      : thing.kind === "belt"
        ? heldBack(walk, thing, act.since, at)
        : [[], clipped(procedure, thing)];
  return before.length + after.length === 0 ? act : { ...act, lines: [...before, ...act.lines, ...after] };
}

/** A fastener that goes in oiled or with thread lock. */
function lubricated(procedure: Procedure, fastener: Thing): readonly string[] {
  const { state, lubricant } = fastenerFacts(fastener.entry);
  const isWet = state === "oiled" || state === "locked";
  if (!isWet || !lubricant || !procedure.find(lubricant.name, ["consumable", "fluid"])) return [];
  return [`lubricate ${fastener.name}  with ${lubricant.name}`];
}

/** A line that runs through clips is laid through them. */
function clipped(procedure: Procedure, line: Thing): readonly string[] {
  const clips = line.kind === "line" ? runFacts(line.entry).through : [];
  if (clips.length === 0 || clips.some(({ name }) => !procedure.find(name))) return [];
  return [`run ${line.name} through ${clips.map(({ name }) => name).join(", ")}`];
}

/** The pins that held springs back while a belt came off, and are out now, hold them back while it goes on. */
function heldBack(
  { graph, relations }: Walk,
  belt: Thing,
  since: number,
  at: number,
): readonly [readonly string[], readonly string[]] {
  const pulleys = new Set(beltFacts(belt.entry).pulleys.map(({ part }) => part.name));
  const isSpring = (temporary: Thing): boolean => {
    const into = relations.into(temporary);
    return into !== null && pulleys.has(into.name) && partFacts(into.entry).springLoaded;
  };
  const last = new Map<Thing, { readonly in: ActPoint | null; readonly out: ActPoint | null }>();
  const inThen = new Set<Thing>();
  for (let i = 0; i < at; i++) {
    if (i === since) for (const [thing, { out }] of last) if (!out) inThen.add(thing);
    const point = graph.points[i];
    if (point?.kind !== "act" || point.thing?.kind !== "temporary" || !isSpring(point.thing)) continue;
    const { makes, ends } = actRow(point.verb);
    if (makes === "in") last.set(point.thing, { in: point, out: null });
    else if (ends === "in") last.set(point.thing, { in: last.get(point.thing)?.in ?? null, out: point });
  }
  const pins = [...inThen].flatMap((thing) => {
    const { in: put, out } = last.get(thing) ?? { in: null, out: null };
    return put && out ? [{ put, out }] : [];
  });
  return [pins.map(({ put }) => said(put)), pins.map(({ out }) => said(out))];
}

/** The line that says an act on one thing again. */
function said({ verb, thing, act }: ActPoint): string {
  const tools = act.tools.map(({ name }) => name).join(", ");
  return `${verb} ${thing?.name}${tools === "" ? "" : `  with ${tools}`}`;
}
