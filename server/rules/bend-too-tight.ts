/** A hose, cable or wire that its clips bend more tightly than it bears. */
import { runThrough } from "../mechanics/runs";
import { placeAt } from "../model";
import { millimetres } from "../walk/belts";
import { runIn } from "../walk/lines";
import { finderIn, millimetresSaid } from "./belts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const bendTooTight: ThingRule = {
  code: "bend-too-tight",
  severity: "warning",
  group: "runs",
  grain: "thing",
  messages: {
    main: "At “{clip}” the run of “{line}” bends to {radius} at best, and bears no less than {limit}.",
    hint: "Correct the places of the clips or their order, or the bend radius.",
    clip: "The clip is said here.",
  },
  docs: {
    what: "The places of a line’s clips make it bend more tightly than its bend radius, however gently it is laid.",
    why: "A hose kinks and a wire breaks inside.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the panel"
  clip upper "Upper clip"  centre 0 mm, 100 mm
  clip corner "Corner clip"  centre 0 mm, 0 mm
  clip lower "Lower clip"  centre 20 mm, 90 mm
  wire stop-wire "Stop wire" {
    through upper, corner, lower
    bend-radius at least 60 mm
  }
}
`,
      '  clip lower "Lower clip"  centre 20 mm, 90 mm\n',
      '  clip lower "Lower clip"  centre 100 mm, -60 mm\n',
    ),
  },
  check(thing, report, _, machine) {
    const run = thing.kind === "line" ? runIn(thing, finderIn(machine)) : null;
    const least = run?.facts.bendRadius;
    const limit = millimetres(least) ?? (least?.low ? least.low.si * 1000 : null);
    if (!run || limit === null) return;
    for (const bend of runThrough(run.places.map((p) => p.at)).run?.bends ?? []) {
      const place = run.places[bend.place];
      if (!place || bend.gentlest >= limit) continue;
      report({
        place: placeAt(thing.file, thing.line, place.name.at),
        args: {
          clip: titleOf(place.thing),
          line: titleOf(thing),
          radius: millimetresSaid(bend.gentlest),
          limit: millimetresSaid(limit),
        },
        related: [{ place: place.thing.place, message: "clip" }],
      });
    }
  },
};
