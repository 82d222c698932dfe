/** A section, a step or lines under a condition that no way comes to. */
import { textIn } from "../facts";
import { originOf, type Point } from "../walk";
import { shortened, twins } from "./say";
import type { ProcedureRule } from "./types";
import { headPlace } from "./walked";

export const unreachableStep: ProcedureRule = {
  code: "unreachable-step",
  severity: "error",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "No way comes to “{title}”.",
    body: "No way comes to the lines under this condition.",
    hint: "Look at what leads past it, “go to” or “end job”; or take it out.",
    line: "No way comes to this line: the one before it always leads away.",
    "line-hint": "Put it before “{lead}”, or take it out.",
    lead: "Here the way leads off.",
    "body-hint":
      "What was decided before rules it out: take the condition out, or look at what it stands in.",
  },
  docs: {
    what: "No way through the procedure comes to a section or step, to the lines under a condition, or to a line behind “end job”, “go to” or a return: something always leads past it, or what was decided before rules it out.",
    why: "The writer meant it to be done, and nobody will do it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the drum" {
  on winch
  symptom rattle "The drum rattles"
  symptom leak "Oil drips"
  step "Look" {
    when leak {
      clean drum
    }
    when rattle {
      clean drum
    }
    otherwise {
      when rattle {
        wait 5 min
      }
    }
  }
}
`,
      "      when rattle {\n        wait",
      "      when leak {\n        wait",
    ),
  },
  check(procedure, report, sight) {
    const { reach, graph } = sight.walk(procedure);
    for (const at of reach().stranded) {
      const point = graph.points[at] as Point;
      const lead = graph.points[at - 1] as Point;
      // What a followed procedure holds is told there.
      if (point.spot.through) continue;
      const args = { lead: shortened((lead.spot.entry.line?.text ?? "").trim()) };
      const related = [{ place: originOf(lead), message: "lead" }];
      report({ place: headPlace(point.spot), message: "line", hint: "line-hint", args, related });
    }
    for (const { construct, spot } of reach().unreached) {
      const place = headPlace(spot);
      if (construct === "section" || construct === "step")
        report({ place, args: { title: shortened(textIn(spot.entry.form, "title")) } });
      else if (construct === "when" || construct === "otherwise")
        report({ place, message: "body", hint: "body-hint" });
    }
  },
};
