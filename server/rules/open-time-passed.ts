/** A joint is closed, or an act done, later than it may be. */
import { originOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const openTimePassed: ProcedureRule = {
  code: "open-time-passed",
  severity: "error",
  group: "time and people",
  grain: "procedure",
  messages: {
    main: "“{since}” may stand open for {limit}, and this comes later.",
    hint: "Close the joint first and wait afterwards.",
    event: "This must follow “{since}” within {limit}, and comes later.",
    "event-hint": "Do it before the wait, or allow more time.",
    wait: "Here the time runs out.",
    limit: "How long it may stand open is said here.",
  },
  docs: {
    what: "The waits between putting on a supply and closing the joint are longer than its open time, or those between an event and an act longer than the act allows.",
    why: "Sealant that has skinned over does not seal.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  consumable sealant "Sealant"  open-time 10 min
  part cover "Gear cover"
}

procedure reseal "Seal the gear cover" {
  on winch
  step "Take off" {
    remove cover
  }
  step "Seal" {
    seal cover  with sealant
    wait 15 min
    fit cover
  }
}
`,
      "    wait 15 min\n",
      "    wait 5 min\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since } of faultsOf("open-time-passed", procedure, sight)) {
      const { thing, way, state: limit } = fault;
      const isSupply = thing.kind === "consumable";
      const related = [
        ...(since ? [{ place: originOf(since), message: "wait" }] : []),
        ...(isSupply ? [{ place: thing.place, message: "limit" }] : []),
      ];
      report({
        place,
        ...(isSupply ? {} : { message: "event" }),
        args: { since: titleOf(thing), limit },
        way,
        related,
      });
    }
  },
};
