/** A part or fastener that is fitted although it is on. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const partFittedTwice: ProcedureRule = {
  code: "part-fitted-twice",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” is on here: no line before this takes it off.",
    back: "“{title}” is on again already.",
    hint: "Write where it comes off, “remove {name}”, or take this line out.",
    first: "It goes on here.",
    starts:
      "Write “remove {name}” before, or “off {name}” under “starts with” where it is off when the job begins.",
  },
  docs: {
    what: "A part or fastener is fitted while it is in its place, on every way or on some.",
    why: "Either a line that takes it off is missing, or one too many fits it: the fitter cannot tell which.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
}

procedure look "Look at the winch" {
  on winch
  step "Look" {
  }
  step "Put back" {
    fit cover
  }
}
`,
      '  step "Look" {\n',
      '  step "Look" {\n    remove cover\n',
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since } of faultsOf("part-fitted-twice", procedure, sight)) {
      const { thing, way } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      if (since)
        report({
          place,
          message: "back",
          hint: "hint",
          args,
          way,
          related: [{ place: placeOf(since), message: "first" }],
        });
      else report({ place, hint: "starts", args, way });
    }
  },
};
