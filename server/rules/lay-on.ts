/**
 * What the rules about laying a belt on share: each `lay-on` with its belt, and the pulleys it names and should name.
 */
import { beltFacts } from "../facts";
import { type Place, type Procedure, placeAt, type Thing } from "../model";
import { type ActAt, actsOf } from "./look";

/** A belt laid on, in the order of the hands. */
export interface LaidOn {
  readonly at: ActAt;
  readonly belt: Thing;
  /** The pulleys of its run, in the order they are declared. */
  readonly run: readonly string[];
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
    return run.length === 0 || !known ? [] : [{ at, belt, run, laid }];
  });
}

/** Where a belt's run names a pulley. */
export function pulleyPlace(belt: Thing, name: string): Place {
  const at = beltFacts(belt.entry).pulleys.find((p) => p.part.name === name)?.part.at;
  return at ? placeAt(belt.file, belt.line, at) : belt.place;
}
