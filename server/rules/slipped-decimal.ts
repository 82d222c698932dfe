/** A torque whose decimal point has slipped by a place. */
import { fastenerFacts } from "../facts";
import { type Place, placeAt, type Thing } from "../model";
import { type Amount, makeAmount } from "../units/amount";
import { shortestDecimal } from "../units/decimal";
import { formatAmount } from "../units/format";
import { makeQuantity } from "../units/quantity";
import { adjusts, boltIn, clampsMetal } from "../walk/bolts";
import { type BoltTorque, figureInOtherUnit, slipOf, stageSlots, torquesOf } from "./bolt-torques";
import { assumedOf, figureText } from "./bolt-words";
import { repaired, titleOf, twins } from "./say";
import type { Fault, Fix, ThingRule } from "./types";

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
    "tolerance-hint": "If the decimal point has slipped, write {meant}, with a tolerance to match.",
    "tolerance-unit-hint":
      "Has the decimal point slipped ({meant}), or is the unit wrong? {figure} would fit too.",
    angle: "“{title}” is turned by {angle} after its torque, and more than a whole turn tears a bolt.",
    "angle-hint": "If the decimal point has slipped: “{line}”.",
    "angle-other-hint":
      "Correct the angle; if the bolt is so long that it bears it, say how long it is clamped: “grip 600 mm”.",
    fix: "Write {meant}",
  },
  docs: {
    what: "A torque is more than any bolt of this thread and class bears, or far less than one is ever tightened with, and a tenth of it or ten times it is what is usual. What is too little is told only where the class is said. Or an angle after a torque is more than a whole turn.",
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
        hint: hintFor(one, alone, other !== null),
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
    reportAngles(thing, report, sight);
  },
};

/** Which way out is told: where the figure stands alone, with the line; else in words. */
function hintFor({ quantity }: BoltTorque, alone: boolean, fitsOtherUnit: boolean): string {
  if (alone) return fitsOtherUnit ? "unit-hint" : "hint";
  if (quantity.other !== null) return "other-hint";
  return fitsOtherUnit ? "tolerance-unit-hint" : "tolerance-hint";
}

/** What steel stretches before it breaks is a multiple of this share of its length (common practice, no source). */
const BORNE = 0.02;

/**
 * After a torque no bolt is turned by more than a whole turn (common practice, no source), unless it is so long that it hardly
 * stretches by that.
 */
function reportAngles(
  thing: Thing,
  report: (fault: Fault<Place>) => void,
  sight: Parameters<ThingRule["check"]>[2],
): void {
  if (thing.kind !== "fastener") return;
  const facts = fastenerFacts(thing.entry);
  if (!clampsMetal(facts) || adjusts(facts)) return;
  const { stages, grip } = facts;
  const pitch = boltIn(thing, () => undefined)?.thread.pitch ?? 0;
  const slots = stageSlots(thing.entry);
  stages.forEach(({ kind, value }, index) => {
    const angle = kind === "angle" ? value?.low : null;
    const slot = slots[index];
    const torque = stages.slice(0, index).some((s) => s.kind === "torque");
    if (!angle || !value || !slot || !torque || angle.si <= 2 * Math.PI * (1 + 1e-9)) return;
    if ((pitch * angle.si) / (2 * Math.PI) < BORNE * (grip?.nominal?.si ?? 0)) return;
    const place = placeAt(thing.file, thing.line, slot.at);
    const line = sight.file.document.lines[place.line];
    const tenth = value.shape === "exact" && value.other === null && angle.si / 10 <= Math.PI;
    const meant = tenth && !angle.parts && !angle.decimal.fraction ? movedAmount(angle, 0.1) : null;
    const written = meant && formatAmount(meant, { plain: true });
    report({
      place,
      message: "angle",
      severity: "warning",
      hint: written && line !== undefined ? "angle-hint" : "angle-other-hint",
      args: {
        title: titleOf(thing),
        angle: figureText(value),
        line: written && line !== undefined ? repaired(line, place, written) : "",
      },
      fixes: written ? [fixOf(place, written)] : [],
    });
  });
}

/** The figure with its point moved, in the writer's unit; of a range both, of a tolerance the middle. */
function movedPoint({ quantity }: BoltTorque, by: number): string {
  const { shape, low, high, nominal } = quantity;
  const amounts = (shape === "range" ? [low, high] : [nominal ?? low ?? high]).flatMap((amount) => {
    return amount === null ? [] : movedAmount(amount, by);
  });
  const [first, second] = amounts;
  const written =
    first &&
    makeQuantity({ shape: second ? "range" : "exact", first, ...(second ? { second } : {}), text: "" });
  return written ? figureText(written) : "";
}

function movedAmount(amount: Amount, by: number): Amount {
  const value = Number((amount.decimal.value * by).toPrecision(12));
  return makeAmount(shortestDecimal(value), amount.unit);
}

function fixOf(place: Place, meant: string): Fix<Place> {
  return { title: { id: "fix", args: { meant } }, safe: false, changes: [{ place, text: meant }] };
}
