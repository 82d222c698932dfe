/** A torque that uses hardly anything of what the bolt can bear. */
import { preloadOf, tighteningFor } from "../mechanics/tightening";
import { figureInOtherUnit, shouldClamp, slipOf, torquesOf } from "./bolt-torques";
import { assumedOf, figureText, shareText, torquesText } from "./bolt-words";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

/** Under this share of its yield, at the least friction, a bolt that clamps metal is worth a look (common practice, no source). */
const LITTLE = 0.2;

export const torqueTooLow: ThingRule = {
  code: "torque-too-low",
  severity: "hint",
  group: "fasteners",
  grain: "thing",
  messages: {
    main: "{torque} uses {share} of the yield of “{title}” at most ({assumed}).",
    hint: "90 % comes to {usual}, by friction and head. If what it clamps or threads into is soft, say so: “threads-into plastic”; if it only sets a position, “setting”.",
    "unit-hint": "Is the unit right? {figure} would fit: 90 % comes to {usual}, by friction and head.",
  },
  docs: {
    what: "A bolt whose thread, class and thread state are said is left with a torque that uses less than a fifth of its yield, even with the least friction. Not for bearings, settings, plastic, wood, and bolts that an angle or a lock follows.",
    why: "A bolt that is not stretched does not hold its load, and works loose.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    thread  M10
    class   8.8
    dry
    tighten 10 N·m
  }
}
`,
      "10 N·m",
      "45 N·m",
    ),
  },
  check(thing, report, _sight, machine) {
    for (const one of torquesOf(thing, machine)) {
      const { bolt, quantity, torque, place } = one;
      if (!shouldClamp(one) || bolt.said.state === null) continue;
      const share = preloadOf(bolt.bolt, torque)?.share;
      const usual = tighteningFor(bolt.bolt);
      if (!share || !usual || share.high >= LITTLE || slipOf(one) !== null) continue;
      const figure = figureInOtherUnit(one);
      report({
        place,
        hint: figure ? "unit-hint" : "hint",
        args: {
          title: titleOf(thing),
          torque: figureText(quantity),
          share: shareText({ low: share.high, high: share.high }),
          assumed: assumedOf(bolt),
          usual: torquesText(usual.torque, quantity.unit),
          figure: figure ?? "",
        },
      });
    }
  },
};
