/**
 * The run of a hose, cable or wire in figures: the places it leads through, in millimetres, x to the right and y up in the view.
 */
import { centreOf, type NameAt, type RunFacts, runFacts } from "../facts";
import type { Point } from "../mechanics/belts";
import type { Thing } from "../model";
import { type Find, placeOf } from "./belts";

/** A place of a run. */
export interface RunPlace {
  readonly thing: Thing;
  readonly name: NameAt;
  readonly at: Point;
}

/** A line's run through clips, of which every clip's place is said. */
export interface KnownRun {
  readonly facts: RunFacts;
  /** Its clips in order, with the ends where their places are said. */
  readonly places: readonly RunPlace[];
  /** Both ends are among the places, so the run is whole. */
  readonly whole: boolean;
}

/** The run of a line; null where it has no clips, or where the place of one is not said. */
export function runIn(line: Thing, find: Find): KnownRun | null {
  const facts = runFacts(line.entry);
  const clips = facts.through.map((name) => placed(name, find));
  if (clips.length === 0 || clips.includes(null)) return null;
  const [from, to] = [facts.from, facts.to].map((end) => (end ? placed(end, find) : null));
  const places = [from ?? null, ...clips, to ?? null].filter((place) => place !== null);
  return { facts, places, whole: from != null && to != null };
}

function placed(name: NameAt, find: Find): RunPlace | null {
  const thing = find(name.name);
  const at = thing && !thing.doubtful ? placeOf(centreOf(thing.entry)) : null;
  return thing && at ? { thing, name, at } : null;
}
