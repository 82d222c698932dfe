/**
 * `npm run new-rule`, tried in a copy of the folders it reads and writes.
 */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { codesIn } from "../../server/tools/rule-files";

const root = fileURLToPath(new URL("../../", import.meta.url));
let copy = "";

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), "torquil-new-rule-"));
  for (const path of ["package.json", "tsconfig.json", "grammar", "server", "tests/rules", "tests/support"]) {
    mkdirSync(join(copy, path, ".."), { recursive: true });
    cpSync(join(root, path), join(copy, path), { recursive: true });
  }
  symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
});

afterAll(() => rmSync(copy, { recursive: true, force: true }));

function node(...args: string[]) {
  return spawnSync(process.execPath, args, { cwd: copy, encoding: "utf8" });
}

const newRule = (...args: string[]) => node("--import", "tsx", "server/tools/new-rule.ts", ...args);

test.each([
  ["no code", [], "Say the code"],
  ["two codes", ["bolt-too-long", "bolt-too-short"], "Say the code"],
  ["one word", ["Bolt"], "is no code"],
  ["a path", ["../bolt-too-long"], "is no code"],
  ["a code that exists", ["bare-number"], "There is a rule bare-number already"],
  ["a code the engine finds", ["allows-nothing"], "already"],
])("%s is refused with exit 2 and nothing written", (_name, args, message) => {
  const before = readFileSync(join(copy, "server/rules/registry.ts"), "utf8");
  const { status, stderr } = newRule(...args);
  expect(stderr).toContain(message);
  expect(stderr).not.toContain("    at ");
  expect(status).toBe(2);
  expect(readFileSync(join(copy, "server/rules/registry.ts"), "utf8")).toBe(before);
});

test("a new rule compiles, is in the registry once and in order, and finds nothing yet", () => {
  for (const code of ["bolt-too-long", "aa-first", "zz-last"]) expect(newRule(code).status).toBe(0);
  const codes = codesIn(readFileSync(join(copy, "server/rules/registry.ts"), "utf8"));
  expect(codes).toEqual([...codes].sort());
  for (const code of ["bolt-too-long", "aa-first", "zz-last"])
    expect(codes.filter((c) => c === code)).toHaveLength(1);

  const config = {
    extends: "./tsconfig.json",
    include: [],
    files: ["server/rules/bolt-too-long.ts", "server/rules/aa-first.ts"],
  };
  writeFileSync(join(copy, "tsconfig.new.json"), JSON.stringify(config));
  expect(node("node_modules/typescript/bin/tsc", "--noEmit", "-p", "tsconfig.new.json").stdout).toBe("");

  writeFileSync(
    join(copy, "look.ts"),
    `import { RULES } from "./server/rules";
import { findingsIn } from "./tests/support/fixtures";
const rule = RULES.filter((r) => r.code === "bolt-too-long");
const found = rule.flatMap((r) => findingsIn({ "a.torquil": r.docs.example })).filter((f) => f.code === "bolt-too-long");
console.log(rule.length, found.length);
`,
  );
  expect(node("--import", "tsx", "look.ts").stdout.trim()).toBe("1 0");
});

test("until it is filled in, its fixture does not hold", () => {
  const fixture = readFileSync(join(copy, "tests/rules/bolt-too-long.torquil"), "utf8");
  expect(fixture).toContain("// hint: bolt-too-long");
  expect(fixture.match(/^\/\/\/\/ /gm)).toHaveLength(2);
});
