/** What is said of lines that cannot be read: every message has words, and they are a person's. */
import { describe, expect, test } from "vitest";
import { clauses, constructs, type Element, elementsOf, parseLine, type SlotElement } from "../../grammar";
import { expectation } from "../../grammar/slips";
import {
  expectationHint,
  expectationWords,
  PROBLEM_PHRASES,
  type ProblemId,
  REPAIR_HINT,
} from "../../server/phrases/problems";
import { BREAKS, breakLine } from "../support/breaks";
import { cleanExamples } from "../support/examples";
import { pick, seeded } from "../support/random";

const fill = (template: string, args: Readonly<Record<string, string>>): string =>
  template.replace(/\{(\w+)\}/g, (whole, name: string) => args[name] ?? whole);

/** A broken line's message and hint in words. */
function said(text: string): string[] {
  return parseLine(text).problems.map(({ message, args, replace }) => {
    const phrase = PROBLEM_PHRASES[message as ProblemId];
    const expected = args.expected ?? "";
    const words = { wanted: expectationWords(expected), example: expectationHint(expected) };
    const line = replace && text.slice(0, replace.span.start) + replace.text + text.slice(replace.span.end);
    const all = { ...args, ...words, ...(line === undefined ? {} : { line: line.trim() }) };
    return `${fill(phrase.message, all)} ${fill(line === undefined ? phrase.hint : REPAIR_HINT, all)}`;
  });
}

describe("read aloud", () => {
  test.each([
    [
      "tighten",
      "After “tighten” comes the name of a fastener or a part. Write the name, a word with hyphens, not the title in quotes.",
    ],
    ["tigthen bolts", "No line begins with “tigthen”. Did you mean “tighten”? Write “tighten bolts”."],
    [
      "limit 0,05 to 0,15 mm",
      "A decimal is written with a point: 0.05, not 0,05. Write “limit 0.05 to 0.15 mm”.",
    ],
    [
      "weight heavy",
      "After “weight” comes a weight, not “heavy”. Write the figure with its unit, such as “4 kg”.",
    ],
    [
      "layout hexagon",
      "After “layout” comes “circle”, “grid” or “row”, not “hexagon”. Write “circle” behind it.",
    ],
    ["revision C yesterday", "After “C” comes a date, not “yesterday”. Write the year first: “2026-11-20”."],
    ["end job", "After “job” comes a text in quotes. Text stands in quotes, and both quotes on this line."],
    [
      "wait soon",
      "After “wait” comes a time or “until”, not “soon”. Write the figure with its unit, such as “3 h 30 min”.",
    ],
    ['"Push', 'The closing quote is missing. Write “"Push"”.'],
    ["fit pin  wiht tool", "“wiht” is not understood here. Did you mean “with”? Write “fit pin  with tool”."],
    ['document "A" 2', "The line is complete before “2”. Take the rest away, or give it a line of its own."],
    [
      "remove belt }",
      "The “}” is not in its place. An opening brace stands last on its line, a closing one alone on its line.",
    ],
    ["tighten 20-25 N·m", "A range is written with “to”: 20 to 25, not 20-25. Write “tighten 20 to 25 N·m”."],
    [
      "tighten 30 ± 10 % N·m",
      "The unit stands behind its number, before a tolerance in per cent: 30 N·m ± 10 %, not 30 ± 10 % N·m. Write “tighten 30 N·m ± 10 %”.",
    ],
    [
      "tighten (30 ± 3) N·m",
      "A value and its tolerance need no brackets: 30 ± 3. Write “tighten 30 ± 3 N·m”.",
    ],
    [
      "tighten 30 N·m + 3 / - 1",
      "A tolerance with two sides is written +3/-1, not + 3 / - 1. Write “tighten 30 N·m +3/-1”.",
    ],
    [
      "tighten 30 N·m +3/0",
      "A tolerance with two sides is written +3/-0, not +3/0. Write “tighten 30 N·m +3/-0”.",
    ],
    [
      "tighten 30 N·m +3",
      "“+3” says how far the value may lie on one side alone. Say both sides, such as +3/-0; for as far either way write ±.",
    ],
    [
      "limit at most 30 ± 3 mm",
      "“±” sets a second limit beside “at most”. Write a value with its tolerance, or a range, or a bound; not two of them.",
    ],
    [
      "tighten NaN N·m",
      "“N·m” is not understood here, after “NaN”. What may follow: to, while turning, crosswise, from the middle out, order, on its wheels, with, by, watched by, never, within, holding. Anything else stands on a line of its own.",
    ],
    [
      "tighten 1e308 N·m",
      "“N·m” is not understood here, after “e308”. What may follow: crosswise, from the middle out, order, while turning, on its wheels, only on. Anything else stands on a line of its own.",
    ],
    [
      "tighten Infinity N·m",
      "“N·m” is not understood here, after “Infinity”. What may follow: to, while turning, crosswise, from the middle out, order, on its wheels, with, by, watched by, never, within, holding. Anything else stands on a line of its own.",
    ],
  ])("%s", (line, words) => expect(said(line)).toEqual([words]));
});

describe("every message", () => {
  // Lines of the examples broken at random, and cut after every word: all that the grammar can say comes up.
  const random = seeded(31);
  const lines = cleanExamples().flatMap(({ text }) => text.split("\n").filter((line) => line.trim() !== ""));
  const broken = Array.from(
    { length: 4000 },
    () => breakLine(random, pick(random, BREAKS), pick(random, lines)) ?? "",
  );
  const cut = [...new Set(lines)].flatMap((line) => [
    line.replace(/ [^ ]*$/, ""),
    line.replace(/ [^ ]*$/, " ;"),
  ]);
  const tolerances = [
    "30 N·m + 3 / - 1",
    "20-25 N·m",
    "30 N·m +3",
    "at most 30 ± 3 N·m",
    "30 ± 10 % N·m",
    "(30 ± 3) N·m",
  ];
  const texts = [
    ...broken,
    ...cut,
    ...tolerances.map((one) => `tighten ${one}`),
    "{",
    "weight 4,5 kg",
    "spanner 1-1/8 in",
    'spanner 1/2"',
    "thread M14 LH",
    "thread M10 x 1.5 x 40",
    `remove ${"x".repeat(20_000)}`,
  ];

  test("has words, filled in, for a person and short", () => {
    for (const text of texts)
      for (const words of said(text)) {
        expect(words).toMatch(/^[\p{Lu}“].*[.”]$/u);
        expect(words).not.toMatch(/\{\w+\}|undefined|\[object|something more/);
        expect(words.replace(/“[^”]*”/g, "")).not.toMatch(
          /\b(tokens?|pars(e|er|ing)|syntax|invalid|statements?|keywords?|expected)\b/i,
        );
      }
  });

  test("that the grammar has is known here, and none is known that it has not", () => {
    const messages = new Set(texts.flatMap((text) => parseLine(text).problems.map(({ message }) => message)));
    expect([...messages].sort()).toEqual(Object.keys(PROBLEM_PHRASES).sort());
  });
});

function slotsIn(elements: readonly Element[]): SlotElement[] {
  return elements.flatMap((element) => {
    if (element.type === "slot") return [element];
    if (element.type === "optional") return slotsIn(element.elements);
    return element.type === "choice" ? element.options.flatMap(slotsIn) : [];
  });
}

test("whatever a form may want has words and an example", () => {
  const forms = [...constructs.keys(), ...[...clauses.keys()].map((id) => `+${id}`)];
  for (const slot of forms.flatMap((id) => slotsIn(elementsOf(id)))) {
    const expected = expectation(slot);
    expect(expectationWords(expected), expected).toMatch(/^(an? |the name of an? |the number of |how it |“)/);
    expect(expectationWords(expected), expected).not.toMatch(/\ba [aeiou]/);
    expect(expectationHint(expected), expected).toMatch(/^[A-Z].*“.*\.$|^Write the name|^Text stands/);
  }
});
