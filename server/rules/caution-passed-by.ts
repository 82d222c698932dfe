/** A jump leads past the caution and on to the act. */
import { untoldOf } from "./cautions";
import { twins } from "./say";
import type { ProcedureRule } from "./types";

export const cautionPassedBy: ProcedureRule = {
  code: "caution-passed-by",
  severity: "error",
  group: "cautions",
  grain: "procedure",
  messages: {
    main: "The caution on “{hazard}” is passed by on the way here.",
    hint: "Let the jump lead to before the caution, or put the caution into the step with the act.",
    passed: "The caution stands here.",
  },
  docs: {
    what: "A caution stands before the act that raises its hazard, but a `go to`, `repeat` or `check again` leads to the act without coming by it.",
    why: "Whoever is led round a warning has not read it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part brake-band "Brake band"  spring-loaded
}

procedure renew "Take the brake band off and put it on" {
  on winch
  section "Brake" {
    check play "Play" {
      limit 0.1 to 0.2 mm
      if over {
        go to off
      }
    }
    step read "Read this" {
      warning stored-energy {
        "The brake band is under tension."
        can "Whip out, and cost an eye."
        so "Slacken it fully and stand beside it."
      }
    }
    step off "Off and on" {
      remove brake-band
      fit brake-band
    }
  }
}
`,
      "        go to off\n",
      "        go to read\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { untold, place, passed } of untoldOf(procedure, sight)) {
      if (!passed) continue;
      const args = { hazard: untold.hazard.hazard };
      report({ place, args, way: untold.way, related: [{ place: passed, message: "passed" }] });
    }
  },
};
