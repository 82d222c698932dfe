/** A range that begins at its upper end. */
import type { Line, RawQuantity } from "../../grammar";
import type { At, Slot } from "../facts";
import { limitsReversed as isReversed } from "../units/quantity";
import { quantitiesOf, slotsOf, withNumber } from "./figures";
import { repaired, twins } from "./say";
import type { Fault, LineRule } from "./types";

export const limitsReversed: LineRule = {
  code: "limits-reversed",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: "“{text}” begins at its upper end: nothing lies in between.",
    hint: "Write “{line}”.",
    tolerance: "A tolerance has no minus sign: “{text}”.",
    "tolerance-hint": "Take the minus sign away: ± goes both ways.",
    deviations: "“{text}” has its lower deviation first: nothing lies in between.",
    "deviations-hint": "The upper one stands first: “{line}”.",
    fix: "Swap the two ends",
  },
  docs: {
    what: "The two ends of a range, the two deviations of a tolerance, or the two ends of a run of serial numbers, are the wrong way round.",
    why: "No value lies between them, so whatever is measured would be found both too large and too small.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure gauge "Gauge the drum" {
  on winch
  check play "Play of the drum" {
    record
    proves drum
    limit 1.2 to 0.5 mm
  }
}
`,
      "1.2 to 0.5 mm",
      "0.5 to 1.2 mm",
    ),
  },
  check(line, report) {
    for (const { slot, raw } of quantitiesOf(line)) {
      if (slot.quantity && isReversed(slot.quantity)) report(reversed(line, slot, raw));
    }
    for (const fault of serials(line)) report(fault);
  },
};

const textAt = (line: Line, { span }: At): string => line.text.slice(span.start, span.end);

/** Swaps the numbers where the unit stands once, else the figures with their units. */
function reversed(line: Line, { at }: Slot, raw: RawQuantity): Fault<At> {
  const [ones, others] = raw.deviations?.map((figure) => [figure]) ?? [raw.first, raw.second];
  const [first, second] = [ones?.[0], others?.[0]];
  if (!ones || !others || !first || !second)
    return { place: at, message: "tolerance", args: { text: textAt(line, at) } };
  const [low, high] = [ones, others].map((f) => ({
    start: f[0]?.span.start ?? 0,
    end: f[f.length - 1]?.span.end ?? 0,
  })) as [At["span"], At["span"]];
  const single = ones.length === 1 && others.length === 1 && (first.unit === null) !== (second.unit === null);
  const ends = single
    ? [withNumber(line, first, second.number), withNumber(line, second, first.number)]
    : [line.text.slice(high.start, high.end), line.text.slice(low.start, low.end)];
  const fault = swapped(line, at, low, high, ends);
  return raw.deviations ? { ...fault, message: "deviations" } : fault;
}

function swapped(
  line: Line,
  at: At,
  low: At["span"],
  high: At["span"],
  [first = "", second = ""]: readonly string[],
): Fault<At> {
  const whole = { start: low.start, end: high.end };
  const text = first + line.text.slice(low.end, high.start) + second;
  const args = { text: textAt(line, at), line: repaired(line, whole, text) };
  return {
    place: at,
    args,
    fixes: [
      { title: { id: "fix", args: {} }, safe: false, changes: [{ place: { row: 0, span: whole }, text }] },
    ],
  };
}

/** `serial 4899 to 1200`. */
function serials(line: Line): Fault<At>[] {
  const slots = slotsOf(line);
  return slots.flatMap((to, i) => {
    const from = slots[i - 1];
    if (
      from?.role !== "from" ||
      to.role !== "to" ||
      from.count === null ||
      to.count === null ||
      from.count <= to.count
    )
      return [];
    const at: At = { row: 0, span: { start: from.at.span.start, end: to.at.span.end } };
    return [swapped(line, at, from.at.span, to.at.span, [textAt(line, to.at), textAt(line, from.at)])];
  });
}
