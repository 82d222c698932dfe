/** A fastener is tightened, and nowhere is said how tight. */
import { fastenerFacts } from "../facts";
import type { Thing } from "../model";
import { actsOf, thingsNamed } from "./look";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const tighteningMissing: ProcedureRule = {
  code: "tightening-missing",
  severity: "warning",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "Nothing says how tight “{title}” is.",
    hint: 'Say it in the machine: “tighten 22 N·m”, or “tighten by feel "…"” where there is no figure.',
    declared: "“{title}” is declared here.",
  },
  docs: {
    what: "The job fits or tightens a fastener, and the machine gives neither torque nor angle nor feel for it.",
    why: "Every fitter pulls as hard as the last bolt broke.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  fastener cover-bolts "Cover bolts"  secures cover  spanner 13 mm
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    remove cover-bolts, cover
    fit cover
    fit cover-bolts  by hand
    tighten cover-bolts
  }
}
`,
      '  fastener cover-bolts "Cover bolts"  secures cover  spanner 13 mm\n',
      '  fastener cover-bolts "Cover bolts"  secures cover  spanner 13 mm  tighten by feel "They seat."\n',
    ),
  },
  check(procedure, report) {
    const said = new Set<Thing>();
    for (const { act, place } of actsOf(procedure)) {
      if (act.verb !== "tighten") continue;
      for (const { thing, at } of thingsNamed(procedure, act.what, ["fastener"])) {
        const facts = fastenerFacts(thing.entry);
        if (said.has(thing) || facts.stages.length > 0 || facts.setting || act.stages.length > 0) continue;
        said.add(thing);
        report({
          place: place(at),
          args: { title: titleOf(thing) },
          related: [{ place: thing.place, message: "declared", args: { title: titleOf(thing) } }],
        });
      }
    }
  },
};
