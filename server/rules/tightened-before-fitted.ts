/** A fastener is tightened while it is out. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { above, faultsOf, indentOf } from "./walked";

export const tightenedBeforeFitted: ProcedureRule = {
  code: "tightened-before-fitted",
  severity: "error",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "“{title}” is out here and cannot be tightened.",
    hint: "Write “fit {name}” before it.",
    out: "It comes out here.",
    fix: "Put “fit {name}  by hand” before it",
  },
  docs: {
    what: "A fastener is tightened that was taken out and not put in again, on every way or on some.",
    why: "Either the tightening is in the wrong place, or the line that puts the bolt in is missing.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  fastener cover-bolts "Cover bolts" {
    secures cover
    tighten 22 N·m
  }
}

procedure look "Look at the winch" {
  on winch
  tool wrench "Torque wrench"  5 to 50 N·m
  step "Off and on" {
    remove cover-bolts, cover
    fit cover
    tighten cover-bolts  with wrench
  }
}
`,
      "    tighten cover-bolts  with wrench\n",
      "    fit cover-bolts  by hand\n    tighten cover-bolts  with wrench\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, point, since } of faultsOf("tightened-before-fitted", procedure, sight)) {
      const { thing, way } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const related = since ? [{ place: placeOf(since), message: "out" }] : [];
      const before = above(point);
      const text = `${indentOf(point.spot.entry)}fit ${thing.name}  by hand\n`;
      const fixes = before
        ? [{ title: { id: "fix", args }, safe: false, changes: [{ place: before, text }] }]
        : [];
      report({ place, args, way, related, fixes });
    }
  },
};
