/** A later line goes by how a check turned out, and the check does not write it down. */
import { checkOf } from "../facts";
import type { Place, Thing } from "../model";
import { titleOf, twins } from "./say";
import type { Fix, ProcedureRule } from "./types";
import { indentOf } from "./walked";

export const usedNotRecorded: ProcedureRule = {
  code: "used-not-recorded",
  severity: "warning",
  group: "time and people",
  grain: "procedure",
  messages: {
    main: "This goes by “{title}”, and the check does not write down how it turned out.",
    hint: "Write “record” in the check.",
    check: "The check stands here.",
    fix: "Add “record” to the check",
  },
  docs: {
    what: "A condition further down asks how a check turned out, and the check has no `record`.",
    why: "Hours later, or by another hand, nobody knows how it turned out.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the winch" {
  on winch
  check play "Play of the drum" {
    limit 0.1 to 0.2 mm
  }
  step "Grease" {
    when play over {
      clean drum
    }
  }
}
`,
      "    limit 0.1 to 0.2 mm\n",
      "    limit 0.1 to 0.2 mm\n    record\n",
    ),
  },
  check(procedure, report) {
    const said = new Set<Thing>();
    for (const { within, thing, place } of procedure.bindings) {
      if (within !== "when" || thing?.kind !== "check" || checkOf(thing.entry).record || said.has(thing))
        continue;
      if (
        place.file === thing.file &&
        place.line < thing.line + thing.entry.lineCount &&
        place.line > thing.line
      )
        continue;
      said.add(thing);
      report({
        place,
        args: { title: titleOf(thing) },
        related: [{ place: thing.place, message: "check" }],
        fixes: place.file === thing.file ? recordFix(thing) : [],
      });
    }
  },
};

/** Adds `record` as the last line before the outcomes of a check. */
function recordFix({ entry, file, line }: Thing): readonly Fix<Place>[] {
  const first = entry.children.find((c) => c.entry.construct === "if" || c.entry.construct === "when");
  const last = entry.children.at(-1);
  const before = first ?? last;
  if (!before) return [];
  const row = first ? first.row : before.row + before.entry.lineCount;
  const place = { file, line: line + row, start: 0, end: 0 };
  return [
    {
      title: { id: "fix", args: {} },
      safe: false,
      changes: [{ place, text: `${indentOf(before.entry)}record\n` }],
    },
  ];
}
