/**
 * What the rules that go by the walk share: the faults of a code with their places, and where a relation between two
 * things is said.
 */
import { type Entry, namesIn } from "../facts";
import { type Place, type Procedure, placeAt, type Thing } from "../model";
import { type Point, placeOf, type Walk, type WalkFault } from "../walk";
import type { Sight } from "./types";

/** A fault of the walk where it is to be reported. */
export interface Faulty {
  readonly fault: WalkFault;
  readonly walk: Walk;
  /** The point that shows it. */
  readonly point: Point;
  readonly place: Place;
  /** The point that brought it about; null where it was so from the start. */
  readonly since: Point | null;
}

/** The faults with a code on the ways through a procedure. */
export function faultsOf(code: string, procedure: Procedure, sight: Sight): readonly Faulty[] {
  const walk = sight.walk(procedure);
  return walk.faults
    .filter((fault) => fault.code === code)
    .map((fault) => {
      const point = walk.graph.points[fault.point] as Point;
      return { fault, walk, point, place: placeOf(point), since: walk.graph.points[fault.since] ?? null };
    });
}

/** Where an entry's clause names a thing. */
export function namedIn(thing: Thing, clause: string, name: string): Place | null {
  for (const detail of thing.entry.details) {
    if (detail.clause !== clause) continue;
    for (const slot of detail.slots) {
      const found = namesIn(detail, slot.role).find((n) => n.name === name);
      if (found) return placeAt(thing.file, thing.line, found.at);
    }
  }
  return null;
}

/** The place of a head, or of the `follow` that leads into another procedure. */
export function headPlace(spot: Point["spot"]): Place {
  return spot.through ?? placeAt(spot.file, spot.line, spot.entry.form.at);
}

/** The line after an entry, at its start: a text put there stands below it. */
export function below(point: Point): Place | null {
  const { entry, file, line, through } = point.spot;
  return through ? null : { file, line: line + entry.lineCount, start: 0, end: 0 };
}

/** The start of an entry's line: a text put there stands above it. */
export function above(point: Point): Place | null {
  const { file, line, through } = point.spot;
  return through ? null : { file, line, start: 0, end: 0 };
}

/** The white space before an entry's first word. */
export function indentOf(entry: Entry): string {
  const text = entry.line?.text ?? "";
  return text.slice(0, text.length - text.trimStart().length);
}
