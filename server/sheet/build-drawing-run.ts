/**
 * What a drawing of a run shows: the clips of a hose, cable or wire from the machine in the order in which the job leads it, its
 * ends where their places are said, and how it may bend.
 */

import { type RunPlace, runDrawing } from "../drawings";
import { centreOf, namesIn, runFacts } from "../facts";
import type { Thing } from "../model";
import { drawingWord } from "../phrases/drawings";
import { placeOf } from "../walk/belts";
import { type Build, quantityRuns, thingAt, titleOf } from "./build-context";
import { viewOf } from "./build-drawing-belt";
import { said } from "./build-sentences";
import type { Use } from "./build-uses";
import { textOf } from "./fill";
import type { Made } from "./made";

/** What a line runs through, in order: as the act leads it, else as the machine says. */
export function clipsOf({ spot, act }: Use, line: Thing): readonly Thing[] {
  const names = act.verb === "run" ? namesIn(spot.entry.form, "clips") : runFacts(line.entry).through;
  return names.flatMap((name) => thingAt(spot, name, ["clip", "part"]) ?? []);
}

/** Draws a run; null unless the place of every clip is said. */
export function drawingOfRun(build: Build, { spot }: Use, line: Thing, clips: readonly Thing[]): Made | null {
  const { from, to } = runFacts(line.entry);
  const ends = [from, to].map((name) => thingAt(spot, name, ["part"]));
  const at = (thing: Thing | undefined, end: boolean): readonly RunPlace[] => {
    const place = thing ? placeOf(centreOf(thing.entry)) : null;
    return thing && place ? [{ name: titleOf(thing), at: place, end }] : [];
  };
  const led = clips.flatMap((clip) => at(clip, false));
  if (clips.length === 0 || led.length < clips.length) return null;
  const view = viewOf(spot);
  const drawing = runDrawing({
    title: titleOf(line),
    places: [...at(ends[0], true), ...led, ...at(ends[1], true)],
    notes: notesOf(build, line, ends),
    view: view ? titleOf(view) : "",
    language: build.language,
  });
  const things = [...clips, ...ends].filter((thing) => thing !== undefined);
  return drawing && { drawing, madeFrom: [...things, ...(view ? [view] : [])] };
}

/** Where it begins and ends, how long it is, how it may bend and what it needs to spare. */
function notesOf(build: Build, line: Thing, [from, to]: readonly (Thing | undefined)[]): readonly string[] {
  const { length, bendRadius, slack } = runFacts(line.entry);
  const { language } = build;
  return [
    from && to ? drawingWord(language, "run.ends", { from: titleOf(from), to: titleOf(to) }) : "",
    length ? drawingWord(language, "run.length", { amount: textOf(quantityRuns(build, length)) }) : "",
    bendRadius ? textOf(said(build, "bend-radius", { amount: quantityRuns(build, bendRadius) })) : "",
    slack ? textOf(said(build, "slack", { amount: quantityRuns(build, slack) })) : "",
  ].filter((note) => note !== "");
}
