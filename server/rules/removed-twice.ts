/** A part or fastener that is taken off although it is off. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const removedTwice: ProcedureRule = {
  code: "removed-twice",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” is off already.",
    out: "“{title}” is out already.",
    hint: "Take this line out, or write where it goes back on before: “fit {name}”.",
    first: "It comes off here.",
  },
  docs: {
    what: "A part or fastener comes off a second time, and nothing has put it back in between.",
    why: "The fitter looks for something that lies on the bench, and doubts every line after it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
}

procedure look "Look at the winch" {
  on winch
  step "Take off" {
    remove cover
  }
  step "Look" {
    remove cover
  }
  step "Put back" {
    fit cover
  }
}
`,
      '  step "Look" {\n    remove cover\n',
      '  step "Look" {\n',
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since } of faultsOf("removed-twice", procedure, sight)) {
      const { thing, way } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const message = thing.kind === "fastener" ? "out" : "main";
      const related = since ? [{ place: placeOf(since), message: "first" }] : [];
      report({ place, message, hint: "hint", args, way, related });
    }
  },
};
