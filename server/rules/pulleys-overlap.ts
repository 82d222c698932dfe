/** Two pulleys of a belt that take the same room. */
import { beltAt, millimetresSaid } from "./belts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const pulleysOverlap: ThingRule = {
  code: "pulleys-overlap",
  severity: "error",
  group: "runs",
  grain: "thing",
  messages: {
    main: "“{a}” and “{b}” of “{belt}” run into each other by {by}.",
    same: "“{a}” and “{b}” of “{belt}” have the same centre.",
    hint: "Correct a centre or a size.",
    other: "The other is said here.",
  },
  docs: {
    what: "The places and sizes of two pulleys of one belt put them into each other, or both at one centre.",
    why: "A figure is wrong, and neither length nor path can be worked out.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the belt"
  part motor-pulley "Motor pulley"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    path clockwise
    pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm
    pulley drum-pulley  diameter 120 mm  centre 90 mm, 0 mm
  }
}
`,
      "    pulley drum-pulley  diameter 120 mm  centre 90 mm, 0 mm\n",
      "    pulley drum-pulley  diameter 120 mm  centre 190 mm, 0 mm\n",
    ),
  },
  check(thing, report, _, machine) {
    const at = beltAt(thing, machine);
    for (const problem of at?.belt.problems ?? []) {
      if (!at || (problem.kind !== "overlap" && problem.kind !== "coincident")) continue;
      const [a, b] = problem.pulleys;
      report({
        place: at.place(b),
        message: problem.kind === "overlap" ? "main" : "same",
        hint: "hint",
        args: {
          belt: titleOf(thing),
          a: at.name(a),
          b: at.name(b),
          by: problem.kind === "overlap" ? millimetresSaid(problem.by) : "",
        },
        related: [{ place: at.place(a), message: "other" }],
      });
    }
  },
};
