/** Two holes of a fastener that lie at the same place. */
import { type FastenerFacts, fastenerFacts } from "../facts";
import { distance, type Point } from "../mechanics/belts/plane";
import { type Place, placeAt, type Thing } from "../model";
import { placeOf } from "../walk/belts";
import { boltIn } from "../walk/bolts";
import { holesOf } from "../walk/orders";
import { millimetresSaid } from "./belts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const holesOverlap: ThingRule = {
  code: "holes-overlap",
  severity: "error",
  group: "fasteners",
  grain: "thing",
  messages: {
    main: "Holes {a} and {b} of “{title}” lie at the same place.",
    near: "Holes {a} and {b} of “{title}” lie {apart} apart, which is less than their thread is thick.",
    twice: "Hole {a} of “{title}” has two places.",
    stray: "“{title}” has no hole {a}, and it is given a place.",
    hint: "Correct the “centre” of one of them.",
    "hole-hint": "Correct the number of the hole, or take the line out.",
    other: "The other is said here.",
  },
  docs: {
    what: "The centres of two holes of one fastener are the same, or nearer to each other than the thread is thick; one hole has two centres, or one that is no hole has one.",
    why: "A figure is wrong, and an order worked out or drawn from the places is wrong with it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the lid"
  fastener lid-bolts "Lid bolts" {
    count 3
    hole  1  centre 0 mm, 0 mm
    hole  2  centre 60 mm, 0 mm
    hole  3  centre 60 mm, 0 mm
    tighten 22 N·m
  }
}
`,
      "    hole  3  centre 60 mm, 0 mm\n",
      "    hole  3  centre 120 mm, 0 mm\n",
    ),
  },
  check(thing, report) {
    if (thing.kind !== "fastener") return;
    const thick = (boltIn(thing, () => undefined)?.thread.diameter ?? 0) * 1000;
    const facts = fastenerFacts(thing.entry);
    const [placed, holes] = [centresIn(thing, facts), holesOf(facts)];
    placed.forEach((b, index) => {
      const before = placed.slice(0, index).find((one) => one.hole === b.hole);
      const args = { title: titleOf(thing), a: `${b.hole}` };
      if (before)
        report({
          place: b.place,
          message: "twice",
          hint: "hole-hint",
          args,
          related: [{ place: before.place, message: "other" }],
        });
      else if (holes && !holes.includes(b.hole))
        report({ place: b.place, message: "stray", hint: "hole-hint", args });
      const a = placed.slice(0, index).find((one) => clash(one.at, b.at, thick));
      if (!a || a.hole === b.hole) return;
      const apart = distance(a.at, b.at);
      report({
        place: b.place,
        message: apart === 0 ? "main" : "near",
        hint: "hint",
        args: { title: titleOf(thing), a: `${a.hole}`, b: `${b.hole}`, apart: millimetresSaid(apart) },
        related: [{ place: a.place, message: "other" }],
      });
    });
  },
};

const clash = (a: Point, b: Point, thick: number): boolean => {
  const apart = distance(a, b);
  return apart === 0 || apart < thick;
};

interface Placed {
  readonly hole: number;
  readonly at: Point;
  readonly place: Place;
}

function centresIn(thing: Thing, { centres }: FastenerFacts): readonly Placed[] {
  return centres.flatMap(({ hole, centre, at }) => {
    const point = placeOf(centre);
    return point ? [{ hole, at: point, place: placeAt(thing.file, thing.line, at) }] : [];
  });
}
