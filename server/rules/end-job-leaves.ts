/** The job ends unfinished and leaves something dangerous. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const endJobLeaves: ProcedureRule = {
  code: "end-job-leaves",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    running: "The job ends here while “{title}” runs.",
    raised: "The job ends here while “{title}” is raised and nothing supports it.",
    inserted: "The job ends here while “{title}” is in, where it can be forgotten.",
    "running-hint": "Stop it first: “stop {name}”.",
    "raised-hint": "Let it down or support it first: “lower {name}”, “support {name}”.",
    "inserted-hint": "Take it out first: “pull {name}”.",
    since: "It is so since here.",
  },
  docs: {
    what: "On some way `end job` is come to while something runs, hangs on a jack, or is locked with a pin that can be forgotten. What else is unfinished may stay so.",
    why: "Whoever finds the machine does not know how it was left.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
}

procedure look "Look at the winch" {
  on winch
  step "Try" {
    start winch
  }
  check runs "It runs" {
    observe "Does the drum run freely?"
    if no {
      end job "Ask the maker."
    }
  }
  step "Done" {
    stop winch
  }
}
`,
      "    if no {\n",
      "    if no {\n      stop winch\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since } of faultsOf("end-job-leaves", procedure, sight)) {
      const { thing, state, way } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const related = since ? [{ place: placeOf(since), message: "since" }] : [];
      report({ place, message: state, hint: `${state}-hint`, args, way, related });
    }
  },
};
