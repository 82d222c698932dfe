/** Something put in for the job only, and still in when it ends. */
import { placeOf } from "../walk";
import { addedActs } from "./righting-fixes";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const temporaryLeftIn: ProcedureRule = {
  code: "temporary-left-in",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” goes in here and is still in at the end of the job.",
    hint: "Write where it comes out: “pull {name}”.",
    begins: "“{title}” is in when the job begins and still in at its end.",
    "begins-hint":
      "Write where it comes out, “pull {name}”, or what is left so: “inserted {name}” under “ends with”.",
    fix: "Add “{verb} {name}” where it can be done",
  },
  docs: {
    what: "A temporary is in at the end of the job, on every way through it or on some.",
    why: "A locking pin that is forgotten breaks something at the first turn.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure hold "Hold the drum" {
  on winch
  temporary drum-pin "Locking pin"  into drum
  step "Pin" {
    insert drum-pin
  }
  step "Pin out" {
  }
}
`,
      '  step "Pin out" {\n',
      '  step "Pin out" {\n    pull drum-pin\n',
    ),
  },
  check(procedure, report, sight) {
    for (const faulty of faultsOf("temporary-left-in", procedure, sight)) {
      const { fault, since } = faulty;
      const { thing, way } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const fixes = addedActs(faulty);
      if (since) report({ place: placeOf(since), args, way, fixes });
      else report({ place: thing.place, message: "begins", args, way, fixes });
    }
  },
};
