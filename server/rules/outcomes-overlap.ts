/** Two outcomes of a check that hold at once. */
import { checkOf } from "../facts";
import { placeAt } from "../model";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const outcomesOverlap: ProcedureRule = {
  code: "outcomes-overlap",
  severity: "error",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "When “{title}” is {both}, this holds and so does “if {other}”.",
    hint: "Write each outcome once: “over” and “under” beside “met”, or “not met” for both.",
    other: "The other one stands here.",
  },
  docs: {
    what: "Two outcomes of one check are written so that both hold for the same result.",
    why: "The fitter does the one that comes first, and the writer meant the other.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the drum" {
  on winch
  check play "Play of the drum" {
    limit 0.1 to 0.2 mm
    proves drum
    if not met {
      end job "Renew the drum."
    }
    if over {
      end job "Renew the drum and its bearing."
    }
  }
}
`,
      "    if not met {\n",
      "    if under {\n",
    ),
  },
  check(procedure, report, _sight) {
    for (const thing of procedure.targets) {
      if (thing.kind !== "check") continue;
      const said = checkOf(thing.entry).outcomes;
      said.forEach((one, i) => {
        const other = said.slice(0, i).find((o) => o.still === one.still && bothHold(o.outcome, one.outcome));
        if (!other) return;
        const both = WIDE.includes(one.outcome) ? other.outcome : one.outcome;
        report({
          place: placeAt(thing.file, thing.line + one.row, one.entry.form.at),
          args: { title: titleOf(thing), both, other: other.outcome },
          related: [
            { place: placeAt(thing.file, thing.line + other.row, other.entry.form.at), message: "other" },
          ],
        });
      });
    }
  },
};

/** What is “over” or “under” is “not met” as well. */
const WIDE = ["not met"];
const NARROW = ["over", "under"];

const bothHold = (a: string, b: string): boolean =>
  a === b || (WIDE.includes(a) && NARROW.includes(b)) || (NARROW.includes(a) && WIDE.includes(b));
