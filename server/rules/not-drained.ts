/** Something with a fluid in it comes off or open while the fluid is in it. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";
import { addedAbove } from "./workable";

export const notDrained: ProcedureRule = {
  code: "not-drained",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” has “{fluid}” in it, and that is not drained.",
    hint: "Drain it first, “drain {fluidName}”, or say what catches it: “with” a tool that has a capacity.",
    fix: "Add “drain {fluidName}” before it",
    filled: "It is filled again here.",
  },
  docs: {
    what: "A part or line is taken off or disconnected while the fluid it contains is in it, and nothing is said to catch it.",
    why: "It runs over hands and floor, hot or harmful as it may be.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fluid oil "Gear oil"  2 L
  part cover "Gear cover"  contains oil
}

procedure look "Look at the winch" {
  on winch
  step "Take off" {
    remove cover
  }
  step "Put back" {
    fit cover
    fill oil
  }
}
`,
      "    remove cover\n",
      "    drain oil\n    remove cover\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since, point } of faultsOf("not-drained", procedure, sight)) {
      const args = {
        title: titleOf(fault.other ?? fault.thing),
        fluid: titleOf(fault.thing),
        fluidName: fault.thing.name,
      };
      const related = since ? [{ place: placeOf(since), message: "filled" }] : [];
      const fixes = addedAbove(point, { id: "fix", args }, [`drain ${fault.thing.name}`]);
      report({ place, args, way: fault.way, related, fixes });
    }
  },
};
