/** A return that nothing bounds. */
import { timesOf } from "../facts";
import { repaired, twins } from "./say";
import type { BlockRule } from "./types";

export const endlessRepeat: BlockRule = {
  code: "endless-repeat",
  severity: "error",
  group: "the way through",
  grain: "block",
  messages: {
    main: "Nothing says how often this may be done again.",
    hint: "Say how often: “{line}”.",
    fix: "Allow at most 2 times",
  },
  docs: {
    what: "A “check again” or “repeat from” has no “at most”.",
    why: "A measurement that never comes right keeps the fitter going round; after a few tries something else is wrong.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part brake "Brake"
}

procedure set "Set the brake" {
  on winch
  check hold "Brake holds" {
    observe "Does the brake hold?"
    if no {
      adjust brake
      check again
    }
    if still no {
      end job "Renew the brake."
    }
  }
}
`,
      "      check again\n",
      "      check again  at most 2 times\n",
    ),
  },
  check(entry, report) {
    if (entry.construct !== "check-again" && entry.construct !== "repeat") return;
    if (timesOf(entry) !== null || !entry.line) return;
    const { row, span } = entry.form.at;
    const place = { row, span: { start: span.end, end: span.end } };
    report({
      place: entry.form.at,
      args: { line: repaired(entry.line, place.span, " at most 2 times") },
      fixes: [
        { title: { id: "fix", args: {} }, safe: false, changes: [{ place, text: "  at most 2 times" }] },
      ],
    });
  },
};
