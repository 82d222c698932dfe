/** A belt that can go round nothing: too few pulleys within it, or a figure that is none. */
import { type Figure, MOST_PULLEYS } from "../mechanics/belts";
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
    figure: "The {figure} of “{pulley}” is no figure that a pulley can have.",
    "one-hint": "Write a line for each pulley of its run.",
    "many-hint": "Leave the pulleys’ places out, or see whether one stands there twice.",
    "back-hint": "See where “back of belt” is said.",
    "figure-hint": "Write the figure as it is at the machine.",
  },
  docs: {
    what: "A belt has one pulley only, or fewer than two within it, or a pulley has a size of nought or one beyond all machines.",
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
    pulley drum-pulley  diameter 0 mm  centre 190 mm, 0 mm
  }
}
`,
      "    pulley drum-pulley  diameter 0 mm  centre 190 mm, 0 mm\n",
      "    pulley drum-pulley  diameter 80 mm  centre 190 mm, 0 mm\n",
    ),
  },
  check(thing, report, _, machine) {
    if (thing.kind !== "belt") return;
    const belt = titleOf(thing);
    const at = beltAt(thing, machine);
    for (const problem of at?.belt.problems ?? []) {
      if (!at) continue;
      if (problem.kind === "too-few") report({ place: thing.place, message: "one", args: { belt } });
      if (problem.kind === "too-many")
        report({
          place: thing.place,
          message: "many",
          args: { belt, count: `${problem.count}`, most: `${MOST_PULLEYS}` },
        });
      if (problem.kind === "cannot-close")
        report({ place: thing.place, message: "back", args: { belt, count: said(problem.inside) } });
      // Where teeth make the size, the teeth are what is wrong.
      const byTeeth = (index: number) => at.belt.layout.pulleys[index]?.teeth !== null;
      if (problem.kind === "bad-figure" && !(problem.figure === "diameter" && byTeeth(problem.pulley)))
        report({
          place: at.place(problem.pulley),
          message: "figure",
          args: { figure: FIGURES[problem.figure], pulley: at.name(problem.pulley) },
        });
    }
  },
};

const said = (count: number): string => (count === 0 ? "none" : `${count}`);

const FIGURES: Readonly<Record<Figure, string>> = {
  centre: "centre",
  diameter: "size",
  teeth: "number of teeth",
  travel: "travel",
  around: "number of teeth",
};
