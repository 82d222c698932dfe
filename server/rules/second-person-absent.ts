/** An act takes more people than the job has. */
import { partFacts } from "../facts";
import type { Procedure } from "../model";
import { type ActAt, actsOf, thingsNamed } from "./look";
import { twins } from "./say";
import type { ProcedureRule } from "./types";

export const secondPersonAbsent: ProcedureRule = {
  code: "second-person-absent",
  severity: "warning",
  group: "time and people",
  grain: "procedure",
  messages: {
    main: "This takes {people} people, and the job names {count}.",
    hint: 'Name who else takes part: “person … "…"”.',
    alone: "This is dangerous work done alone, and elsewhere somebody looks on.",
    "alone-hint": "Write “watched by {watcher}”.",
    watched: "Here somebody looks on.",
  },
  docs: {
    what: "An act says how many people it takes, and the procedure names fewer beside the fitter; or work on what is under high voltage is watched at one line and not at another.",
    why: "The second pair of hands is looked for when the weight hangs.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"  weight 12 kg
}

procedure look "Look at the winch" {
  on winch
  person helper "Helper"
  step "Off and on" {
    remove drum  by 3 people
    fit drum  by 2 people
  }
}
`,
      "    remove drum  by 3 people\n",
      "    remove drum  by 2 people\n",
    ),
  },
  check(procedure, report) {
    const persons = procedure.things.filter((t) => t.kind === "person").length;
    const acts = actsOf(procedure);
    const watched = acts.find((a) => a.act.watchedBy && isLive(procedure, a));
    for (const one of acts) {
      const { act, head } = one;
      if (persons > 0 && act.people > persons + 1)
        report({ place: head, args: { people: String(act.people), count: String(persons + 1) } });
      if (!watched || act.watchedBy || !isLive(procedure, one)) continue;
      const args = { watcher: watched.act.watchedBy?.name ?? "" };
      report({
        place: head,
        message: "alone",
        hint: "alone-hint",
        args,
        related: [{ place: watched.head, message: "watched" }],
      });
    }
  },
};

const TOUCHES: ReadonlySet<string> = new Set(["remove", "open", "disconnect"]);

/** Whether an act opens or takes off something that is under high voltage. */
function isLive(procedure: Procedure, { act }: ActAt): boolean {
  if (!TOUCHES.has(act.verb)) return false;
  return thingsNamed(procedure, act.what, ["part", "line"]).some(
    ({ thing }) => partFacts(thing.entry).highVoltage,
  );
}
