/**
 * Every action that is offered for any finding in the fixtures of the rules and in the faulty examples, made by itself:
 * the finding is gone, every line can be read, what was in its usual form still is, and no error has come that the
 * action made.
 */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { documentText, formatDocument } from "../../grammar";
import { type Action, inUsualForm, offeredActions } from "../../server/features";
import { tried } from "../../server/features/trial";
import type { Project } from "../../server/model";
import { checkProject, type Finding, pageByCode } from "../../server/rules";
import { findUnit } from "../../server/units/lookup";
import { examplesIn } from "../support/examples";
import { readFixtures } from "../support/fixtures";
import { projectOf } from "../support/project";

const RULES = new URL("../rules/", import.meta.url);

const PROJECTS: readonly (readonly [string, Project])[] = [
  ...readdirSync(RULES)
    .filter((name) => name.endsWith(".torquil"))
    .flatMap((name) =>
      readFixtures(readFileSync(new URL(name, RULES), "utf8")).map(
        (section) => [`${name} ${section.name}`, projectOf(section.texts)] as const,
      ),
    ),
  [
    "examples/faulty",
    projectOf(Object.fromEntries(examplesIn("examples/faulty").map((e) => [e.path, e.text]))),
  ],
];

interface Case {
  readonly where: string;
  readonly project: Project;
  readonly before: readonly Finding[];
  readonly finding: Finding;
  readonly action: Action;
}

const CASES: readonly Case[] = PROJECTS.flatMap(([where, project]) => {
  const before = [...checkProject(project).values()].flat();
  return before.flatMap((finding) => {
    const { file, line, start } = finding.place;
    const at = { line, character: start };
    const own = before.filter((f) => f.place.file === file);
    return offeredActions(project, file, own, { from: at, to: at })
      .filter((action) => action.findings.includes(finding) && action.kind !== "fix-all")
      .map((action) => ({ where, project, before, finding, action }));
  });
});

interface After extends Case {
  readonly after: Project;
  readonly findings: readonly Finding[];
}

const AFTER: readonly After[] = CASES.map((one) => {
  const after = tried(one.project, inUsualForm(one.project, one.action.edits));
  return { ...one, after, findings: [...checkProject(after).values()].flat() };
});

const told = ({ where, finding, action }: Case): string =>
  `${where}, line ${finding.place.line + 1}, ${finding.code}: ${action.title}`;

const count = (findings: readonly Finding[], code: string): number =>
  findings.filter((f) => f.code === code).length;

test("there are actions of every kind, for many codes", () => {
  expect(new Set(CASES.map((c) => c.action.kind))).toEqual(new Set(["fix", "declare", "allow"]));
  expect(
    new Set(CASES.filter((c) => c.action.kind === "fix").map((c) => c.finding.code)).size,
  ).toBeGreaterThan(15);
  expect(CASES.length).toBeGreaterThan(200);
});

test("every fix that a finding has is offered at its place", () => {
  const missing = PROJECTS.flatMap(([where, project]) =>
    [...checkProject(project).values()].flat().flatMap((finding) => {
      const offered = CASES.filter((c) => c.project === project && c.finding === finding);
      const fixes = CASES.filter((c) => c.where === where && c.finding.fingerprint === finding.fingerprint);
      return finding.fixes.length > 0 && offered.length === 0 && fixes.length === 0
        ? [`${where} ${finding.code}`]
        : [];
    }),
  );
  expect(missing).toEqual([]);
});

test("each takes its finding away", () => {
  const left = AFTER.filter(
    (one) => count(one.findings, one.finding.code) >= count(one.before, one.finding.code),
  );
  expect(left.map(told)).toEqual([]);
});

test("each leaves only lines that can be read, as far as they could be before", () => {
  const broken = (project: Project): number =>
    [...project.files.values()].flatMap((f) => f.document.lines).filter((l) => l.kind === "broken").length;
  const worse = AFTER.filter((one) => broken(one.after) > broken(one.project));
  expect(worse.map(told)).toEqual([]);
});

test("each leaves a text in its usual form that was so before", () => {
  const rough = AFTER.filter((one) =>
    [...one.after.files].some(([path, { document }]) => {
      const old = one.project.files.get(path)?.document;
      if (!old?.tree.balanced || old === document || formatDocument(old, findUnit) !== documentText(old))
        return false;
      return formatDocument(document, findUnit) !== documentText(document);
    }),
  );
  expect(rough.map(told)).toEqual([]);
});

test("none brings an error of writing, and a safe one no error at all", () => {
  const own = new Set(["names and shape", "quantities"]);
  // A line that could not be read hid what is wrong with its words, whoever repairs it.
  const hidden = ({ project, finding: { place } }: Case): boolean =>
    project.files.get(place.file)?.document.lines[place.line]?.kind === "broken";
  const bad = AFTER.filter((one) => !hidden(one)).flatMap((one) =>
    one.findings
      .filter((f) => f.severity === "error" && count(one.findings, f.code) > count(one.before, f.code))
      .filter((f) => one.action.safe || own.has(pageByCode(f.code)?.group ?? ""))
      .map((f) => `${told(one)} brings ${f.code}`),
  );
  expect(bad).toEqual([]);
});
