/** Figures that make no number, and days that are in no calendar. */
import type { Line } from "../../grammar";
import type { At } from "../facts";
import { makeAmount } from "../units/amount";
import { parseDecimal } from "../units/decimal";
import { formatAmount } from "../units/format";
import type { Quantity } from "../units/quantity";
import { quantityProblems, slotsOf } from "./figures";
import { shortened, twins } from "./say";
import type { Fault, LineRule } from "./types";

export const badNumber: LineRule = {
  code: "bad-number",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: "“{text}” is no number that can be used.",
    hint: "A number has at most 15 figures before and behind its point; a mixed one gets finer, such as 3 h 30 min.",
    carry: "In “{text}”, {part} makes 1 {unit} or more.",
    "carry-hint": "If it is meant, write {instead}; else correct the figure.",
    place: "“{text}” is not one figure, and here stands a place or a size.",
    "place-hint": "Write the figure as it is at the machine, with a tolerance behind it if it has one.",
    holes: "“{text}” names more holes than a fastener has.",
    "holes-hint": "Correct the last number: at most 999 are read.",
    ratio: "“{text}” is no number that can be used.",
    "ratio-hint": "A ratio is a number or a fraction, such as 1/2, and its lower part is not nought.",
    day: "There is no day {text}.",
    "day-hint": "A date is written year, month, day: 2026-11-20.",
  },
  docs: {
    what: "A number cannot be read: a fraction over nought, far too many figures, parts that do not get finer. A finer part that is more than one of the coarser (2 h 75 min) is a warning. Or a date is that of no day.",
    why: "A figure that is not one cannot be set, measured or compared.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  shaft drum "Drum"  belt-off 1/0 turn
}
`,
      "1/0 turn",
      "1/4 turn",
    ),
  },
  check(line, report) {
    for (const { span, found } of quantityProblems(line, "bad-number"))
      report({
        place: { row: 0, span },
        args: { text: shortened(found || line.text.slice(span.start, span.end)) },
      });
    for (const fault of oneFigures(line)) report(fault);
    for (const { quantity, point, at } of slotsOf(line))
      for (const one of [quantity, ...(point ?? [])])
        for (const fault of carriesIn(one)) report({ ...fault, place: at });
    for (const { text, at } of slotsOf(line))
      if (/^\d{4}-\d{2}-\d{2}$/.test(text) && !isDay(text))
        report({ place: at, message: "day", args: { text } });
  },
};

/** Places and sizes that a belt or a run is worked out from: a range or a bound would leave it unsaid why nothing is. */
const ONE_FIGURE: ReadonlySet<string> = new Set(["pitch", "diameter", "thickness", "centre"]);

/** As many as a range of holes is read for; the grammar stops there. */
const MOST_HOLES = 999;

function oneFigures(line: Line): Fault<At>[] {
  return slotsOf(line).flatMap(({ role, quantity, point, holes, text, at }): Fault<At>[] => {
    const figures = ONE_FIGURE.has(role) ? [quantity, ...(point ?? [])].filter((one) => one !== null) : [];
    const said = { text: shortened(line.text.slice(at.span.start, at.span.end)) };
    if (figures.some(({ nominal }) => nominal === null)) return [{ place: at, message: "place", args: said }];
    if (holes.length > MOST_HOLES) return [{ place: at, message: "holes", args: said }];
    if (role === "ratio" && parseDecimal(text) === null) return [{ place: at, message: "ratio", args: said }];
    return [];
  });
}

/** A mixed figure whose finer part would fill one of the coarser unit. */
function carriesIn(quantity: Quantity | null): Omit<Fault<At>, "place">[] {
  const amounts = [quantity?.nominal, quantity?.low, quantity?.high, quantity?.other?.nominal];
  const mixed = [...new Set(amounts)].flatMap((amount) => (amount?.parts ? [amount] : []));
  for (const amount of mixed) {
    const parts = amount.parts ?? [];
    const over = parts.find((part, i) => {
      const coarser = parts[i - 1]?.unit.factor ?? Number.POSITIVE_INFINITY;
      return Math.abs(part.si) >= coarser * (1 - 1e-12);
    });
    const coarser = over && parts[parts.indexOf(over) - 1];
    if (!over || !coarser) continue;
    const whole = formatAmount(makeAmount(amount.decimal, amount.unit), { plain: true });
    return [
      {
        message: "carry",
        severity: "warning",
        args: {
          text: formatAmount(amount, { plain: true }),
          part: formatAmount(over, { plain: true }),
          unit: coarser.unit.print,
          instead: whole,
        },
      },
    ];
  }
  return [];
}

/** Whether a calendar has this day (proleptic Gregorian, as ISO 8601 has it). */
function isDay(text: string): boolean {
  const [year = 0, month = 0, day = 0] = text.split("-").map(Number);
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
  return day >= 1 && day <= days;
}
