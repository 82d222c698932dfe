/** Fasteners that can be mistaken for each other, or one hole said to take two lengths. */
import { type At, fastenerFacts } from "../facts";
import { placeAt } from "../model";
import { fastenersUsed } from "./look";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf, namedIn } from "./walked";

export const longAndShortMixed: ProcedureRule = {
  code: "long-and-short-mixed",
  severity: "error",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "“{title}” comes out here while “{other}” is out, and nothing tells the two apart.",
    hint: 'Label one of them before it comes out: “label {name} "…"”.',
    said: "That they are alike is said here.",
    hole: "Hole {hole} of “{title}” is said to take two lengths.",
    "hole-hint": "Name each hole once.",
    other: "It is named here before.",
  },
  docs: {
    what: "Two groups of fasteners that the machine says are like each other are out at once and unlabelled; or two lengths are given for one hole.",
    why: "A bolt that is too long strikes the bottom of its hole and clamps nothing; one too short tears the thread.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener long-bolts "Long bolts"  tighten by feel "They seat."
  fastener short-bolts "Short bolts"  like long-bolts  tighten by feel "They seat."
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    remove long-bolts
    remove short-bolts
    fit long-bolts, short-bolts
    tighten long-bolts, short-bolts
  }
}
`,
      "    remove long-bolts\n",
      '    label long-bolts "L"\n    remove long-bolts\n',
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place } of faultsOf("long-and-short-mixed", procedure, sight)) {
      const other = fault.other ?? fault.thing;
      const args = { title: titleOf(fault.thing), other: titleOf(other), name: fault.thing.name };
      const said = namedIn(fault.thing, "like", other.name) ?? namedIn(other, "like", fault.thing.name);
      report({ place, args, way: fault.way, related: said ? [{ place: said, message: "said" }] : [] });
    }
    for (const thing of fastenersUsed(procedure)) {
      const seen = new Map<number, At>();
      for (const { holes, at } of fastenerFacts(thing.entry).lengths) {
        for (const hole of holes) {
          const before = seen.get(hole);
          if (before)
            report({
              place: placeAt(thing.file, thing.line, at),
              message: "hole",
              hint: "hole-hint",
              args: { title: titleOf(thing), hole: String(hole) },
              related: [{ place: placeAt(thing.file, thing.line, before), message: "other" }],
            });
          seen.set(hole, at);
        }
      }
    }
  },
};
