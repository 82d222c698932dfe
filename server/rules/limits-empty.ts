/** A range in which no value lies. */
import { limitsEmpty as isEmpty } from "../units/quantity";
import { slotsOf } from "./figures";
import { twins } from "./say";
import type { LineRule } from "./types";

export const limitsEmpty: LineRule = {
  code: "limits-empty",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: "No value lies in “{text}”: its ends are equal, and one of them does not belong to it.",
    hint: "Give the other end, or write the one value that is right.",
  },
  docs: {
    what: "The ends of a range are equal, and one of them is ruled out by “over”.",
    why: "Nothing that is measured can lie within, so one outcome can never come.",
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
    limit over 0.5 to 0.5 mm
  }
}
`,
      "over 0.5 to 0.5 mm",
      "over 0.5 to 0.9 mm",
    ),
  },
  check(line, report) {
    for (const { quantity, at } of slotsOf(line)) {
      if (quantity && isEmpty(quantity))
        report({ place: at, args: { text: line.text.slice(at.span.start, at.span.end) } });
    }
  },
};
