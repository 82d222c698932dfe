/**
 * Every fix of every finding in the fixtures, made by itself: the finding is gone, and a safe one brings no new code.
 */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { applyEdits, documentText, type Edit, readDocument } from "../../grammar";
import type { Place } from "../../server/model";
import type { Finding, Fix } from "../../server/rules";
import { findingsIn, readFixtures } from "../support/fixtures";

const folder = new URL("./", import.meta.url);

interface Case {
  readonly texts: Readonly<Record<string, string>>;
  readonly finding: Finding;
  readonly fix: Fix<Place>;
}

const CASES: Case[] = readdirSync(folder)
  .filter((name) => name.endsWith(".torquil"))
  .flatMap((name) => readFixtures(readFileSync(new URL(name, folder), "utf8")))
  .flatMap(({ texts }) =>
    findingsIn(texts).flatMap((finding) => finding.fixes.map((fix) => ({ texts, finding, fix }))),
  );

function withFix({ texts, fix }: Case): Record<string, string> {
  const changed = { ...texts };
  // From the end of the text backwards, so that no change moves the next.
  const changes = [...fix.changes].sort(
    (a, b) => b.place.line - a.place.line || b.place.start - a.place.start,
  );
  for (const { place, text } of changes) {
    const edit: Edit = {
      start: { line: place.line, character: place.start },
      end: { line: place.line, character: place.end },
      text,
    };
    changed[place.file] = documentText(applyEdits(readDocument(changed[place.file] ?? ""), [edit]));
  }
  return changed;
}

const count = (findings: readonly Finding[], code: string): number =>
  findings.filter((f) => f.code === code).length;

test("there are fixes of many codes to try", () => {
  expect(new Set(CASES.map((c) => c.finding.code)).size).toBeGreaterThan(10);
});

test("each fix takes its finding away", () => {
  const left = CASES.filter((one) => {
    const before = count(findingsIn(one.texts), one.finding.code);
    return count(findingsIn(withFix(one)), one.finding.code) >= before;
  });
  expect(
    left.map(({ finding }) => `${finding.code} ${finding.place.line + 1} ${finding.message.id}`),
  ).toEqual([]);
});

test("a safe fix brings no code that was not there before", () => {
  const bad = CASES.filter(({ fix }) => fix.safe).flatMap((one) => {
    const before = new Set(findingsIn(one.texts).map((f) => f.code));
    return findingsIn(withFix(one))
      .filter((f) => !before.has(f.code))
      .map((f) => `${one.finding.code} brings ${f.code}`);
  });
  expect(bad).toEqual([]);
});

/** Codes whose fix writes lines that do work. */
const WORKS = new Set([
  "part-left-off",
  "finger-tight-left",
  "not-refilled",
  "connection-left-open",
  "support-left",
  "temporary-left-in",
  "left-running",
  "caution-late",
  "caution-passed-by",
  "nothing-holds",
  "long-and-short-mixed",
  "pin-takes-torque",
  "not-told-apart",
  "wait-missing",
  "cured-too-soon",
  "not-drained",
]);

/** What such a line asks for in its turn: each of these is offered by a repair of its own. */
const ASKED_NEXT = new Set(["tool-undeclared", "caution-missing"]);

test("a fix that adds work is there for each of its codes, and leads to no other finding", () => {
  const own = CASES.filter((one) => WORKS.has(one.finding.code));
  expect(new Set(own.map((one) => one.finding.code))).toEqual(WORKS);
  const worse = own.flatMap((one) => {
    const before = findingsIn(one.texts);
    const after = findingsIn(withFix(one));
    const codes = new Set(after.map((f) => f.code));
    return [...codes]
      .filter((code) => !ASKED_NEXT.has(code) && count(after, code) > count(before, code))
      .map((code) => `${one.finding.code} ${one.finding.place.line + 1} brings ${code}`);
  });
  expect(worse).toEqual([]);
});
