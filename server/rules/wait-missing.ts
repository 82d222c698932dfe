/** Something is opened before its charge, heat or pressure is gone. */
import type { Place } from "../model";
import { titleOf, twins } from "./say";
import type { Fix, ProcedureRule } from "./types";
import { faultsOf } from "./walked";
import { addedAbove } from "./workable";

export const waitMissing: ProcedureRule = {
  code: "wait-missing",
  severity: "error",
  group: "time and people",
  grain: "procedure",
  messages: {
    main: "“{title}” keeps its charge for {time}, and is opened here sooner.",
    charge: "“{title}” keeps a charge, and is opened here without a wait.",
    hot: "“{title}” is hot and under pressure, and the system is opened here without a wait.",
    hint: "Cut it off, write “wait {time}”, or a check with a tester that proves it dead, before this.",
    "charge-hint": "Cut it off and write a wait, or a check with a tester that proves it dead, before this.",
    "hot-hint": "Write how long or until when it cools: “wait until {name} below 40 °C”.",
    declared: "The machine says so here.",
    fix: "Add “{line}” before it",
  },
  docs: {
    what: "Something that stores a charge is touched without having been cut off and waited for, or a system that is hot and under pressure is opened without any wait since the machine may have run.",
    why: "A condenser kills with the plug pulled out, and a hot cap scalds.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  circuit drive "Drive"  high-voltage  stores-charge 5 min
}

procedure look "Look at the winch" {
  on winch
  step "Open" {
    danger electric-shock {
      "The drive keeps its charge."
      can "Kill."
      so "Wait, and prove that it is dead."
    }
    isolate drive
    wait 2 min
    open drive
    close drive
    restore drive
  }
}
`,
      "    wait 2 min\n",
      "    wait 5 min\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, point } of faultsOf("wait-missing", procedure, sight)) {
      const { thing, way, state } = fault;
      const args = { title: titleOf(thing), name: thing.name, time: state };
      const related = [{ place: thing.place, message: "declared" }];
      const add = (line: string): Fix<Place>[] => addedAbove(point, { id: "fix", args: { line } }, [line]);
      if (state === "hot")
        report({
          place,
          message: "hot",
          hint: "hot-hint",
          severity: "warning",
          args,
          way,
          related,
          fixes: add(`wait until ${thing.name} below 40 °C`),
        });
      else if (state === "charge")
        report({ place, message: "charge", hint: "charge-hint", args, way, related });
      else report({ place, args, way, related, fixes: add(`wait ${state}`) });
    }
  },
};
