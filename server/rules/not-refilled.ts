/** A fluid that is drained and not in again when the job ends. */
import { placeOf } from "../walk";
import { addedActs } from "./righting-fixes";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const notRefilled: ProcedureRule = {
  code: "not-refilled",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” is drained here and not filled in again by the end of the job.",
    hint: "Write where it goes in, “fill {name}”, or what is left so: “drained {name}” under “ends with”.",
    begins: "“{title}” is drained when the job begins and not filled in by its end.",
    declared: "“{title}” is declared here.",
    fix: "Add “{verb} {name}” where it can be done",
  },
  docs: {
    what: "A fluid is out at the end of the job, on every way through it or on some.",
    why: "A machine that runs dry is ruined in minutes.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fluid oil "Gear oil"  2 L
}

procedure look "Look at the winch" {
  on winch
  step "Drain" {
    drain oil
  }
  step "Fill" {
  }
}
`,
      '  step "Fill" {\n',
      '  step "Fill" {\n    fill oil\n',
    ),
  },
  check(procedure, report, sight) {
    for (const faulty of faultsOf("not-refilled", procedure, sight)) {
      const { fault, since } = faulty;
      const { thing, way } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const related = [{ place: thing.place, message: "declared", args }];
      const fixes = addedActs(faulty);
      if (since) report({ place: placeOf(since), args, way, related, fixes });
      else
        report({ place: procedure.thing.place, message: "begins", hint: "hint", args, way, related, fixes });
    }
  },
};
