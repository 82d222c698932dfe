/** A comma where the language writes a point. */
import { PROBLEM_PHRASES, REPAIR_HINT } from "../phrases/problems";
import { repaired, twins } from "./say";
import type { LineRule } from "./types";

export const decimalComma: LineRule = {
  code: "decimal-comma",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: PROBLEM_PHRASES["decimal-comma"].message,
    hint: REPAIR_HINT,
    fix: "Write {instead}",
  },
  docs: {
    what: "A number has a comma in it.",
    why: "A comma parts the names and hole numbers of a list; in a number it would be read as two numbers. The sheet prints commas where the reader’s language has them.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fluid oil "Gear oil"  0,8 L
}
`,
      "0,8 L",
      "0.8 L",
    ),
  },
  check(line, report) {
    for (const { message, args, span, replace } of line.problems) {
      if (message !== "decimal-comma" || !replace) continue;
      const place = { row: 0, span };
      const change = { place: { row: 0, span: replace.span }, text: replace.text };
      const said = { ...args, line: repaired(line, replace.span, replace.text) };
      report({
        place,
        args: said,
        fixes: [{ title: { id: "fix", args: said }, safe: true, changes: [change] }],
      });
    }
  },
};
