/**
 * What a drawing of a belt or chain shows: its path from the machine, the order of laying on from the job, and the marks on its
 * pulleys.
 */

import { type BeltMark, beltDrawing } from "../drawings";
import { type BeltFacts, markFacts, type NameAt, namesIn } from "../facts";
import type { Spot, Thing } from "../model";
import { beltIn, drivingOf, runningOf } from "../walk/belts";
import { type Build, thingAt, titleOf } from "./build-context";
import type { Use } from "./build-uses";
import type { Made } from "./made";

/**
 * The parts in the order in which a belt is laid on, by name: as the act itself says, else as the first one of the job does.
 * Empty where none does.
 */
export function laidIn(build: Build, use: Use, belt: Thing): readonly string[] {
  const laying = [use, ...build.uses.on(belt)].find(({ act }) => act.verb === "lay-on");
  return laying ? [...new Set(namesIn(laying.spot.entry.form, "parts").map(({ name }) => name))] : [];
}

/** Draws a belt; null where a place or size is not said, or is wrong. */
export function drawingOfBelt(
  build: Build,
  { spot }: Use,
  belt: Thing,
  laid: readonly string[],
): Made | null {
  const known = beltIn(belt);
  if (!known?.path) return null;
  const { facts, kind, layout, path } = known;
  const shaft = (name: string): Thing | undefined => thingAt(spot, { name } as NameAt, ["shaft"]);
  const order = facts.pulleys.map(({ part }) => laid.indexOf(part.name) + 1 || null);
  const marks = marksOn(spot, facts);
  const view = viewOf(spot);
  return {
    drawing: beltDrawing({
      title: titleOf(belt),
      kind,
      layout,
      path,
      running: runningOf(known, shaft),
      names: facts.pulleys.map(({ part }) =>
        titleOf(thingAt(spot, part, ["part"]) ?? { ...part, title: "" }),
      ),
      laid: order.some((number) => number !== null) ? order : null,
      marks: marks.map(({ mark }) => mark),
      view: view ? titleOf(view) : "",
      language: build.language,
    }),
    madeFrom: [
      ...drivingOf(facts, shaft).map((one) => one.shaft),
      ...marks.map(({ thing }) => thing),
      ...(view ? [view] : []),
    ],
  };
}

/** The view in which places of the machine are said: its first. */
export function viewOf({ procedure }: Spot): Thing | undefined {
  return procedure.machine?.things.find(({ kind }) => kind === "view");
}

/** The marks on the pulleys, and on the shafts that these turn with; a shaft's is shown at the first of its pulleys. */
function marksOn(spot: Spot, { pulleys }: BeltFacts): readonly { mark: BeltMark; thing: Thing }[] {
  const parts = pulleys.map(({ part }) => thingAt(spot, part, ["part"]));
  const shafts = pulleys.map(({ shaft }) => thingAt(spot, shaft, ["shaft"]));
  return (spot.procedure.machine?.things ?? []).flatMap((thing) => {
    if (thing.kind !== "mark" || thing.doubtful) return [];
    const { on, seen } = markFacts(thing.entry);
    const carrier = thingAt(spot, on, ["shaft", "part"]);
    const pulley = carrier ? Math.max(parts.indexOf(carrier), shafts.indexOf(carrier)) : -1;
    if (pulley < 0) return [];
    return [{ mark: { pulley, title: titleOf(thing), angle: seen?.nominal?.si ?? null }, thing }];
  });
}
