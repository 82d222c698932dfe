/** A unit of another kind than the line asks for. */
import { measuresInWords } from "../phrases/problems";
import { slotsOf } from "./figures";
import { twins } from "./say";
import type { LineRule } from "./types";

export const wrongDimension: LineRule = {
  code: "wrong-dimension",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: "“{unit}” does not fit here: it is no unit of {kind}.",
    hint: "Here stands {wanted}.",
    pair: "The two figures of “{text}” are of different kinds.",
    "pair-hint": "Both ends of a range, or a value and its tolerance, need units of one kind.",
    share: "“{text}” takes a share of a temperature, which has no nought of its own.",
    "share-hint": "Write the tolerance as a difference, such as {value} ± 5 {unit}.",
  },
  docs: {
    what: "A quantity has a unit of the wrong kind: a weight where a torque is asked for, a length for a time, a percentage of a temperature.",
    why: "Such a figure cannot be compared or converted, and one of number and unit must be a slip.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts"  tighten 22 mm
}
`,
      "22 mm",
      "22 N·m",
    ),
  },
  check(line, report) {
    for (const slot of slotsOf(line)) {
      for (const { span, found, instead, code } of slot.problems) {
        const place = { row: 0, span };
        const kinds = slot.accepts;
        if (code === "share-of-temperature")
          report({
            place,
            message: "share",
            args: { text: line.text.slice(span.start, span.end), value: found, unit: instead },
          });
        if (code !== "wrong-dimension") continue;
        if (kinds.length === 0 || found === "")
          report({ place, message: "pair", args: { text: line.text.slice(span.start, span.end) } });
        else
          report({
            place,
            args: { unit: found, kind: kinds.join(" or "), wanted: measuresInWords(kinds) },
          });
      }
    }
  },
};
