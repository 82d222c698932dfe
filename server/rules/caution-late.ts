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
  fluid gear-oil "Gear oil"  hot
}

procedure change "Change the gear oil" {
  on winch
  section "Make ready" {
    step "Let the air out" {
      bleed gear-oil until "no more bubbles rise"
      warning burn {
        "The oil is hot after work."
        can "Scald."
        so "Let it cool before you open anything."
      }
    }
  }
  section "Oil" {
    step "Drain and fill" {
      drain gear-oil
      fill gear-oil
    }
  }
}
`,
      '      bleed gear-oil until "no more bubbles rise"\n',
      "",
    ),
  },
  check(procedure, report, sight) {
    for (const { untold, place, late, passed } of untoldOf(procedure, sight)) {
      if (!late || passed) continue;
      const args = { hazard: untold.hazard.hazard };
      report({ place, args, way: untold.way, related: [{ place: late, message: "late" }] });
    }
  },
};
