/**
 * How findings are worded, tried on every finding of every fixture and page.
 */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { type Finding, PAGES, pageByCode, wordsOf } from "../../server/rules";
import { findingsIn, readFixtures } from "../support/fixtures";

const LONGEST = 160;
const JARGON =
  /\b(tokens?|parse[rds]?|parsing|syntax|invalid|identifiers?|null|undefined|keywords?|literals?|statements?|nodes?)\b/i;

const folder = new URL("./", import.meta.url);
const texts = readdirSync(folder)
  .filter((name) => name.endsWith(".torquil"))
  .flatMap((name) => readFixtures(readFileSync(new URL(name, folder), "utf8")).map((s) => s.texts));
const found: Finding[] = [...texts, ...PAGES.map((p) => ({ "example.torquil": p.docs.example }))].flatMap(
  (t) => findingsIn(t),
);

/** Words the writer quoted are the writer's own. */
const ownWords = (text: string): string => text.replace(/“[^”]*”/g, "");

test("there is something to read", () => {
  expect(found.length).toBeGreaterThan(PAGES.length);
});

test.each([
  ["messages", (f: Finding) => [wordsOf(f, f.message)], /\.$|Did you mean “[^”]+”\?$/],
  ["notes at other places", (f: Finding) => f.related.map((r) => wordsOf(f, r.message)), /\.$/],
  ["hints", (f: Finding) => (f.hint ? [wordsOf(f, f.hint)] : []), /[.}”]$/],
  ["titles of fixes", (f: Finding) => f.fixes.map((x) => wordsOf(f, x.title)), /[^.]$/],
] as const)("%s are filled in, short and plain", (what, wordsIn, end) => {
  for (const finding of found) {
    for (const text of wordsIn(finding)) {
      expect(text, finding.code).toMatch(/^[\p{Lu}“0-9]/u);
      expect(text, finding.code).not.toMatch(/\{\w*\}|undefined|\[object/);
      expect(text, finding.code).toMatch(end);
      expect(ownWords(text), finding.code).not.toMatch(JARGON);
      if (what !== "hints") expect(text.length, `${finding.code}: ${text}`).toBeLessThanOrEqual(LONGEST);
    }
  }
});

test("every text a page may say is used by its own rule or is a hint", () => {
  const said = new Set(
    found.flatMap((f) =>
      [f.message, f.hint, ...f.related.map((r) => r.message), ...f.fixes.map((x) => x.title)].flatMap((m) =>
        m ? [`${pageByCode(f.code)?.code} ${m.id}`] : [],
      ),
    ),
  );
  const silent = PAGES.flatMap((page) => Object.keys(page.messages).map((id) => `${page.code} ${id}`)).filter(
    (key) => !said.has(key),
  );
  expect(silent).toEqual([]);
});

test("hints quote the line they repair in one way", () => {
  for (const finding of found) {
    const hint = finding.hint ? wordsOf(finding, finding.hint) : "";
    expect((hint.match(/“/g) ?? []).length, hint).toBe((hint.match(/”/g) ?? []).length);
  }
});
