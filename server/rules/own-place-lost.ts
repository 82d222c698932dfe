/** Parts that each have their own place go back without it being said. */
import { partFacts } from "../facts";
import type { Place } from "../model";
import { fittingsOf } from "./kit";
import { titleOf, twins } from "./say";
import type { Fix, ProcedureRule } from "./types";

export const ownPlaceLost: ProcedureRule = {
  code: "own-place-lost",
  severity: "warning",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "Each “{title}” goes back in its own place, and this does not say so.",
    hint: "Write “fit {name}  in own place”.",
    declared: "The machine says so here: “own-place”.",
    fix: "Add “in own place”",
  },
  docs: {
    what: "The machine says that each of several parts goes back where it came from, and the act that fits them does not.",
    why: "Parts that have worn together run together; mixed up, they wear out.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part rods "Push rods"  own-place  count 6
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    remove rods  keep
    fit rods
  }
}
`,
      "    fit rods\n",
      "    fit rods  in own place\n",
    ),
  },
  check(procedure, report) {
    for (const { at, thing, place } of fittingsOf(procedure)) {
      if (thing.kind === "fastener" || !partFacts(thing.entry).ownPlace) continue;
      if (at.act.ownPlace || at.act.age === "new") continue;
      const fixes: Fix<Place>[] =
        at.act.what.length === 1
          ? [
              {
                title: { id: "fix", args: {} },
                safe: false,
                changes: [{ place: { ...place, start: place.end }, text: "  in own place" }],
              },
            ]
          : [];
      const args = { title: titleOf(thing), name: thing.name };
      report({ place, args, related: [{ place: thing.place, message: "declared" }], fixes });
    }
  },
};
