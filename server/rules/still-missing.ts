/** An outcome with bounded returns, and nothing said for when they are used up. */
import { type Check, checkOf, type Entry, type Outcome, timesOf } from "../facts";
import { type Place, placeAt } from "../model";
import { titleOf, twins } from "./say";
import type { Fix, ProcedureRule } from "./types";
import { indentOf } from "./walked";

export const stillMissing: ProcedureRule = {
  code: "still-missing",
  severity: "error",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "Nothing says what is done when the returns are used up and “{title}” is still {outcome}.",
    hint: "Say it below: “if still {outcome} { … }”.",
    fix: "Add “if still {outcome}”, to end the job",
    back: "This return is bounded.",
  },
  docs: {
    what: "An outcome leads back at most so many times, and there is no “if still” for what is done after the last.",
    why: "When the last try has failed too, the fitter has no line to go on with.",
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
      check again  at most 2 times
    }
    if yes {
      end job "Nothing is left to do."
    }
  }
}
`,
      "    if yes {\n",
      "    if still no {\n",
    ),
  },
  check(procedure, report) {
    for (const thing of procedure.targets) {
      if (thing.kind !== "check") continue;
      const check = checkOf(thing.entry);
      for (const outcome of check.outcomes) {
        const back = outcome.still ? null : boundedReturn(outcome.entry, outcome.row);
        if (!back || check.outcomes.some((o) => o.still && covers(o.outcome, outcome.outcome, check)))
          continue;
        const line = thing.line + outcome.row;
        const args = { title: titleOf(thing), outcome: outcome.outcome };
        report({
          place: placeAt(thing.file, line, outcome.entry.form.at),
          args,
          related: [
            { place: placeAt(thing.file, thing.line + back.row, back.entry.form.at), message: "back" },
          ],
          fixes: [fixBelow(thing.file, line, outcome)],
        });
      }
    }
  },
};

function boundedReturn(entry: Entry, row: number): { readonly row: number; readonly entry: Entry } | null {
  for (const child of entry.children) {
    const { construct } = child.entry;
    const isReturn = construct === "check-again" || construct === "repeat";
    if (isReturn && timesOf(child.entry) !== null) return { row: row + child.row, entry: child.entry };
    const inner = boundedReturn(child.entry, row + child.row);
    if (inner) return inner;
  }
  return null;
}

/** Whether an `if still` takes in an outcome: the same, or `not met` for one that is not. */
function covers(still: string, outcome: string, check: Check): boolean {
  if (still === outcome) return true;
  if (still === "not met") return outcome === "over" || outcome === "under";
  const sides = check.outcomes.filter((o) => o.still).map((o) => o.outcome);
  return outcome === "not met" && sides.includes("over") && sides.includes("under");
}

function fixBelow(file: string, line: number, { entry, outcome }: Outcome): Fix<Place> {
  const indent = indentOf(entry);
  const below = line + entry.lineCount;
  const text = `${indent}if still ${outcome} {\n${indent}  end job "Find the cause."\n${indent}}\n`;
  return {
    title: { id: "fix", args: { outcome } },
    safe: false,
    changes: [{ place: { file, line: below, start: 0, end: 0 }, text }],
  };
}
