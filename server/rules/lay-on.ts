/**
 * What the rules about laying a belt on share: each `lay-on` with its belt, and the pulleys it names and should name.
 */
import { beltFacts } from "../facts";
import { type CourseFound, closedCourse, type Way } from "../mechanics/course";
import { type Place, type Procedure, placeAt, type Thing } from "../model";
import { beltIn } from "../walk/belts";
import { type ActAt, actsOf } from "./look";

/** A belt laid on, in the order of the hands. */
export interface LaidOn {
  readonly at: ActAt;
  readonly belt: Thing;
  /** The pulleys of its run, in the order they are declared. */
  readonly run: readonly string[];
  /** Which way round that order goes, as seen in the view: as is said, else as the places decide; null where neither does. */
  readonly round: "clockwise" | "anticlockwise" | null;
  readonly laid: readonly { readonly name: string; readonly place: Place }[];
}

/** Every `lay-on` of a procedure whose belt has a run; one with a pulley that is not known proves nothing. */
export function laidOn(procedure: Procedure): readonly LaidOn[] {
  return actsOf(procedure).flatMap((at): LaidOn[] => {
    const name = at.act.verb === "lay-on" ? at.act.what[0]?.name : undefined;
    const belt = name === undefined ? undefined : procedure.find(name, ["belt"]);
    if (!belt || belt.doubtful) return [];
    const run = beltFacts(belt.entry).pulleys.map((p) => p.part.name);
    const laid = at.act.course.map((n) => ({ name: n.name, place: at.place(n.at) }));
    const known = run.every((n) => procedure.find(n, ["part"]));
    return run.length === 0 || !known ? [] : [{ at, belt, run, round: roundOf(belt), laid }];
  });
}

/** Of two pulleys any order goes either way round. */
function roundOf(belt: Thing): LaidOn["round"] {
  const { path, pulleys } = beltFacts(belt.entry);
  const found = beltIn(belt)?.path;
  return found?.sound && pulleys.length > 2 ? found.round : path;
}

/** How the order of the hands stands to the run, the way round they are said to go. */
export function courseOf({ at, run, round, laid }: LaidOn): CourseFound {
  const { direction } = at.act;
  const way: Way =
    direction === null || round === null ? "either" : direction === round ? "along" : "against";
  return closedCourse(
    laid.map((l) => l.name),
    run,
    way,
  );
}

/** Where a belt's run names a pulley. */
export function pulleyPlace(belt: Thing, name: string): Place {
  const at = beltFacts(belt.entry).pulleys.find((p) => p.part.name === name)?.part.at;
  return at ? placeAt(belt.file, belt.line, at) : belt.place;
}
