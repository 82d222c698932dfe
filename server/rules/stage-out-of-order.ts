/** The stages of a tightening are not taken one after the other. */
import { fastenerFacts } from "../facts";
import { listed, titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const stageOutOfOrder: ProcedureRule = {
  code: "stage-out-of-order",
  severity: "error",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "“{title}” is tightened here out of the order of its stages.",
    hint: "Its stages are {stages}: take them in this order, none left out.",
    declared: "They stand here.",
  },
  docs: {
    what: "A fastener that is on its way up skips a stage or goes back to one that it has passed.",
    why: "Pulled down in one go, a cover or a head bends, and a gasket leaks.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  fastener cover-bolts "Cover bolts" {
    secures cover
    stage snug 10 N·m
    stage final 22 N·m
  }
}

procedure look "Look at the winch" {
  on winch
  tool wrench "Torque wrench"  5 to 50 N·m
  step "Off and on" {
    remove cover-bolts, cover
    fit cover
    fit cover-bolts  by hand
    tighten cover-bolts {
      stage final  with wrench
    }
  }
}
`,
      "      stage final  with wrench\n",
      "      stage snug  with wrench\n      stage final  with wrench\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place } of faultsOf("stage-out-of-order", procedure, sight)) {
      const { thing, way } = fault;
      const stages = listed(
        fastenerFacts(thing.entry).stages.map((s) => `“${s.name}”`),
        "and",
      );
      report({
        place,
        args: { title: titleOf(thing), stages },
        way,
        related: [{ place: thing.place, message: "declared" }],
      });
    }
  },
};
