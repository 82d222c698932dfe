/** The tour of README.md, taken: its texts check clean, its mistakes are found, its settings are settings. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readSettings } from "../../server/project";
import { findingsIn } from "../support/fixtures";

const readme = readFileSync(join(import.meta.dirname, "../../README.md"), "utf8");
const fences = (language: string): string[] =>
  [...readme.matchAll(new RegExp(`\`\`\`${language}\n([\\s\\S]*?)\`\`\``, "g"))].map((m) => m[1] ?? "");

const [machine = "", procedure = ""] = fences("torquil");
const codes = (text: string): string[] =>
  findingsIn({ "plover-5.torquil": machine, "seal-kit.torquil": text }).map((f) => f.code);

test("it opens with the job in one paragraph", () => {
  expect(readme).toMatch(/^# Torquil\n\n[A-Z][^#]{300,900}\n\n!\[/);
});

test("the machine and the procedure of the tour are clean", () => {
  expect(fences("torquil")).toHaveLength(2);
  expect(codes(procedure)).toEqual([]);
});

test.each([
  ["      tighten cover-bolts  with torque-wrench\n", "", "finger-tight-left"],
  ["fit new seal", "fit new gasket", "unknown-name"],
  ["tighten cover-bolts", "tigthen cover-bolts", "not-understood"],
])("%j → %j is found as %s", (from, to, code) => {
  expect(procedure).toContain(from);
  expect(codes(procedure.replace(from, to))).toContain(code);
});

test("its settings are settings, and what it links to is there", () => {
  for (const text of fences("json")) expect(readSettings(text).problems).toEqual([]);
  for (const [, path] of readme.matchAll(/\]\(([^)#]+)\)/g)) {
    expect(() => readFileSync(join(import.meta.dirname, "../..", path ?? ""))).not.toThrow(/ENOENT/);
  }
});
