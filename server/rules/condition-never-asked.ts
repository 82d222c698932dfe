/** A condition on a check that has not been made. */
import { namesIn } from "../facts";
import { type Point, placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const conditionNeverAsked: ProcedureRule = {
  code: "condition-never-asked",
  severity: "error",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "“{title}” has not been made on any way that comes here.",
    hint: "Move these lines behind the check, or ask for another.",
    check: "The check stands here.",
  },
  docs: {
    what: "A condition asks how a check turned out, and no way that comes there has made the check before.",
    why: "The fitter turns the pages for a value that is not written down yet.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the drum" {
  on winch
  symptom rattle "The drum rattles"
  step "Look" {
    when play over {
      clean drum
    }
    when rattle {
      wait 5 min
    }
  }
  check play "Play of the drum" {
    limit 0.1 to 0.2 mm
    proves drum
    record
  }
}
`,
      "    when play over {\n",
      "    when rattle {\n",
    ),
  },
  check(procedure, report, sight) {
    const { graph, reach } = sight.walk(procedure);
    for (const at of reach().unasked) {
      const point = graph.points[at] as Point;
      const name = namesIn(point.spot.entry.form, "condition")[0]?.name ?? "";
      const check = graph.scope.find(name, ["check"]);
      if (!check) continue;
      report({
        place: placeOf(point),
        args: { title: titleOf(check) },
        related: [{ place: check.place, message: "check" }],
      });
    }
  },
};
