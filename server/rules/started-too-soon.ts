/** The machine is started while something is still off, loose or drained. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const startedTooSoon: ProcedureRule = {
  code: "started-too-soon",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    off: "“{title}” is still off when the machine starts here.",
    out: "“{title}” is still out when the machine starts here.",
    drained: "“{title}” is still drained when the machine starts here.",
    disconnected: "“{title}” is still disconnected when the machine starts here.",
    loose: "“{title}” is not tight yet when the machine starts here.",
    hint: "Put it right before the start.",
    "off-hint":
      "Write “fit {name}” before the start, or say that it is left off on purpose: “without {name}”.",
    "disconnected-hint":
      "Write “connect {name}” before the start, or say that it is left so on purpose: “without {name}”.",
    since: "It is so since here.",
  },
  docs: {
    what: "The machine is started or run in although something that the job took off, disconnected, slackened or drained is put right only afterwards. What is left off on purpose is named with `without`; a fastener that sets a position is not meant.",
    why: "What is missing or loose is thrown off, runs dry, or catches a hand.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
}

procedure look "Look at the winch" {
  on winch
  step "Take off" {
    remove cover
  }
  step "Try" {
    start winch
    stop winch
  }
  step "Put back" {
    fit cover
  }
}
`,
      "    start winch\n",
      "    start winch  without cover\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since } of faultsOf("started-too-soon", procedure, sight)) {
      const { thing, way, state } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const message = SAID.has(state) ? state : "loose";
      const isOnPurpose = state === "disconnected" || (state === "off" && thing.kind !== "fastener");
      const hint = isOnPurpose ? `${state}-hint` : "hint";
      report({
        place,
        message,
        hint,
        args,
        way,
        related: since ? [{ place: placeOf(since), message: "since" }] : [],
      });
    }
  },
};

/** The states that have a message of their own. */
const SAID: ReadonlySet<string> = new Set(["off", "out", "drained", "disconnected"]);
