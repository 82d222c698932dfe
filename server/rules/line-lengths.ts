/** What the rules on a line's length read: the length that is said, where, and the way that it is to reach along. */
import { clauseOf } from "../facts";
import { type Run, runThrough } from "../mechanics/runs";
import { type Machine, type Place, placeAt, type Thing } from "../model";
import { millimetres } from "../walk/belts";
import { runIn } from "../walk/lines";
import { finderIn } from "./belts";

/** A line of which both ends, all clips and the length are known; in millimetres. */
export interface LineLength {
  /** Where the length is said. */
  readonly place: Place;
  readonly run: Run;
  readonly length: number;
  /** The slack that it needs. */
  readonly needed: number;
}

/** Reads a line's length; null where anything it is held against is not known. */
export function lineLength(thing: Thing, machine: Machine | null): LineLength | null {
  const known = thing.kind === "line" ? runIn(thing, finderIn(machine)) : null;
  const length = millimetres(known?.facts.length);
  const at = clauseOf(thing.entry, "length")?.at;
  if (!known?.whole || length === null || !at) return null;
  const { run } = runThrough(known.places.map((p) => p.at));
  const place = placeAt(thing.file, thing.line, at);
  return run && { place, run, length, needed: millimetres(known.facts.slack) ?? 0 };
}
