/** A stage of a tightening with less torque than the one before it. */
import { fastenerFacts } from "../facts";
import { placeAt } from "../model";
import { adjusts, stageTorque } from "../walk/bolts";
import { slipOf, torquesOf } from "./bolt-torques";
import { figureText } from "./bolt-words";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const torqueFalls: ThingRule = {
  code: "torque-falls",
  severity: "hint",
  group: "fasteners",
  grain: "thing",
  messages: {
    main: "“{title}” has {before} already when it comes to {torque}: a wrench set to that turns nothing.",
    hint: "Correct one of the two; or say between them that it is slackened: “stage slack back 1/2 turn”.",
    before: "The higher torque stands here.",
  },
  docs: {
    what: "A stage of a tightening has less torque than a stage before it, and nothing between them turns the fastener back. Not for bearings and settings, nor where stages are for some machines only.",
    why: "A figure is wrong or two stages stand in each other’s place; the bolts keep the higher torque.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    stage first 20 N·m
    stage second 4 N·m
    stage third 60 N·m
  }
}
`,
      "    stage second 4 N·m\n",
      "    stage second 40 N·m\n",
    ),
  },
  check(thing, report, _, machine) {
    if (thing.kind !== "fastener") return;
    const facts = fastenerFacts(thing.entry);
    if (facts.setting || adjusts(facts) || facts.stages.some((s) => s.onlyOn.length > 0)) return;
    const slipped = torquesOf(thing, machine).filter((one) => slipOf(one) !== null);
    facts.stages.forEach((stage, index) => {
      const [own, previous] = [stageTorque(stage), facts.stages[index - 1]];
      const before = previous && stageTorque(previous);
      if (!own || !before || !stage.value || !previous?.value || own.high >= before.low) return;
      // A slipped decimal has its own finding.
      if (slipped.some((one) => one.quantity === stage.value || one.quantity === previous.value)) return;
      report({
        place: placeAt(thing.file, thing.line, stage.at),
        args: {
          title: titleOf(thing),
          torque: figureText(stage.value),
          before: figureText(previous.value),
        },
        related: [{ place: placeAt(thing.file, thing.line, previous.at), message: "before" }],
      });
    });
  },
};
