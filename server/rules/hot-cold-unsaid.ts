/** One limit of a check says at which temperature it holds, another of the same kind does not. */
import { checkOf, type Entry } from "../facts";
import { placeAt } from "../model";
import { twins } from "./say";
import type { ProcedureRule } from "./types";

export const hotColdUnsaid: ProcedureRule = {
  code: "hot-cold-unsaid",
  severity: "warning",
  group: "time and people",
  grain: "procedure",
  messages: {
    main: "This limit does not say at which temperature it holds; another of the check does.",
    hint: "Write “at 15 to 25 °C”, as it is meant.",
    other: "The other one stands here.",
  },
  docs: {
    what: "A check has several limits of one kind, and only some say at which temperature they hold.",
    why: "A clearance set cold and checked hot is wrong both times.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the winch" {
  on winch
  check play "Play of the drum" {
    limit "Gear end" 0.1 to 0.2 mm  at 15 to 25 °C
    limit "Drum end" 0.2 to 0.3 mm
    proves drum
    record
  }
}
`,
      '    limit "Drum end" 0.2 to 0.3 mm\n',
      '    limit "Drum end" 0.2 to 0.3 mm  at 15 to 25 °C\n',
    ),
  },
  check(procedure, report) {
    for (const thing of procedure.targets) {
      if (thing.kind !== "check") continue;
      const { limits } = checkOf(thing.entry);
      for (const limit of limits) {
        if (limit.temperature || !limit.value) continue;
        const other = limits.find((l) => l.temperature && l.value?.kind === limit.value?.kind);
        if (!other) continue;
        const at = (row: number, { form }: Entry) => placeAt(thing.file, thing.line + row, form.at);
        report({
          place: at(limit.row, limit.entry),
          related: [{ place: at(other.row, other.entry), message: "other" }],
        });
      }
    }
  },
};
