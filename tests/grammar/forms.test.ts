/** Every form of the table, and every clause behind every construct that takes it, reads from lines made of the form. */
import { describe, expect, test } from "vitest";
import { CONSTRUCTS, clauses, elementsOf, type Line, parseLine, readIn } from "../../grammar";
import { samplesOf } from "./samples";

const said = (line: Line): string[] => [
  line.head,
  ...(line.statement?.phrases.slice(1) ?? []).map((p) => p.clause),
];

describe("constructs", () => {
  test.each(CONSTRUCTS.map((construct) => [construct.id, construct] as const))("%s", (id, construct) => {
    for (const form of samplesOf(elementsOf(id))) {
      expect(said(parseLine(form)), form).toEqual([id]);
      expect(parseLine(`${form} {  // why`), form).toMatchObject({
        kind: "statement",
        head: id,
        opens: true,
      });
      for (const clause of construct.clauses)
        for (const more of samplesOf(elementsOf(`+${clause}`)))
          expect(said(parseLine(`${form} ${more}`)), `${form} ${more}`).toEqual([id, clause]);
    }
  });

  test.each(CONSTRUCTS.map((construct) => [construct.id, construct.clauses] as const))(
    "%s takes all its clauses at once, in any order",
    (id, follow) => {
      const [form = ""] = samplesOf(elementsOf(id)).reverse();
      // Hole numbers right behind a layout are the layout's own.
      const clauses = follow.filter((clause) => clause !== "layout");
      for (const order of [clauses, [...clauses].reverse()]) {
        const line = [form, ...order.map((clause) => samplesOf(elementsOf(`+${clause}`)).at(-1))].join("  ");
        expect(said(parseLine(line)), line).toEqual([id, ...order]);
      }
    },
  );
});

describe("clauses on a line of their own", () => {
  // `on crank` reads as the header's `on`, `at 40 °C` as an angle; see the next test.
  const twice = ["on-shaft", "at-temperature"];
  const alone = [...clauses.values()].filter((clause) => !twice.includes(clause.id));
  test.each(alone.map((clause) => [clause.id, clause] as const))("%s", (id, clause) => {
    for (const form of samplesOf(elementsOf(`+${id}`))) {
      expect(said(parseLine(form)), form).toEqual([`+${id}`]);
      expect(parseLine(form).statement).toMatchObject({ construct: "", phrases: [{ clause: id }] });
      for (const behind of clause.follow)
        for (const more of samplesOf(elementsOf(`+${behind}`)))
          expect(said(parseLine(`${form} ${more}`)), `${form} ${more}`).toEqual([`+${id}`, behind]);
    }
  });
});

test("a line that reads in two ways is read as its block needs it", () => {
  const line = parseLine("on crank  // the shaft");
  expect(line.head).toBe("on");
  expect(readIn(line, "procedure")).toBe(line);
  expect(readIn(line, "shaft")).toMatchObject({ head: "+on-shaft", text: line.text });
  expect(readIn(line, "shaft").statement?.phrases).toMatchObject([{ clause: "on-shaft" }]);
  expect(readIn(line, "kit")).toBe(line);
});

describe("names", () => {
  test.each([
    ["equal to keywords", ["with", "remove"]],
    ["in any letters", ["Ölfilter-links", "油圧-ポンプ"]],
    ["with joiners of Persian", ["پمپ‌آب", "میل‌لنگ"]],
    ["of letters beyond the basic plane", ["𐐷𐐲", "𠮷野"]],
    ["with digits, dots and slashes", ["h-117", "G1/2.left"]],
    ["like threads and grades", ["M8-bolts", "A2-70"]],
    ["like units", ["N·m", "in"]],
    ["like numbers", ["one", "twelve"]],
  ])("%s", (_, names) => {
    for (const id of ["remove", "fit", "behind", "secures"].map((one) =>
      clauses.has(one) ? `+${one}` : one,
    ))
      for (const form of samplesOf(elementsOf(id), names)) {
        const line = parseLine(form);
        expect(said(line), form).toEqual([id]);
        const [content] = line.statement?.phrases[0]?.slots.map((slot) => slot.content) ?? [];
        expect(content, form).toMatchObject({ kind: "names", names: names.map((name) => ({ name })) });
      }
  });

  test("compare in NFC", () => {
    const nameIn = (text: string): unknown => parseLine(text).statement?.phrases[0]?.slots[0]?.content;
    expect(nameIn("raise fu\u0308hler")).toMatchObject({ names: [{ name: "f\u00fchler" }] });
  });
});
