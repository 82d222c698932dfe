/**
 * Every rule against its fixture, and every page of the catalogue against the rules.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { GROUPS, PAGES, type Page } from "../../server/rules";
import { compared, findingsIn, readFixtures, type Section } from "../support/fixtures";

const folder = new URL("./", import.meta.url);
const fixtures = new Map<string, Section[]>(
  readdirSync(folder)
    .filter((name) => name.endsWith(".torquil"))
    .map((name) => [name.replace(".torquil", ""), readFixtures(readFileSync(new URL(name, folder), "utf8"))]),
);

const CASES = [...fixtures].flatMap(([code, sections]) =>
  sections.map((section) => [code, section.name, section] as const),
);

test.each(CASES)("%s: %s", (_code, _name, section) => {
  const { found, meant } = compared(section);
  expect(found).toEqual(meant);
});

test("every fixture is that of a code, and every code has one with a faulty and a clean section", () => {
  expect([...fixtures.keys()].sort()).toEqual(PAGES.map((p) => p.code).sort());
  for (const [code, sections] of fixtures) {
    expect(
      sections.some((s) => s.expected.some((e) => e.code === code)),
      `${code} has a faulty section`,
    ).toBe(true);
    expect(
      sections.some((s) => s.expected.length === 0),
      `${code} has a clean section`,
    ).toBe(true);
  }
});

describe("pages of the catalogue", () => {
  const pages = PAGES.map((page) => [page.code, page] as const);
  const codesIn = (text: string): string[] => findingsIn({ "example.torquil": text }).map((f) => f.code);

  test.each(pages)(
    "%s: the example shows the fault, and what to write instead has no finding at all",
    (code, { docs }) => {
      expect(codesIn(docs.example)).toContain(code);
      expect(codesIn(docs.instead)).toEqual([]);
    },
  );

  test.each(pages)("%s: the two differ by one line", (_code, { docs }) => {
    const [a, b] = [docs.example.split("\n"), docs.instead.split("\n")];
    const from = a.findIndex((line, i) => line !== b[i]);
    const same = (skipA: number, skipB: number): boolean =>
      a.slice(from + skipA).join("\n") === b.slice(from + skipB).join("\n");
    expect(same(1, 1) || same(1, 0) || same(0, 1)).toBe(true);
  });

  test.each(pages)("%s: the page is whole", (code, { docs, group, messages }: Page) => {
    expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
    expect(GROUPS).toContain(group);
    for (const text of [docs.what, docs.why]) expect(text).toMatch(/^\S[^{}]{10,}\.$/s);
    expect(Object.keys(messages)).not.toHaveLength(0);
  });
});
