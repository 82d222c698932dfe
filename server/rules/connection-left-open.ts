/** A line, tap or circuit that is disconnected, open or isolated when the job ends. */
import { placeOf } from "../walk";
import { addedActs } from "./righting-fixes";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const connectionLeftOpen: ProcedureRule = {
  code: "connection-left-open",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” is {state} here and still so at the end of the job.",
    hint: "Write where it is put right, “{verb} {name}”, or what is left so: “{state} {name}” under “ends with”.",
    begins: "“{title}” is {state} when the job begins and still so at its end.",
    declared: "“{title}” is declared here.",
    fix: "Add “{verb} {name}” where it can be done",
  },
  docs: {
    what: "Something that was disconnected, opened or isolated is still so at the end of the job, on every way through it or on some.",
    why: "A plug left off stops the machine, a tap left open empties it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  tap drain-tap "Drain tap"
}

procedure look "Look at the winch" {
  on winch
  step "Drain" {
    open drain-tap
  }
  step "Done" {
  }
}
`,
      '  step "Done" {\n',
      '  step "Done" {\n    close drain-tap\n',
    ),
  },
  check(procedure, report, sight) {
    for (const faulty of faultsOf("connection-left-open", procedure, sight)) {
      const { fault, since } = faulty;
      const { thing, state, way } = fault;
      const verb = VERBS[state] ?? "connect";
      const args = { title: titleOf(thing), name: thing.name, state, verb };
      const related = [{ place: thing.place, message: "declared", args }];
      const fixes = addedActs(faulty);
      if (since) report({ place: placeOf(since), args, way, related, fixes });
      else
        report({ place: procedure.thing.place, message: "begins", hint: "hint", args, way, related, fixes });
    }
  },
};

/** What puts a state right again. */
const VERBS: Readonly<Record<string, string>> = {
  disconnected: "connect",
  opened: "close",
  isolated: "restore",
};
