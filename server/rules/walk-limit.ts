/** A thing with more ways and states than are followed. */
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const walkLimit: ProcedureRule = {
  code: "walk-limit",
  severity: "hint",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "“{title}” has too many ways and states to follow all of them: some faults of it may not be found.",
    hint: "Allow fewer returns, or let fewer conditions decide about it.",
  },
  docs: {
    what: "Conditions, outcomes and returns that decide about one thing give more combinations than are followed.",
    why: "What is not followed is not checked, and that must not be passed over in silence.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part shim "Shim"
}

procedure set "Set the drum" {
  on winch
  check play "Play of the drum" {
    limit 0.1 to 0.2 mm
    if over {
      remove shim
      fit shim
      check again  at most 400 times
    }
    if still over {
      end job "The drum is worn."
    }
    if under {
      remove shim
      fit shim
      check again  at most 400 times
    }
    if still under {
      end job "The drum is bent."
    }
  }
}
`,
      "      check again  at most 400 times\n    }\n    if still under {\n",
      "      check again  at most 4 times\n    }\n    if still under {\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place } of faultsOf("walk-limit", procedure, sight))
      report({ place, args: { title: titleOf(fault.thing) } });
  },
};
