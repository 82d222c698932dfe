/** A torque at which the bolt is stretched past its yield, whatever its friction. */
import { exactly } from "../mechanics/range";
import { preloadOf, tighteningFor } from "../mechanics/tightening";
import { formatAmount } from "../units/format";
import { figureInOtherUnit, slipOf, torquesOf } from "./bolt-torques";
import { assumedOf, figureText, shareText, torquesText, torqueText } from "./bolt-words";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const torqueTooHigh: ThingRule = {
  code: "torque-too-high",
  severity: "error",
  group: "fasteners",
  grain: "thing",
  messages: {
    main: "{torque} stretches “{title}” past its yield whatever its friction: {share} of it at least ({assumed}).",
    upper:
      "{torque} allows {high}, which takes “{title}” past its yield whatever its friction: {share} of it ({assumed}).",
    hint: "Not more than {most}. 90 % of the yield, which tables go to, comes to {usual}, by friction and head.",
    "unit-hint":
      "Is the unit right? {figure} would fit. 90 % of the yield comes to {usual}, by friction and head.",
  },
  docs: {
    what: "A torque stretches a bolt of this thread and class past its yield, even with the most friction that its state allows; of a range or a tolerance, its upper end. Thread and class must be said; without a state every friction is allowed for (VDI 2230, ISO 898-1, SAE J429, ISO 3506-1).",
    why: "The bolt is stretched for good as it is tightened, and breaks then or later.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    thread  M8
    class   8.8
    dry
    tighten 70 N·m
  }
}
`,
      "70 N·m",
      "24 N·m",
    ),
  },
  check(thing, report, _sight, machine) {
    for (const one of torquesOf(thing, machine)) {
      const { bolt, quantity, torque, place } = one;
      // What is allowed must all be borne: the upper end of a tolerance counts as much as the lower.
      const [least, share] = [torque.low, torque.high].map(
        (one) => preloadOf(bolt.bolt, exactly(one))?.share,
      );
      const [most, usual] = [tighteningFor(bolt.bolt, 1), tighteningFor(bolt.bolt)];
      if (!share || !most || !usual || share.low <= 1 || slipOf(one) !== null) continue;
      const figure = figureInOtherUnit(one);
      const upperAlone = (least?.low ?? 2) <= 1;
      report({
        place,
        ...(upperAlone ? { message: "upper" } : {}),
        hint: figure ? "unit-hint" : "hint",
        args: {
          title: titleOf(thing),
          torque: figureText(quantity),
          high: quantity.high ? formatAmount(quantity.high, { plain: true }) : "",
          share: shareText(exactly(upperAlone ? share.low : (least?.low ?? share.low))),
          assumed: assumedOf(bolt),
          most: torqueText(most.torque.high, quantity.unit),
          usual: torquesText(usual.torque, quantity.unit),
          figure: figure ?? "",
        },
      });
    }
  },
};
