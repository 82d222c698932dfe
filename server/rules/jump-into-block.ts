/** A jump into the middle of a condition or an outcome. */
import { type Point, placeOf } from "../walk";
import { twins } from "./say";
import type { ProcedureRule } from "./types";
import { headPlace } from "./walked";

export const jumpIntoBlock: ProcedureRule = {
  code: "jump-into-block",
  severity: "error",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "This leads into lines that stand under a condition, past the condition itself.",
    hint: "Lead to a step or check outside, or move the condition into the step that is led to.",
    target: "It leads here.",
  },
  docs: {
    what: "A `go to` or `repeat` leads to a step or check that stands under a condition or in an outcome which the jump does not stand in itself.",
    why: "The fitter comes into lines that hold only for other machines or results.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the drum" {
  on winch
  symptom rattle "The drum rattles"
  check play "Play of the drum" {
    limit 0.1 to 0.2 mm
    proves drum
    if over {
      go to greased
    }
  }
  when rattle {
    step greased "Grease" {
      clean drum
    }
  }
  step done "Done" {
    wait 5 min
  }
}
`,
      "      go to greased\n",
      "      go to done\n",
    ),
  },
  check(procedure, report, sight) {
    const { graph, reach } = sight.walk(procedure);
    for (const at of reach().inward) {
      const point = graph.points[at] as Point;
      const target = point.kind === "go-to" || point.kind === "return" ? graph.points[point.to] : undefined;
      report({
        place: placeOf(point),
        related: target ? [{ place: headPlace(target.spot), message: "target" }] : [],
      });
    }
  },
};
