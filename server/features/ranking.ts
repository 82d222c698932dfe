/**
 * In which order things are offered where an act names them: first what the act can be done on as things stand there,
 * then what is still in the way or held, last what it was done on already. Nothing is left out: the writer may know
 * better.
 */
import { fastenerFacts, toolFacts } from "../facts";
import type { Procedure, Thing } from "../model";
import { type ActRow, actRow } from "../walk";
import { heldBy, isCovered, isOff, type States, stateOf, statesAt } from "./state-at";

const READY = 0;
const NOT_YET = 1;
const DONE = 2;

/**
 * Things in the order in which an act at a line is likely to mean them, when it names some already; the order given
 * decides between equals.
 */
export function rankedFor(
  verb: string,
  procedure: Procedure,
  row: number,
  said: readonly string[],
  things: readonly Thing[],
): readonly Thing[] {
  const act = actRow(verb);
  if (!act.makes && !act.ends && !act.fastener) return things;
  const states = statesAt(procedure, row, verb, said);
  const held = heldNow(things, states);
  const puts = act.ends !== undefined || act.fastener === "tightened";
  return sortedBy(things, (thing) => {
    const rank = rankOf(act, thing, procedure, states, held);
    // What came off last goes on first.
    return [rank, puts && rank === READY ? -stateOf(states, thing.name).touched : 0];
  });
}

/** The names of what fasteners that are in still hold. */
function heldNow(things: readonly Thing[], states: States): ReadonlySet<string> {
  return new Set(things.filter((t) => !isOff(states, t.name)).flatMap(heldBy));
}

function rankOf(
  act: ActRow,
  thing: Thing,
  { find }: Procedure,
  states: States,
  held: ReadonlySet<string>,
): number {
  const now = stateOf(states, thing.name);
  if (isDone(act, thing, states)) return DONE;
  if (act.reach && isCovered(thing, states, find)) return NOT_YET;
  if (act.released && held.has(thing.name)) return NOT_YET;
  const part = heldBy(thing);
  if (act.fastener === "placed" && part.some((name) => isOff(states, name))) return NOT_YET;
  if (act.fastener === "tightened" && thing.kind !== "fastener") return now.byHand ? READY : DONE;
  // What is tight already can be tightened again, but what is not comes first.
  return act.fastener === "tightened" && now.fastener === "tight" ? NOT_YET : READY;
}

function isDone(act: ActRow, thing: Thing, states: States): boolean {
  const { departed, fastener } = stateOf(states, thing.name);
  if (thing.kind === "fastener" && act.fastener) {
    if (act.fastener === "placed") return fastener !== "out";
    if (act.fastener === "loose") return fastener !== "tight";
    return (act.fastener === "out" || act.fastener === "tightened") && fastener === "out";
  }
  if (act.makes) return departed.has(act.makes);
  return act.ends !== undefined && !departed.has(act.ends);
}

/** Tools for a tightening: wrenches that reach its torque first, then other wrenches, then the rest. */
export function rankedTools(fasteners: readonly Thing[], tools: readonly Thing[]): readonly Thing[] {
  const torques = fasteners.flatMap((f) =>
    fastenerFacts(f.entry).stages.flatMap((s) => (s.kind === "torque" && s.value ? [s.value] : [])),
  );
  if (torques.length === 0) return tools;
  const ends = torques.flatMap((t) => [t.low, t.high, t.nominal].flatMap((a) => (a ? [a.si] : [])));
  return sortedBy(tools, (tool) => {
    const range = tool.kind === "tool" ? toolFacts(tool.entry).range : null;
    if (range?.kind !== "torque") return [2, 0];
    const reaches = ends.every((si) => si >= (range.low?.si ?? 0) && si <= (range.high?.si ?? Infinity));
    return [reaches ? 0 : 1, 0];
  });
}

/** Steps and checks: for `go to` those that follow, nearest first; for `repeat from` those before, nearest first. */
export function rankedTargets(construct: string, row: number, targets: readonly Thing[]): readonly Thing[] {
  if (construct !== "go-to" && construct !== "repeat") return targets;
  const ahead = construct === "go-to";
  return sortedBy(targets, ({ line }) => [line > row === ahead ? 0 : 1, Math.abs(line - row)]);
}

function sortedBy<T>(list: readonly T[], keyOf: (one: T) => readonly [number, number]): readonly T[] {
  return list
    .map((one, at) => ({ one, key: keyOf(one), at }))
    .sort((a, b) => a.key[0] - b.key[0] || a.key[1] - b.key[1] || a.at - b.at)
    .map(({ one }) => one);
}
