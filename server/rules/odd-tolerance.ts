/** A tolerance that cannot be meant: of nought, as wide as its value, or with the value itself outside. */
import type { Kind } from "../units/dimension";
import { formatAmount } from "../units/format";
import { contains, limitsReversed, type Quantity } from "../units/quantity";
import { isShare } from "../units/tolerance";
import { quantitiesOf } from "./figures";
import { twins } from "./say";
import type { LineRule } from "./types";

/** What is never under nought where it is asked for. A length, an angle or a gauge pressure may well be. */
const NEVER_UNDER: ReadonlySet<Kind> = new Set<Kind>([
  "torque",
  "mass",
  "time",
  "volume",
  "area",
  "force",
  "flow",
  "power",
  "resistance",
  "capacitance",
]);

export const oddTolerance: LineRule = {
  code: "odd-tolerance",
  severity: "warning",
  group: "quantities",
  grain: "line",
  messages: {
    nought: "The tolerance of “{text}” is nought: nothing can be made, set or measured so exactly.",
    "nought-hint": "Say how far it may lie from the value, or leave the tolerance away.",
    under: "“{text}” reaches down to {low}: its tolerance is wider than its value.",
    "under-hint": "Look for a slip in the tolerance, or in its unit.",
    outside: "“{text}” does not take in its own value: it allows from {low} to {high}.",
    "outside-hint": "A lower deviation has a minus sign, an upper one a plus; or write {low} to {high}.",
  },
  docs: {
    what: "A tolerance is nought, takes more than all of its value away, or leaves the value itself outside. Lengths may lie outside (a fit has both deviations on one side), lengths and angles under nought.",
    why: "A fitter can do nothing with it, and the limits that the checker works with are then not those that were meant.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts"  tighten 30 +3/-40 N·m
}
`,
      "+3/-40",
      "+3/-4",
    ),
  },
  check(line, report) {
    for (const { slot, raw } of quantitiesOf(line)) {
      for (const quantity of [slot.quantity, slot.quantity?.other ?? null]) {
        const message = quantity && oddityOf(quantity);
        if (!quantity || !message) continue;
        const { span } = quantity === slot.quantity ? raw : (raw.other ?? raw);
        const figure = (end: Quantity["low"]): string => (end ? formatAmount(end, { plain: true }) : "");
        const text = line.text.slice(span.start, span.end);
        const args = { text, low: figure(quantity.low), high: figure(quantity.high) };
        report({ place: { row: 0, span }, message, args });
      }
    }
  },
};

/** What is odd about a tolerance; null where it has none, is in order, or is the wrong way round. */
function oddityOf(quantity: Quantity): "nought" | "under" | "outside" | null {
  const { nominal, tolerance, deviations, low, high, kind } = quantity;
  const [upper, lower] = [deviations?.upper ?? tolerance, deviations?.lower ?? tolerance];
  if (!nominal || !upper || !lower || !low || !high || limitsReversed(quantity)) return null;
  if (upper.si === 0 && lower.si === 0) return "nought";
  const share = isShare(nominal, lower);
  if (nominal.si > 0 && low.si < 0 && (share || NEVER_UNDER.has(kind))) return "under";
  return kind !== "length" && !contains(quantity, nominal.si) ? "outside" : null;
}
