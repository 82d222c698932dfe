/** A machine that is still running when the job ends. */
import { placeOf } from "../walk";
import { addedActs } from "./righting-fixes";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const leftRunning: ProcedureRule = {
  code: "left-running",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” is started here and still runs at the end of the job.",
    hint: "Write where it stops, “stop {name}”, or what is left so: “running {name}” under “ends with”.",
    begins: "“{title}” runs when the job begins and still runs at its end.",
    fix: "Add “{verb} {name}” where it can be done",
  },
  docs: {
    what: "A machine or part that was started is not stopped, on every way through the job or on some.",
    why: "Whoever thinks that the job is done reaches into a running machine.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
}

procedure look "Look at the winch" {
  on winch
  step "Try" {
    start winch
  }
  step "Done" {
  }
}
`,
      '  step "Done" {\n',
      '  step "Done" {\n    stop winch\n',
    ),
  },
  check(procedure, report, sight) {
    for (const faulty of faultsOf("left-running", procedure, sight)) {
      const { fault, since } = faulty;
      const { thing, way } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const fixes = addedActs(faulty);
      if (since) report({ place: placeOf(since), args, way, fixes });
      else report({ place: procedure.thing.place, message: "begins", hint: "hint", args, way, fixes });
    }
  },
};
