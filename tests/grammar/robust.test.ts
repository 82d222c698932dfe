/** Nothing that can stand in a file makes the grammar throw, hang or lose a byte. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  applyEdits,
  DEEPEST,
  documentText,
  formatDocument,
  parseLine,
  readDocument,
  readIn,
} from "../../grammar";
import { spellUnit } from "../../server/project/spelling";
import { chainsOf } from "../support/chains";

/** Reads, edits and prints a text; gives the text back. */
function exercise(text: string): string {
  const document = readDocument(text);
  const middle = { line: document.lines.length >> 1, character: 1 };
  const edited = applyEdits(document, [{ start: middle, end: middle, text: "{\n" }]);
  expect(chainsOf(document.tree)).toHaveLength(document.lines.length);
  expect(chainsOf(edited.tree)).toHaveLength(edited.lines.length);
  const printed = formatDocument(document, spellUnit);
  expect(formatDocument(readDocument(printed), spellUnit)).toBe(printed);
  return documentText(document);
}

const pieces = fc.constantFrom(
  ...'{ } { } " , . / // ( ) ± +3 -1 % ° -70 1/2-13 2026-11-20 M12x1.25 8.8 N·m 47 at least to with remove step section machine'.split(
    " ",
  ),
  " ",
  "\n",
  "\n  ",
  "\r\n",
  '"text"',
  "\u0000",
  "\ud800",
  "\udc00",
  "\u2028",
  "e\u0301",
  "𠮷",
);
const unit = fc.oneof(fc.string({ unit: "binary", maxLength: 3 }), pieces);
const texts = fc.array(unit, { maxLength: 120 }).map((parts) => parts.join(""));

describe("any text", () => {
  test("is read, edited and printed", () => {
    fc.assert(
      fc.property(texts, (text) => void exercise(text)),
      { seed: 4, numRuns: 600 },
    );
  });

  test("comes back as it was, where its line ends are of one kind", () => {
    const oneKind = texts.map((text) => text.replace(/\r\n?/g, "\n"));
    fc.assert(
      fc.property(oneKind, (text) => {
        expect(documentText(readDocument(text))).toBe(text);
        const crlf = text.replace(/\n/g, "\r\n");
        expect(documentText(readDocument(crlf))).toBe(crlf);
      }),
      { seed: 5, numRuns: 600 },
    );
  });

  test("any line has spans within it, and words that are really there", () => {
    const lines = texts.map((text) => text.replace(/[\r\n]/g, " "));
    const within = (text: string, { start, end }: { start: number; end: number }): boolean =>
      start >= 0 && start <= end && end <= text.length;
    fc.assert(
      fc.property(lines, (text) => {
        const line = parseLine(text);
        for (const problem of line.problems) expect(within(text, problem.span)).toBe(true);
        for (const phrase of line.statement?.phrases ?? []) expect(within(text, phrase.span)).toBe(true);
        for (const { name, span } of line.perhaps)
          expect(text.slice(span.start, span.end).normalize("NFC")).toBe(name);
        expect(line.kind === "broken").toBe(line.problems.length > 0);
        readIn(line, "machine");
      }),
      { seed: 6, numRuns: 600 },
    );
  });
});

describe("too much of something", () => {
  const MANY = 10_000;
  test.each([
    ["opening braces", "{\n".repeat(MANY)],
    ["closing braces", "}\n".repeat(MANY)],
    ["braces that balance", "note {\n".repeat(MANY) + "}\n".repeat(MANY)],
    ["braces the wrong way round", "}\nnote {\n".repeat(MANY / 5)],
    ["braces on one line", "{".repeat(MANY)],
    [
      "indented heads that never close",
      Array.from({ length: 2000 }, (_, i) => `${" ".repeat(i)}note {`).join("\n"),
    ],
    ["quotes", '"'.repeat(MANY)],
    ["signs on one line", `remove ${"a, ".repeat(6000)}b`],
    ["brackets within brackets", `limit ${"1 mm (".repeat(3000)}`],
    ["backslashes", `"${"\\".repeat(19_000)}`],
    ["blank lines", "\n".repeat(MANY)],
    ["a line of 20,001 signs", "x".repeat(20_001)],
    ["zeros", `${"\u0000".repeat(5000)}\nremove \u0000 belt`],
  ])("%s", (_, text) => {
    const started = performance.now();
    expect(exercise(text)).toBe(text);
    expect(Math.max(...chainsOf(readDocument(text).tree).map((chain) => chain.length))).toBeLessThanOrEqual(
      DEEPEST,
    );
    expect(performance.now() - started).toBeLessThan(20_000);
  });
});
