/** The number of fasteners differs from the holes that are named. */
import { type At, fastenerFacts } from "../facts";
import { type Place, placeAt, type Thing } from "../model";
import { shortened, titleOf, twins } from "./say";
import type { Fault, ThingRule } from "./types";

export const countDiffers: ThingRule = {
  code: "count-differs",
  severity: "error",
  group: "fasteners",
  grain: "thing",
  messages: {
    main: "“{title}” has {count} fasteners, and {holes} holes are named.",
    hint: "Name each hole once, or correct the count.",
    lengths: "“{title}” has {count} fasteners, and lengths are given for {holes}.",
    count: "The count stands here.",
    twice: "Hole {hole} of “{title}” is said to take two lengths.",
    "twice-hint": "Name each hole once.",
    before: "It is named here before.",
    rows: "“{title}” has {count} holes, too few for {rows} rows.",
    "rows-hint": "Correct the number of rows, or of holes.",
  },
  docs: {
    what: "A fastener says how many there are, and its layout or the lengths of its holes name another number; or one hole is given two lengths, or a grid has more rows than holes.",
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
  check(thing, report) {
    if (thing.kind !== "fastener") return;
    reportTwice(thing, report);
    const { count, countAt, numbered, lengths, rows } = fastenerFacts(thing.entry);
    const related = countAt ? [{ place: placeAt(thing.file, thing.line, countAt), message: "count" }] : [];
    const args = { title: titleOf(thing), count: String(count) };
    const holes = new Set(numbered).size || count;
    if (rows !== null && rows > holes)
      report({
        place: thing.place,
        message: "rows",
        args: { ...args, count: `${holes}`, rows: shortened(`${rows}`) },
      });
    const named = new Set(numbered).size;
    if (countAt && named > 0 && named !== count)
      report({ place: thing.place, args: { ...args, holes: String(named) }, related });
    const measured = new Set(lengths.flatMap((l) => l.holes)).size;
    if (countAt && measured > 0 && measured !== count && lengths.length > 1)
      report({
        place: thing.place,
        message: "lengths",
        hint: "hint",
        args: { ...args, holes: String(measured) },
        related,
      });
  },
};

/** A bolt that is too long strikes the bottom of its hole, one too short tears the thread. */
function reportTwice(thing: Thing, report: (fault: Fault<Place>) => void): void {
  const seen = new Map<number, At>();
  for (const { holes, at } of fastenerFacts(thing.entry).lengths) {
    for (const hole of holes) {
      const before = seen.get(hole);
      if (before)
        report({
          place: placeAt(thing.file, thing.line, at),
          message: "twice",
          hint: "twice-hint",
          args: { title: titleOf(thing), hole: String(hole) },
          related: [{ place: placeAt(thing.file, thing.line, before), message: "before" }],
        });
      seen.set(hole, at);
    }
  }
}
