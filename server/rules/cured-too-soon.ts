/** A supply is loaded before it has cured. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";
import { addedAbove } from "./workable";

export const curedTooSoon: ProcedureRule = {
  code: "cured-too-soon",
  severity: "error",
  group: "time and people",
  grain: "procedure",
  messages: {
    main: "“{title}” needs {time} to cure, and this comes sooner.",
    hint: "Write the wait before this line: “wait {time}”.",
    fix: "Add “wait {time}” before it",
    put: "It is put on here.",
  },
  docs: {
    what: "The machine is started, or the fluid filled in, before the sealant or adhesive under it has had its time to cure. Only written waits count.",
    why: "It is pushed out of the joint, and leaks for good.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  consumable glue "Sealant"  cure 1 h
  part cover "Gear cover"
}

procedure look "Look at the winch" {
  on winch
  step "Seal" {
    remove cover
    seal cover  with glue
    fit cover
    wait 10 min
    start winch
    stop winch
  }
}
`,
      "    wait 10 min\n",
      "    wait 1 h\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since, point } of faultsOf("cured-too-soon", procedure, sight)) {
      const { thing, way, state } = fault;
      const related = since ? [{ place: placeOf(since), message: "put" }] : [];
      const fixes = addedAbove(point, { id: "fix", args: { time: state } }, [`wait ${state}`]);
      report({ place, args: { title: titleOf(thing), time: state }, way, related, fixes });
    }
  },
};
