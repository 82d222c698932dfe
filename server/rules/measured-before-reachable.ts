/** A mark is looked at while something stands in front of it. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const measuredBeforeReachable: ProcedureRule = {
  code: "measured-before-reachable",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{front}” is still on, and “{title}” is behind it.",
    hint: "Take it off before the check: “remove {frontName}”.",
    back: "It goes back on here.",
    declared: "“{title}” is declared here.",
  },
  docs: {
    what: "A check looks at a mark while what stands in front of the mark is on.",
    why: "What cannot be seen is ticked off unseen.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  shaft drum "Drum"
  mark drum-mark "Dot on the drum"  on drum  at 0°  behind cover
}

procedure look "Look at the mark" {
  on winch
  ends with {
    off cover
  }
  step "Set" {
    remove cover
    align drum-mark
    fit cover
  }
  check stands "The mark" {
    marks drum-mark
    if not met {
      end job "Ask the maker."
    }
  }
}
`,
      "    fit cover\n",
      "",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since } of faultsOf("measured-before-reachable", procedure, sight)) {
      const mark = fault.other ?? fault.thing;
      const args = { front: titleOf(fault.thing), frontName: fault.thing.name, title: titleOf(mark) };
      const related = [
        ...(since ? [{ place: placeOf(since), message: "back" }] : []),
        { place: mark.place, message: "declared", args },
      ];
      report({ place, args, way: fault.way, related });
    }
  },
};
