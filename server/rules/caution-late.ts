/** A caution that stands after the act it should stand before. */
import { untoldOf } from "./cautions";
import { twins } from "./say";
import type { ProcedureRule } from "./types";

export const cautionLate: ProcedureRule = {
  code: "caution-late",
  severity: "error",
  group: "cautions",
  grain: "procedure",
  messages: {
    main: "The caution on “{hazard}” stands after this, and is read too late.",
    hint: "Move it to before this line.",
    late: "The caution stands here.",
  },
  docs: {
    what: "A caution stands after the act that raises its hazard, and no later act of the section raises it.",
    why: "A sheet is read from the top, and the hand is faster than the eye.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part brake-band "Brake band"  spring-loaded
}

procedure renew "Take the brake band off and put it on" {
  on winch
  section "Brake" {
    step "Off" {
      remove brake-band
      warning stored-energy {
        "The brake band is under tension."
        can "Whip out, and cost an eye."
        so "Slacken it fully and stand beside it."
      }
    }
    step "On" {
      fit brake-band
    }
  }
}
`,
      "      remove brake-band\n      warning stored-energy {\n",
      "      warning stored-energy {\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { untold, place, late } of untoldOf(procedure, sight)) {
      if (!late) continue;
      const args = { hazard: untold.hazard.hazard };
      report({ place, args, way: untold.way, related: [{ place: late, message: "late" }] });
    }
  },
};
