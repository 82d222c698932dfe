/** A check that no way comes to. */
import { textIn } from "../facts";
import { shortened, twins } from "./say";
import type { ProcedureRule } from "./types";
import { headPlace } from "./walked";

export const unreachableCheck: ProcedureRule = {
  code: "unreachable-check",
  severity: "error",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "No way comes to the check “{title}”.",
    hint: "Look at what leads past it, “go to” or “end job”; or take it out.",
  },
  docs: {
    what: "No way through the procedure comes to a check: something always leads past it, or what was decided before rules it out.",
    why: "What is never looked at proves nothing.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the drum" {
  on winch
  step "Look" {
    clean drum
    go to done
  }
  check play "Play of the drum" {
    limit 0.1 to 0.2 mm
    proves drum
    record
  }
  step done "Done" {
    wait 5 min
  }
}
`,
      "    go to done\n",
      "    wait 2 min\n",
    ),
  },
  check(procedure, report, sight) {
    const { reach } = sight.walk(procedure);
    for (const { construct, spot } of reach().unreached) {
      if (construct !== "check") continue;
      report({ place: headPlace(spot), args: { title: shortened(textIn(spot.entry.form, "title")) } });
    }
  },
};
