/** Something comes off that bears another thing, or that one person cannot lift, and nothing holds it. */
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf, namedIn } from "./walked";

export const supportMissing: ProcedureRule = {
  code: "support-missing",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{borne}” rests on “{title}”, and nothing holds it here.",
    hint: "Hold it first: “support {borneName}” or “raise {borneName}”.",
    lift: "“{title}” weighs {weight}, more than one person lifts, and nothing says how it is held.",
    "lift-hint": "Support it before, or say “by 2 people”, or name lifting gear that has a rating: “with …”.",
    said: "That it rests on it is said here.",
    declared: "Its weight is said here.",
  },
  docs: {
    what: "A part comes off although what rests on it is neither supported nor raised; or a part of more than 25 kg comes off with nothing said that holds it. The weight is common practice, no source.",
    why: "What is let go falls, on the fitter or on the floor.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"  weight 40 kg
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    warning crushing {
      "The drum is heavy."
      can "Crush a hand."
      so "Lift it with two people."
    }
    remove drum
    fit drum
  }
}
`,
      "    remove drum\n",
      "    remove drum  by two people\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, walk } of faultsOf("support-missing", procedure, sight)) {
      const { thing, way, state } = fault;
      const other = fault.other ?? thing;
      if (state === "lift") {
        const args = { title: titleOf(thing), weight: `${Math.round(walk.relations.weightOf(thing))} kg` };
        report({
          place,
          message: "lift",
          hint: "lift-hint",
          args,
          way,
          related: [{ place: thing.place, message: "declared" }],
        });
        continue;
      }
      const said = namedIn(other, "bears", thing.name);
      const args = { title: titleOf(other), borne: titleOf(thing), borneName: thing.name };
      report({ place, args, way, related: said ? [{ place: said, message: "said" }] : [] });
    }
  },
};
