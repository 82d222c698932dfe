/** A bolt tightened to a torque without a tool that shows torque. */

import { toolFacts } from "../facts";
import type { Place, Procedure } from "../model";
import { formatQuantity } from "../units/format";
import { titleOf, twins } from "./say";
import { isAdapter, isTorqueWrench, saidTools, stagePlace, tighteningsOf } from "./tightenings";
import type { Fix, ProcedureRule } from "./types";

export const toolUndeclared: ProcedureRule = {
  code: "tool-undeclared",
  severity: "warning",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    main: "“{title}” is tightened to {torque}, and no tool with a torque range is said for it.",
    hint: "Say the wrench: “with {wrench}”.",
    "none-hint":
      'Declare one at the head of the procedure: “tool torque-wrench "Torque wrench"  10 to 100 N·m”.',
    stage: "The torque stands here.",
    fix: "Say “with {wrench}”",
  },
  docs: {
    what: "A fastener is tightened to a torque, and none of the tools said for it has a torque range.",
    why: "Without a wrench that shows torque the figure is a wish. The tool list is made from what the acts name.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts"  tighten 22 N·m
}

procedure settle "Tighten the lid again" {
  on winch
  tool wrench "Torque wrench"  10 to 60 N·m
  step "Tighten" {
    tighten lid-bolts
  }
}
`,
      "    tighten lid-bolts\n",
      "    tighten lid-bolts  with wrench\n",
    ),
  },
  check(procedure, report) {
    const wrenches = wrenchesIn(procedure);
    const wrench = wrenches[0];
    for (const tightening of tighteningsOf(procedure)) {
      const { stage, fastener, place } = tightening;
      const tools = saidTools(tightening);
      // An adapter without its wrench is told by a rule of its own.
      if (stage.kind !== "torque" || !stage.value || tools.some(isTorqueWrench) || tools.some(isAdapter))
        continue;
      const args = {
        title: titleOf(fastener),
        torque: formatQuantity(stage.value, { plain: true }),
        ...(wrench ? { wrench } : {}),
      };
      report({
        place,
        args,
        hint: wrench ? "hint" : "none-hint",
        related: [{ place: stagePlace(tightening), message: "stage" }],
        fixes: wrench && wrenches.length === 1 ? [fixOf(place, wrench)] : [],
      });
    }
  },
};

function wrenchesIn(procedure: Procedure): string[] {
  const tools = procedure.things.filter(
    (t) => t.kind === "tool" && toolFacts(t.entry).range?.kind === "torque",
  );
  return tools.map((t) => t.name);
}

/** Says the only wrench there is right behind what is tightened. */
function fixOf(place: Place, wrench: string): Fix<Place> {
  const changes = [{ place: { ...place, start: place.end }, text: `  with ${wrench}` }];
  return { title: { id: "fix", args: { wrench } }, safe: false, changes };
}
