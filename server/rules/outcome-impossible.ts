/** An outcome that its check cannot have. */
import { checkOf, type Entry, possibleOutcomes, textIn } from "../facts";
import { type Binding, type Procedure, placeAt, type Thing } from "../model";
import { listed, titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const outcomeImpossible: ProcedureRule = {
  code: "outcome-impossible",
  severity: "error",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "“{title}” cannot turn out “{outcome}”.",
    hint: "It can be {outcomes}.",
    still: "“if still {outcome}” is for when returns are used up, and no outcome “{outcome}” has one.",
    "still-hint":
      "Write “check again” or “repeat from …” with “at most … times” in “if {outcome}”, or take “still” out.",
  },
  docs: {
    what: "An outcome or a condition names what a check cannot turn out to be by what it measures, looks at or asks; or it waits for returns to be used up that are not there.",
    why: "What is written for it is never done, and what should be is not written.",
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
    if yes {
      end job "Renew the drum."
    }
  }
}
`,
      "    if yes {\n",
      "    if over {\n",
    ),
  },
  check(procedure, report, _sight) {
    for (const thing of procedure.targets) {
      if (thing.kind !== "check") continue;
      const check = checkOf(thing.entry);
      const possible = possibleOutcomes(check);
      if (possible.length === 0) continue;
      for (const { outcome, still, entry, line } of outcomesIn(thing.entry, thing.line)) {
        const place = placeAt(thing.file, line, entry.form.at);
        const args = {
          title: titleOf(thing),
          outcome,
          outcomes: listed(
            possible.map((o) => `“${o}”`),
            "or",
          ),
        };
        if (!possible.includes(outcome)) report({ place, args });
        else if (still && !hasReturn(thing.entry, outcome))
          report({ place, message: "still", hint: "still-hint", args });
      }
    }
    for (const { binding, outcome } of asked(procedure)) {
      const check = binding.thing as Thing;
      const possible = possibleOutcomes(checkOf(check.entry));
      if (possible.length === 0 || possible.includes(outcome)) continue;
      report({
        place: binding.place,
        args: {
          title: titleOf(check),
          outcome,
          outcomes: listed(
            possible.map((o) => `“${o}”`),
            "or",
          ),
        },
      });
    }
  },
};

interface OutcomeAt {
  readonly outcome: string;
  readonly still: boolean;
  readonly entry: Entry;
  readonly line: number;
}

/** The outcomes written in a check, under conditions too. */
function outcomesIn(entry: Entry, line: number): OutcomeAt[] {
  return entry.children.flatMap(({ entry: child, row }) =>
    child.construct === "if"
      ? [
          {
            outcome: textIn(child.form, "outcome"),
            still: child.form.words.includes("still"),
            entry: child,
            line: line + row,
          },
        ]
      : outcomesIn(child, line + row),
  );
}

const RETURNS: ReadonlySet<string> = new Set(["check-again", "repeat"]);

/** What an outcome covers: “not met” is over or under too. */
const covers = (outcome: string, other: string): boolean =>
  outcome === other ||
  (outcome === "not met" && (other === "over" || other === "under")) ||
  (other === "not met" && (outcome === "over" || outcome === "under"));

/** Whether what is done for an outcome leads back. */
function hasReturn(check: Entry, outcome: string): boolean {
  return outcomesIn(check, 0).some((o) => !o.still && covers(o.outcome, outcome) && leadsBack(o.entry));
}

function leadsBack(entry: Entry): boolean {
  return entry.children.some((c) => RETURNS.has(c.entry.construct) || leadsBack(c.entry));
}

/** The outcomes that conditions and kit items ask for. */
function asked(procedure: Procedure): { binding: Binding; outcome: string }[] {
  return procedure.parts.flatMap((part) => {
    const bindings = part.bindings.filter((b) => b.thing?.kind === "check" && b.within === "when");
    return bindings.flatMap((binding) => {
      const entry = entryAt(part.entry, binding.place.line - part.line);
      const outcome = entry ? textIn(entry.form, "outcome") : "";
      return outcome ? [{ binding, outcome }] : [];
    });
  });
}

/** The entry whose head is a row of a block. */
function entryAt(entry: Entry, row: number): Entry | null {
  if (row === 0) return entry;
  const child = entry.children.findLast((c) => c.row <= row);
  return child ? entryAt(child.entry, row - child.row) : null;
}
