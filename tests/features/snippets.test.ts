/** Each form to fill in stands in its usual form as it is, and parses wherever it is offered. */
import { expect, test } from "vitest";
import { type Context, documentText, formatDocument, readDocument } from "../../grammar";
import { bodyWithStops, plainBody, SNIPPETS, snippetsIn } from "../../server/features/snippets";
import { findUnit } from "../../server/units/lookup";
import { changed, offered } from "./support";

/** A block of each kind that forms stand in, as the lines around them. */
const AROUND: Partial<Record<Context, readonly string[]>> = {
  file: [],
  machine: ['machine m "M" {'],
  fastener: ['machine m "M" {', '  fastener f "F" {'],
  procedure: ['procedure p "P" {'],
  section: ['procedure p "P" {', '  section "S" {'],
  acts: ['procedure p "P" {', '  step "S" {'],
  check: ['procedure p "P" {', '  check "C" {'],
};

function within(context: Context, body: string): string {
  const heads = AROUND[context];
  if (!heads) throw new Error(`no block of the kind ${context} to try it in`);
  const indent = "  ".repeat(heads.length);
  const lines = body.split("\n").map((line) => (line === "" ? "" : indent + line));
  const ends = heads.map((_, i) => `${"  ".repeat(heads.length - 1 - i)}}`);
  return [...heads, ...lines, ...ends, ""].join("\n");
}

for (const snippet of SNIPPETS) {
  for (const context of snippet.within) {
    test(`${snippet.word}, ${snippet.shape}, in ${context}`, () => {
      const body = plainBody(snippet.body);
      expect(body).not.toMatch(/[‹›]/);
      const document = readDocument(within(context, body));
      expect(document.lines.filter((line) => line.kind === "broken").map((l) => l.text)).toEqual([]);
      expect(document.tree.balanced).toBe(true);
      expect(formatDocument(document, findUnit)).toBe(documentText(document));
      expect(snippet.about).not.toBe("");
      // Stops are numbered from 1 without a gap.
      const stops = [...new Set([...snippet.body.matchAll(/‹(\d+):/g)].map((m) => Number(m[1])))];
      expect(stops).toEqual(stops.map((_, i) => i + 1));
    });
  }
}

test("they are offered where they may stand, behind the plain words", () => {
  const inStep = offered(changed("      remove belt\n", "      $0\n"));
  const shapes = inStep.filter((o) => o.kind === "snippet").map((o) => o.label);
  expect(shapes).toContain("tighten … { stage … }");
  expect(shapes.some((label) => label.startsWith("step"))).toBe(false);
  expect(inStep[0]?.kind).not.toBe("snippet");
  const word = inStep.find((o) => o.label === "tighten … with …");
  expect(word).toMatchObject({ text: "tighten bolts  with torque-wrench", filter: "tighten" });
  expect(word?.snippet).toMatch(/^tighten \$\{1:bolts\} {2}with \$\{2:torque-wrench\}\$0$/);
  const inSection = offered(changed('  section "Put on" {\n', '  section "Put on" {\n    $0\n')).map(
    (o) => o.label,
  );
  expect(inSection.indexOf('step "…" { … }')).toBe(inSection.indexOf("step") - 1);
  expect(inSection.indexOf('check "…" { limit … }')).toBeLessThan(inSection.indexOf("check"));
  expect(offered(changed("      remove belt\n", "      remove $0\n")).some((o) => o.kind === "snippet")).toBe(
    false,
  );
});

test("where the block is not known all are", () => {
  expect(snippetsIn(undefined)).toBe(SNIPPETS);
});

test("signs that mean something to an editor stay as they are, in stops and beside them", () => {
  const body = "a $5 } ‹1:b } \\ c› ‹2:x,y|z›";
  expect(plainBody(body)).toBe("a $5 } b } \\ c x,y");
  expect(bodyWithStops(body)).toBe(
    String.raw`a \$5 \} $`.concat(String.raw`{1:b \} \\ c} $`, String.raw`{2|x\,y,z|}$0`),
  );
});
