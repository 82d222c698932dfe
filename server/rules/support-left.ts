/** A support or lift that is still there when the job ends. */
import { placeOf } from "../walk";
import { addedActs } from "./righting-fixes";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const supportLeft: ProcedureRule = {
  code: "support-left",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” is {state} here and still so at the end of the job.",
    hint: "Write where that ends, “{verb} {name}”, or what is left so: “{state} {name}” under “ends with”.",
    begins: "“{title}” is {state} when the job begins and still so at its end.",
    declared: "“{title}” is declared here.",
    fix: "Add “{verb} {name}” where it can be done",
  },
  docs: {
    what: "Something is still supported or raised at the end of the job, on every way through it or on some.",
    why: "A machine handed over on a jack falls off it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"  weight 12 kg
}

procedure look "Look at the winch" {
  on winch
  step "Hold" {
    warning crushing {
      "The drum is heavy."
      can "Crush a hand."
      so "Keep out from under it."
    }
    support drum
  }
  step "Done" {
  }
}
`,
      '  step "Done" {\n',
      '  step "Done" {\n    release drum\n',
    ),
  },
  check(procedure, report, sight) {
    for (const faulty of faultsOf("support-left", procedure, sight)) {
      const { fault, since } = faulty;
      const { thing, state, way } = fault;
      const verb = state === "raised" ? "lower" : "release";
      const args = { title: titleOf(thing), name: thing.name, state, verb };
      const related = [{ place: thing.place, message: "declared", args }];
      const fixes = addedActs(faulty);
      if (since) report({ place: placeOf(since), args, way, related, fixes });
      else
        report({ place: procedure.thing.place, message: "begins", hint: "hint", args, way, related, fixes });
    }
  },
};
