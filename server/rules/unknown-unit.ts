/** A unit that does not exist. */
import { quantityProblems } from "./figures";
import { repaired, twins } from "./say";
import type { LineRule } from "./types";

export const unknownUnit: LineRule = {
  code: "unknown-unit",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: "There is no unit “{unit}”.",
    hint: "Write the unit as it stands on a gauge: N·m, lb·ft, mm, °, L, bar, °C, min.",
    near: "There is no unit “{unit}”. Did you mean “{near}”?",
    "near-hint": "Write “{line}”.",
    fix: "Write {near}",
  },
  docs: {
    what: "A unit is not known.",
    why: "A figure whose unit nobody knows cannot be set on a tool.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts"  tighten 22 Nmm
}
`,
      "22 Nmm",
      "22 N·m",
    ),
  },
  check(line, report) {
    for (const { span, found, instead } of quantityProblems(line, "unknown-unit")) {
      const place = { row: 0, span };
      if (instead === "") report({ place, args: { unit: found } });
      else {
        const args = { unit: found, near: instead, line: repaired(line, span, instead) };
        report({
          place,
          message: "near",
          args,
          fixes: [{ title: { id: "fix", args }, safe: false, changes: [{ place, text: instead }] }],
        });
      }
    }
  },
};
