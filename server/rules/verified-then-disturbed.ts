/** Something that a check has proved is disturbed again before the end. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const verifiedThenDisturbed: ProcedureRule = {
  code: "verified-then-disturbed",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” was proved, and this disturbs it again.",
    hint: "Put the check behind this line, or make it once more before the end.",
  },
  docs: {
    what: "After a passed check, what it proved is slackened, taken off or fitted, and nothing proves it again.",
    why: "The record says that it was right, and it was so before it was changed.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the winch" {
  on winch
  check play "Play of the drum" {
    limit 0.1 to 0.2 mm
    proves drum
    record
  }
  step "Off and on" {
    remove drum
    fit drum
  }
  check runs "The drum runs" {
    observe "Does it run freely?"
    record
  }
}
`,
      '    observe "Does it run freely?"\n',
      '    observe "Does it run freely?"\n    proves drum\n',
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, since } of faultsOf("verified-then-disturbed", procedure, sight)) {
      if (!since) continue;
      const { thing, way } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      report({ place: placeOf(since), args, way });
    }
  },
};
