/** A torque whose decimal point has slipped by a place. */
import type { Place } from "../model";
import { makeAmount } from "../units/amount";
import { roundedDecimal } from "../units/decimal";
import { makeQuantity } from "../units/quantity";
import { type BoltTorque, figureInOtherUnit, slipOf, torquesOf } from "./bolt-torques";
import { assumedOf, figureText } from "./bolt-words";
import { repaired, titleOf, twins } from "./say";
import type { Fix, ThingRule } from "./types";

export const slippedDecimal: ThingRule = {
  code: "slipped-decimal",
  severity: "error",
  group: "quantities",
  grain: "thing",
  messages: {
    much: "{torque} breaks “{title}” whatever its friction ({assumed}); {meant} would fit.",
    little: "{torque} does not stretch “{title}” enough to hold anything ({assumed}); {meant} would fit.",
    hint: "If the decimal point has slipped: “{line}”.",
    "unit-hint": "Has the decimal point slipped (“{line}”), or is the unit wrong? {figure} would fit too.",
    "other-hint":
      "If the decimal point has slipped, write {meant}, and mend the figure in the other unit too.",
    fix: "Write {meant}",
  },
  docs: {
    what: "A torque is more than any bolt of this thread and class bears, or far less than one is ever tightened with, and a tenth of it or ten times it is what is usual. What is too little is told only where the class is said.",
    why: "A decimal point is easily lost in copying, and a bolt breaks or comes loose by it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    thread  M8
    class   8.8
    dry
    tighten 240 N·m
  }
}
`,
      "240 N·m",
      "24 N·m",
    ),
  },
  check(thing, report, sight, machine) {
    for (const one of torquesOf(thing, machine)) {
      const slip = slipOf(one);
      if (slip === null) continue;
      const much = slip.slip === "ten-times-too-much";
      const meant = movedPoint(one, much ? 0.1 : 10);
      const line = sight.file.document.lines[one.place.line];
      const other = figureInOtherUnit(one);
      const alone = line !== undefined && one.quantity.shape === "exact" && one.quantity.other === null;
      report({
        place: one.place,
        message: much ? "much" : "little",
        severity: much ? "error" : "warning",
        hint: !alone ? "other-hint" : other ? "unit-hint" : "hint",
        args: {
          title: titleOf(thing),
          torque: figureText(one.quantity),
          assumed: assumedOf(one.bolt),
          meant,
          figure: other ?? "",
          line: alone ? repaired(line, one.place, meant) : "",
        },
        fixes: alone ? [fixOf(one.place, meant)] : [],
      });
    }
  },
};

/** The figure with its point moved, in the writer's unit; of a range both, of a tolerance the middle. */
function movedPoint({ quantity }: BoltTorque, by: number): string {
  const { shape, low, high, nominal } = quantity;
  const amounts = (shape === "range" ? [low, high] : [nominal ?? low ?? high]).flatMap((amount) => {
    if (amount === null) return [];
    const value = Number((amount.decimal.value * by).toPrecision(12));
    const digits = String(value).split(".")[1]?.length ?? 0;
    return makeAmount(roundedDecimal(value, digits), amount.unit);
  });
  const [first, second] = amounts;
  const written =
    first &&
    makeQuantity({ shape: second ? "range" : "exact", first, ...(second ? { second } : {}), text: "" });
  return written ? figureText(written) : "";
}

function fixOf(place: Place, meant: string): Fix<Place> {
  return { title: { id: "fix", args: { meant } }, safe: false, changes: [{ place, text: meant }] };
}
