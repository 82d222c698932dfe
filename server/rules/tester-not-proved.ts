/** A tester that is used without being proved before and after. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const testerNotProved: ProcedureRule = {
  code: "tester-not-proved",
  severity: "error",
  group: "time and people",
  grain: "procedure",
  messages: {
    main: "“{title}” is used here and was not proved before.",
    after: "“{title}” is used here and not proved again afterwards.",
    hint: 'Prove it on something known to be live: “prove {name} on "…"”.',
    declared: "It is said to prove that nothing is live: “proves-dead”.",
  },
  docs: {
    what: "A tool that shows that nothing is live is used, and nothing shows before or after that it works itself.",
    why: "A dead tester shows a dead circuit. Proved before and after: common practice, no source.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  circuit mains "Mains"
}

procedure look "Look at the winch" {
  on winch
  tool tester "Voltage tester"  proves-dead
  step "Cut off" {
    isolate mains
  }
  check dead "Nothing is live" {
    limit at most 12 V  with tester
    record
  }
  step "Once more" {
    prove tester on "the socket beside it"
    restore mains
  }
}
`,
      "    isolate mains\n",
      '    isolate mains\n    prove tester on "the socket beside it"\n',
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since } of faultsOf("tester-not-proved", procedure, sight)) {
      const { thing, way, state } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const related = [{ place: thing.place, message: "declared" }];
      if (state === "before") report({ place, args, way, related });
      else if (since) report({ place: placeOf(since), message: "after", hint: "hint", args, way, related });
    }
  },
};
