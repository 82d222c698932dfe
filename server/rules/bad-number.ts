/** Figures that make no number, and days that are in no calendar. */
import { quantityProblems, slotsOf } from "./figures";
import { shortened, twins } from "./say";
import type { LineRule } from "./types";

export const badNumber: LineRule = {
  code: "bad-number",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: "“{text}” is no number that can be used.",
    hint: "A number has at most 15 figures before and behind its point; a mixed one gets finer, such as 3 h 30 min.",
    day: "There is no day {text}.",
    "day-hint": "A date is written year, month, day: 2026-11-20.",
  },
  docs: {
    what: "A number cannot be read: a fraction over nought, far too many figures, parts that do not get finer. Or a date is that of no day.",
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
      report({ place: { row: 0, span }, args: { text: shortened(found) } });
    for (const { text, at } of slotsOf(line))
      if (/^\d{4}-\d{2}-\d{2}$/.test(text) && !isDay(text))
        report({ place: at, message: "day", args: { text } });
  },
};

/** Whether a calendar has this day (proleptic Gregorian, as ISO 8601 has it). */
function isDay(text: string): boolean {
  const [year = 0, month = 0, day = 0] = text.split("-").map(Number);
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
  return day >= 1 && day <= days;
}
