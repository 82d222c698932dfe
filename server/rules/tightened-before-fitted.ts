/** A fastener is tightened while it, or what it secures, is off. */
import { fastenerFacts } from "../facts";
import type { Procedure, Thing } from "../model";
import { placeOf } from "../walk";
import { kitThings } from "./kit";
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
    part: "“{part}” is off here, and “{title}” is tightened on nothing.",
    "part-hint": "Write “fit {partName}” before it.",
    out: "It comes out here.",
    off: "It comes off here.",
    fix: "Put it in before, by hand",
  },
  docs: {
    what: "A fastener is tightened that was taken out and not put in again, or while the part that it secures is off, on every way or on some.",
    why: "Either the tightening is in the wrong place, or the line that puts the bolt or the part in is missing.",
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
      const { thing, other, way, state } = fault;
      if (state === "clamp" && other) {
        const args = { title: titleOf(other), part: titleOf(thing), partName: thing.name };
        const off = since ? [{ place: placeOf(since), message: "off" }] : [];
        report({ place, message: "part", hint: "part-hint", args, way, related: off });
        continue;
      }
      const args = { title: titleOf(thing), name: thing.name };
      const related = since ? [{ place: placeOf(since), message: "out" }] : [];
      const before = above(point);
      const text = `${indentOf(point.spot.entry)}${putIn(procedure, thing)}\n`;
      const fixes = before
        ? [{ title: { id: "fix", args }, safe: false, changes: [{ place: before, text }] }]
        : [];
      report({ place, args, way, related, fixes });
    }
  },
};

/** The line that puts a fastener in: a new one where the machine or the kit says so. */
function putIn(procedure: Procedure, thing: Thing): string {
  const inKit = kitThings(procedure).some((k) => k.thing === thing && k.item.onlyIf === null);
  const isNew = inKit || fastenerFacts(thing.entry).renewEveryTime;
  return `fit ${isNew ? "new " : ""}${thing.name}  by hand`;
}
