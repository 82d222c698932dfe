/** The number of fasteners differs from the holes that are named. */
import { fastenerFacts } from "../facts";
import { placeAt } from "../model";
import { fastenersUsed } from "./look";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const countDiffers: ProcedureRule = {
  code: "count-differs",
  severity: "error",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "“{title}” has {count} fasteners, and {holes} holes are named.",
    hint: "Name each hole once, or correct the count.",
    lengths: "“{title}” has {count} fasteners, and lengths are given for {holes}.",
    count: "The count stands here.",
  },
  docs: {
    what: "A fastener says how many there are, and its layout or the lengths of its holes name another number.",
    why: "One bolt is left over, or one hole left empty.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener cover-bolts "Cover bolts" {
    count  6
    layout circle  holes 1 to 5
    tighten by feel "They seat."
  }
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    loosen cover-bolts
    tighten cover-bolts
  }
}
`,
      "    count  6\n",
      "    count  5\n",
    ),
  },
  check(procedure, report) {
    for (const thing of fastenersUsed(procedure)) {
      const { count, countAt, numbered, lengths } = fastenerFacts(thing.entry);
      const related = countAt ? [{ place: placeAt(thing.file, thing.line, countAt), message: "count" }] : [];
      const args = { title: titleOf(thing), count: String(count) };
      const named = new Set(numbered).size;
      if (countAt && named > 0 && named !== count)
        report({ place: thing.place, args: { ...args, holes: String(named) }, related });
      const measured = new Set(lengths.flatMap((l) => l.holes)).size;
      if (measured > 0 && measured !== count && lengths.length > 1)
        report({
          place: thing.place,
          message: "lengths",
          args: { ...args, holes: String(measured) },
          related,
        });
    }
  },
};
