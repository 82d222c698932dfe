/** Nonsense figures give findings; never an exception, and never a figure that is none, in findings, sheet, drawings and hover. */
import { describe, expect, test } from "vitest";
import { below, pick, seeded } from "../support/random";
import { codesIn, everythingOf, filledIn, nonsenseAt, SLOTS, wrongAt } from "./nonsense";

/** What the writer did not write and no reader may see; `written` is what he wrote. */
function expectNoFigureThatIsNone(shown: string, written: string): void {
  for (const none of ["NaN", "Infinity", "undefined", "null", "[object"])
    if (!written.includes(none)) expect(shown).not.toContain(none);
  if (!/\de\d/.test(written)) expect(shown).not.toMatch(/(?<![\w#-])\d+(?:\.\d+)?e[+-]?\d+(?![\w-])/);
}

test("without nonsense nothing is found", () => {
  const { findings, shown } = everythingOf(filledIn(({ usual }) => usual));
  expect(findings.map(({ code }) => code)).toEqual([]);
  expectNoFigureThatIsNone(shown, "");
  expect(shown).toContain("<svg");
});

describe("one figure that is none", () => {
  test.each(SLOTS.map((slot, index) => [index, slot.kind, slot.usual, slot] as const))(
    "%d, a %s for %s",
    (place, kind, _usual, slot) => {
      // What is no figure anywhere is tried at the first place of its kind.
      const first = SLOTS.findIndex((other) => other.kind === kind) === place;
      const silent = wrongAt(slot, first).filter(
        (wrong) => codesIn(filledIn(({ usual }, i) => (i === place ? wrong : usual))).length === 0,
      );
      expect(silent).toEqual([]);
    },
  );
});

test("all that is made from nonsense shows none of it, one figure at a time and many", () => {
  const random = seeded(811);
  const one = SLOTS.map((slot, place) => {
    const nonsense = pick(random, nonsenseAt(slot));
    return filledIn(({ usual }, i) => (i === place ? nonsense : usual));
  });
  const many = Array.from({ length: 30 }, () => {
    const share = 1 + below(random, 8);
    return filledIn((slot) => (below(random, 10) < share ? pick(random, nonsenseAt(slot)) : slot.usual));
  });
  for (const text of [...one, ...many]) expectNoFigureThatIsNone(everythingOf(text).shown, text);
  for (const text of many) expect(codesIn(text)).not.toEqual([]);
});
