/**
 * The acts of a job in the order of its text, with what they act on and what they are done with: what the sheet's lists
 * are worked out from.
 */
import { constructs } from "../../grammar";
import { type Act, actOf, clausesOf, type Detail, type Entry, namesIn, slotIn } from "../facts";
import type { Job, Spot, Thing } from "../model";

/** One act. */
export interface Use {
  readonly spot: Spot;
  readonly act: Act;
  /** Its place among the acts. */
  readonly index: number;
  /** What it acts on, unknown names left out. */
  readonly what: readonly Thing[];
  /** Tools, supplies and temporaries it is done with, those of its stages and for holding included. */
  readonly tools: readonly Thing[];
}

export interface Uses {
  readonly all: readonly Use[];
  readonly at: ReadonlyMap<Spot, Use>;
  /** The acts on a thing, in order. */
  readonly on: (thing: Thing) => readonly Use[];
}

/** The acts of a job. */
export function usesOf(job: Job): Uses {
  const all = job.spots
    .filter(({ entry }) => constructs.get(entry.construct)?.act === true)
    .map(
      (spot, index): Use => ({
        spot,
        index,
        act: actOf(spot.entry),
        what: whatOf(spot),
        tools: toolsOf(spot),
      }),
    );
  const byThing = new Map<Thing, Use[]>();
  for (const use of all)
    for (const thing of new Set(use.what)) byThing.set(thing, [...(byThing.get(thing) ?? []), use]);
  return { all, at: new Map(all.map((use) => [use.spot, use])), on: (thing) => byThing.get(thing) ?? [] };
}

/** The roles in which an act's form names what it acts on. */
export const WHAT = ["what", "marks", "shaft", "belt", "tester", "thing"] as const;

function whatOf(spot: Spot): readonly Thing[] {
  return WHAT.flatMap((role) => found(spot, spot.entry.form, role));
}

/** The things in `with`, of a block's stages too, and those for holding. */
function toolsOf(spot: Spot): readonly Thing[] {
  const details = [...withs(spot.entry), ...clausesOf(spot.entry, "holding")];
  return [...new Set(details.flatMap((detail) => found(spot, detail, "tools")))];
}

/** The `with` clauses of an act and of its stages, in order. */
export function withs(entry: Entry): readonly Detail[] {
  return [
    ...clausesOf(entry, "with"),
    ...clausesOf(entry, "stage").flatMap((stage) => clausesOf(stage, "with")),
  ];
}

function found(spot: Spot, detail: Detail, role: string): readonly Thing[] {
  const accepts = slotIn(detail, role)?.accepts ?? [];
  return namesIn(detail, role).flatMap((name) => spot.procedure.find(name.name, accepts) ?? []);
}
