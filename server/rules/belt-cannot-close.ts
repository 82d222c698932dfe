/** A belt that can go round nothing: too few pulleys within it, or a figure that is none. */

import { beltFacts } from "../facts";
import { type Figure, MOST_PULLEYS } from "../mechanics/belts";
import { placeAt } from "../model";
import { type KnownBelt, kindOf, maybeCrossed, millimetres } from "../walk/belts";
import { beltAt } from "./belts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const beltCannotClose: ThingRule = {
  code: "belt-cannot-close",
  severity: "error",
  group: "runs",
  grain: "thing",
  messages: {
    one: "“{belt}” has one pulley only, and goes round two at least.",
    many: "“{belt}” has {count} pulleys; a path is worked out for {most} at most.",
    back: "“{belt}” has {count} of its pulleys within it, and needs two at least.",
    crossed:
      "“{belt}” is said to be crossed, which only a flat or vee belt can be, on two pulleys, with its inner face on both.",
    "crossed-hint": "Take “crossed” away, or correct the belt.",
    figure: "The {figure} of “{pulley}” is no figure that a pulley can have.",
    "one-hint": "Write a line for each pulley of its run.",
    "many-hint": "See whether one stands there twice; if all are right, their places may be left out.",
    "back-hint": "See where “back of belt” is said.",
    "figure-hint": "Write the figure as it is at the machine.",
  },
  docs: {
    what: "A belt has one pulley only, or fewer than two within it, or a pulley has a size or a place beyond all machines. Or a belt is said to be crossed that cannot be. More pulleys than a path is worked out for is a hint.",
    why: "A belt that closes round nothing cannot be worked out, drawn or laid on.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the belt"
  part motor-pulley "Motor pulley"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    path clockwise
    pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm
    pulley drum-pulley  diameter 0.0001 mm  centre 190 mm, 0 mm
  }
}
`,
      "    pulley drum-pulley  diameter 0.0001 mm  centre 190 mm, 0 mm\n",
      "    pulley drum-pulley  diameter 80 mm  centre 190 mm, 0 mm\n",
    ),
  },
  check(thing, report, _, machine) {
    if (thing.kind !== "belt") return;
    const belt = titleOf(thing);
    const facts = beltFacts(thing.entry);
    if (facts.crossedAt && facts.pulleys.length > 0 && !maybeCrossed(facts, kindOf(facts)))
      report({
        place: placeAt(thing.file, thing.line, facts.crossedAt),
        message: "crossed",
        args: { belt },
      });
    const at = beltAt(thing, machine);
    for (const problem of at?.belt.problems ?? []) {
      if (!at) continue;
      if (problem.kind === "too-few") report({ place: thing.place, message: "one", args: { belt } });
      if (problem.kind === "too-many")
        report({
          place: thing.place,
          message: "many",
          severity: "hint",
          args: { belt, count: `${problem.count}`, most: `${MOST_PULLEYS}` },
        });
      if (problem.kind === "cannot-close")
        report({ place: thing.place, message: "back", args: { belt, count: said(problem.inside) } });
      if (problem.kind === "bad-figure" && !isNoughtOrLess(at.belt, problem.pulley))
        report({
          place: at.place(problem.pulley),
          message: "figure",
          args: { figure: FIGURES[problem.figure], pulley: at.name(problem.pulley) },
        });
    }
  },
};

/** Whether a figure of the pulley, or the belt's pitch, is of nought or less, which has a finding of its own. */
function isNoughtOrLess({ facts, layout }: KnownBelt, index: number): boolean {
  const [pulley, said] = [facts.pulleys[index], layout.pulleys[index]];
  const pitch = said?.teeth != null ? millimetres(facts.pitch) : null;
  const sizes = [said?.teeth, millimetres(pulley?.diameter), pitch].filter((figure) => figure != null);
  return sizes.some((figure) => figure <= 0) || (said?.travel ?? 0) < 0;
}

const said = (count: number): string => (count === 0 ? "none" : `${count}`);

const FIGURES: Readonly<Record<Figure, string>> = {
  centre: "centre",
  diameter: "size",
  teeth: "number of teeth",
  travel: "travel",
  around: "number of teeth",
};
