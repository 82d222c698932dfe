/** A symptom decides something before the step at which it is asked. */
import { namesOfClause } from "../facts";
import type { Binding, Procedure, Thing } from "../model";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const askedTooLate: ProcedureRule = {
  code: "asked-too-late",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” is asked just before “{step}”, and these lines come earlier.",
    hint: "Say “ask before” an earlier step, or move these lines down.",
    step: "It is asked before this.",
  },
  docs: {
    what: "A condition goes by a symptom, and stands before the step or check that the symptom says it is asked before.",
    why: "The line cannot be followed yet; and a symptom that the job has removed by then can never be asked again.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the winch" {
  on winch
  symptom whine "The drum whines"  ask before wash
  step look-first "Look" {
    when whine {
      clean drum
    }
  }
  step wash "Wash" {
    clean drum
  }
}
`,
      "ask before wash\n",
      "ask before look-first\n",
    ),
  },
  check(procedure, report) {
    for (const { binding, target } of askedBefore(procedure)) {
      const symptom = binding.thing as Thing;
      report({
        place: binding.place,
        args: { title: titleOf(symptom), step: titleOf(target) },
        related: [{ place: target.place, message: "step" }],
      });
    }
  },
};

/** Conditions on a symptom that stand before the step at which it is asked. */
function askedBefore(procedure: Procedure): { binding: Binding; target: Thing }[] {
  return procedure.bindings.flatMap((binding) => {
    const { thing, within, place } = binding;
    if (within !== "when" || thing?.kind !== "symptom") return [];
    const name = namesOfClause(thing.entry, "ask-before", "step")[0];
    const target = name && procedure.find(name.name, ["step", "check"]);
    return target && target.file === place.file && place.line < target.line ? [{ binding, target }] : [];
  });
}
