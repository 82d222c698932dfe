/** An act that brings about what is so already, or undoes what was not done. */
import { actRow, DEPARTURES, type Departure, placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const doneAlready: ProcedureRule = {
  code: "done-already",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” is {state} already.",
    undone: "“{title}” is not {state} here.",
    hint: "Take this line out, or write what undoes it before.",
    "undone-hint": "Take this line out, or write where it is {state} before.",
    first: "It is done here.",
  },
  docs: {
    what: "Something is disconnected, opened, isolated, drained, supported, raised, started or put in although it is so already, or the reverse although it is not.",
    why: "A line that cannot be done makes the fitter wonder what was left out.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  tap drain-tap "Drain tap"
}

procedure look "Look at the winch" {
  on winch
  step "Drain" {
    open drain-tap
    close drain-tap
    close drain-tap
  }
}
`,
      "    close drain-tap\n    close drain-tap\n",
      "    close drain-tap\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, point, since } of faultsOf("done-already", procedure, sight)) {
      const { thing, state, way } = fault;
      const row = DEPARTURES[state as Departure];
      const args = { title: titleOf(thing), name: thing.name, state: row.said };
      const again = point.kind === "act" && actRow(point.verb).makes === state;
      const related = since ? [{ place: placeOf(since), message: "first" }] : [];
      if (again) report({ place, args, way, related });
      else report({ place, message: "undone", hint: "undone-hint", args, way, related });
    }
  },
};
