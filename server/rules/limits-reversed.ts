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
    fix: "Swap the two ends",
  },
  docs: {
    what: "The two ends of a range, or of a run of serial numbers, are the wrong way round.",
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
      if (slot.quantity && isReversed(slot.quantity))
        report(
          raw.second.length > 0
            ? reversed(line, slot, raw)
            : { place: slot.at, message: "tolerance", args: { text: textAt(line, slot.at) } },
        );
    }
    for (const fault of serials(line)) report(fault);
  },
};

const textAt = (line: Line, { span }: At): string => line.text.slice(span.start, span.end);

/** Swaps the numbers where the unit stands once, else the figures with their units. */
function reversed(line: Line, { at }: Slot, raw: RawQuantity): Fault<At> {
  const [low, high] = [raw.first, raw.second].map((f) => ({
    start: f[0]?.span.start ?? 0,
    end: f[f.length - 1]?.span.end ?? 0,
  }));
  const [first, second] = [raw.first[0], raw.second[0]];
  if (!low || !high || !first || !second) return { place: at, args: { text: textAt(line, at) } };
  const single =
    raw.first.length === 1 && raw.second.length === 1 && (first.unit === null) !== (second.unit === null);
  const ends = single
    ? [withNumber(line, first, second.number), withNumber(line, second, first.number)]
    : [line.text.slice(high.start, high.end), line.text.slice(low.start, low.end)];
  return swapped(line, at, low, high, ends);
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
