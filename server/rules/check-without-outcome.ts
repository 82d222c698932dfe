/** A check from which nothing follows: no outcome is written, nothing is recorded, and no condition asks for it. */
import { type Check, checkOf, type Entry, possibleOutcomes } from "../facts";
import type { Procedure, Thing } from "../model";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const checkWithoutOutcome: ProcedureRule = {
  code: "check-without-outcome",
  severity: "warning",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "Nothing follows from “{title}”, whatever it shows.",
    hint: "Say what is done then, “if {outcome} { … }”, or write the value down: “record”.",
  },
  docs: {
    what: "A check measures, looks or asks, but has no outcome in which anything stands, records nothing, and no later line asks how it turned out.",
    why: "The fitter finds the play too large, and the sheet goes on as if it were not.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the drum" {
  on winch
  check play "Play of the drum" {
    limit 0.1 to 0.2 mm
    proves drum
  }
}
`,
      "    limit 0.1 to 0.2 mm\n",
      "    limit 0.1 to 0.2 mm\n    record\n",
    ),
  },
  check(procedure, report) {
    for (const thing of procedure.targets) {
      if (thing.kind !== "check") continue;
      const check = checkOf(thing.entry);
      const looks =
        check.limits.length + check.marks.length + check.questions.length + check.choices.length > 0;
      if (!looks || check.record || hasOutcome(thing.entry) || isAskedFor(procedure, thing)) continue;
      report({ place: thing.place, args: { title: titleOf(thing), outcome: badOutcome(check) } });
    }
  },
};

function hasOutcome(entry: Entry): boolean {
  return entry.children.some(
    (c) => (c.entry.construct === "if" && c.entry.children.length > 0) || hasOutcome(c.entry),
  );
}

/** Whether a condition, or a kit item, asks how a check turned out. */
function isAskedFor(procedure: Procedure, check: Thing): boolean {
  return procedure.bindings.some((b) => b.thing === check && (b.within === "when" || b.within === "only-if"));
}

/** The outcome that most wants an answer. */
function badOutcome(check: Check): string {
  const outcomes = possibleOutcomes(check);
  return ["over", "under", "not met", "no"].find((o) => outcomes.includes(o)) ?? outcomes[0] ?? "not met";
}
