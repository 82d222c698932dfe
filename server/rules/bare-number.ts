/** A number without its unit. */
import { measuresInWords } from "../phrases/problems";
import { slotsOf } from "./figures";
import { repaired, twins } from "./say";
import type { Args, LineRule } from "./types";

/** The unit most used for a kind of quantity, for the hint. */
const USUAL: Readonly<Record<string, string>> = {
  torque: "N·m",
  angle: "°",
  length: "mm",
  volume: "L",
  mass: "kg",
  time: "min",
  temperature: "°C",
  pressure: "bar",
  voltage: "V",
};

export const bareNumber: LineRule = {
  code: "bare-number",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: "{number} has no unit.",
    wanted: "{number} has no unit; here stands {kind}.",
    "wanted-hint": "If it is {unit}: “{line}”.",
  },
  docs: {
    what: "A number stands without its unit where a quantity is needed.",
    why: "22 of what? Newton metres and pound feet differ by a third, and a bolt shows it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts"  tighten 22
}
`,
      "tighten 22",
      "tighten 22 N·m",
    ),
  },
  check(line, report) {
    for (const slot of slotsOf(line)) {
      for (const { span, found, code } of slot.problems) {
        if (code !== "bare-number") continue;
        const unit = USUAL[slot.accepts[0] ?? ""];
        const sign = unit === "°" ? unit : ` ${unit}`;
        const end = { start: span.end, end: span.end };
        const args: Args = unit
          ? { number: found, kind: measuresInWords(slot.accepts), unit, line: repaired(line, end, sign) }
          : { number: found };
        report({ place: { row: 0, span }, message: unit ? "wanted" : "main", args });
      }
    }
  },
};
