/** A part goes back that was thrown away or that is renewed every time. */
import { placeOf } from "../walk";
import { newFixAt, renewedEveryTime } from "./kit";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const oldPartRefitted: ProcedureRule = {
  code: "old-part-refitted",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” was thrown away, and is fitted here without “new”.",
    renewed: "“{title}” is renewed every time it comes off, and is fitted here without “new”.",
    hint: "Write “fit new {name}”.",
    "renewed-hint": "Write “fit new {name}”, or “fit old {name}” where the old one goes in for a while.",
    gone: "It is thrown away here.",
    declared: "The machine says so here.",
    fix: "Write “fit new”",
  },
  docs: {
    what: "A part that the job discards, or that the machine says is renewed every time, is fitted again without `new`.",
    why: "Whoever follows the line looks for the old one in the bin, and fits it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part seal "Drum seal"
}

procedure look "Look at the winch" {
  on winch
  kit "K-1" {
    item seal 1
  }
  step "Off" {
    remove seal  discard
    fit seal
  }
  step "Once more" {
    remove seal  discard
    fit new seal
  }
}
`,
      "    fit seal\n",
      "    fit new seal\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, point, since } of faultsOf("old-part-refitted", procedure, sight)) {
      const { thing, way } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const fixes = newFixAt(point);
      if (renewedEveryTime(thing)) {
        const related = [{ place: thing.place, message: "declared" }];
        report({ place, message: "renewed", hint: "renewed-hint", args, way, related, fixes });
      } else
        report({
          place,
          args,
          way,
          related: since ? [{ place: placeOf(since), message: "gone" }] : [],
          fixes,
        });
    }
  },
};
