/** A stage of so many degrees without anything to measure them. */
import { formatQuantity } from "../units/format";
import { titleOf, twins } from "./say";
import { isTorqueWrench, saidTools, stagePlace, tighteningsOf } from "./tightenings";
import type { ProcedureRule } from "./types";

export const angleGaugeMissing: ProcedureRule = {
  code: "angle-gauge-missing",
  severity: "warning",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    main: "“{title}” is turned by {angle}, and nothing is said to measure the angle with.",
    hint: "Say it on the stage’s line: “stage {stage} with angle-gauge”.",
    "one-hint": "Say it: “with angle-gauge”.",
    angle: "The angle stands here.",
  },
  docs: {
    what: "A fastener is turned by an angle in degrees, and no tool other than a torque wrench is said for it. Parts of a turn are counted by eye, so they are left alone.",
    why: "Ten degrees too far or too short, and a bolt tightened into its yield is worthless.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener hub-bolt "Hub bolt" {
    dry
    stage snug 40 N·m
    stage final 90°
    reuse at most 3 times
  }
}

procedure settle "Tighten the hub again" {
  on winch
  tool wrench "Torque wrench"  10 to 60 N·m
  tool angle-gauge "Angle gauge"
  step "Tighten" {
    loosen hub-bolt
    tighten hub-bolt {
      stage snug  with wrench
      stage final
    }
  }
}
`,
      "      stage final\n",
      "      stage final  with angle-gauge\n",
    ),
  },
  check(procedure, report) {
    for (const tightening of tighteningsOf(procedure)) {
      const { stage, fastener, place } = tightening;
      if (stage.kind !== "angle" || !stage.value || isPartOfTurn(stage.value.unit.id)) continue;
      if (saidTools(tightening).some((tool) => !isTorqueWrench(tool))) continue;
      const args = {
        title: titleOf(fastener),
        angle: formatQuantity(stage.value, { plain: true }),
        stage: stage.name,
      };
      report({
        place,
        args,
        hint: stage.name === "" ? "one-hint" : "hint",
        related: [{ place: stagePlace(tightening), message: "angle" }],
      });
    }
  },
};

/** A quarter turn is counted by the spanner's flats, without a gauge (common practice, no source). */
function isPartOfTurn(unit: string): boolean {
  return unit === "turn";
}
