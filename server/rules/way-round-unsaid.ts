/** A part that fits two ways is fitted, and the act does not say which. */
import { namesIn, partFacts } from "../facts";
import { placeAt } from "../model";
import { fittingsOf } from "./kit";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const wayRoundUnsaid: ProcedureRule = {
  code: "way-round-unsaid",
  severity: "warning",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” has a way round, and this does not say which.",
    hint: "Write “fit {name}  way-round {direction}”.",
    declared: "The way round is said here.",
  },
  docs: {
    what: "The machine says which way round a part goes, and the act that fits it does not.",
    why: "What fits two ways goes in the wrong one some day.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part seal "Drum seal"  way-round lip-inwards "The lip"
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    remove seal
    fit seal
  }
}
`,
      "    fit seal\n",
      "    fit seal  way-round lip-inwards\n",
    ),
  },
  check(procedure, report) {
    for (const { at, thing, place } of fittingsOf(procedure)) {
      const clause = thing.kind === "fastener" ? undefined : partFacts(thing.entry).wayRound;
      if (!clause || at.act.wayRound) continue;
      const direction = namesIn(clause, "direction")[0]?.name ?? "";
      report({
        place,
        args: { title: titleOf(thing), name: thing.name, direction },
        related: [{ place: placeAt(thing.file, thing.line, clause.at), message: "declared" }],
      });
    }
  },
};
