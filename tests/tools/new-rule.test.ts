/**
 * `npm run new-rule`: what it refuses, what it writes, and that what it writes compiles and runs.
 */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { codeProblem, codesIn, type RuleFile, ruleFiles } from "../../server/tools/rule-files";

const root = fileURLToPath(new URL("../../", import.meta.url));
const REGISTRY = readFileSync(join(root, "server/rules/registry.ts"), "utf8");

test.each([
  ["Bolt-Too-Long", "is no code"],
  ["bolt", "is no code"],
  ["../bolt-too-long", "is no code"],
  ["bare-number", "There is a finding bare-number already"],
])("%s is refused", (code, message) => {
  expect(codeProblem(code, codesIn(REGISTRY))).toContain(message);
});

test.each(["aa-first", "bolt-too-long", "zz-last"])(
  "%s stands in the registry once, in the order of the codes",
  (code) => {
    const registry = ruleFiles(code, REGISTRY).find((f) => f.path === "server/rules/registry.ts")?.text ?? "";
    expect(codesIn(registry)).toEqual([...codesIn(REGISTRY), code].sort());
    expect(diagnostics(ruleFiles(code, REGISTRY))).toEqual([]);
  },
);

/** What TypeScript says of the rule and the registry, with the new files in place of those on the disk. */
function diagnostics(files: readonly RuleFile[]): string[] {
  const options = {
    ...ts.parseJsonConfigFileContent(
      ts.readConfigFile(join(root, "tsconfig.json"), ts.sys.readFile).config,
      ts.sys,
      root,
    ).options,
    types: [],
  };
  const host = ts.createCompilerHost(options);
  const texts = new Map(files.map((f) => [join(root, f.path), f.text]));
  const { getSourceFile, fileExists, readFile } = host;
  host.getSourceFile = (path, ...rest) => {
    const text = texts.get(path);
    if (text !== undefined) return ts.createSourceFile(path, text, ts.ScriptTarget.ES2022);
    const known = sources.get(path) ?? getSourceFile(path, ...rest);
    if (known) sources.set(path, known);
    return known;
  };
  host.fileExists = (path) => texts.has(path) || fileExists(path);
  host.readFile = (path) => texts.get(path) ?? readFile(path);
  const sourcesOf = [...texts.keys()].filter((path) => path.endsWith(".ts"));
  const program = ts.createProgram(sourcesOf, options, host);
  return sourcesOf.flatMap((path) => {
    const source = program.getSourceFile(path);
    return [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)].map((d) =>
      ts.flattenDiagnosticMessageText(d.messageText, " "),
    );
  });
}

/** Files of the tree, read once for the three programs. */
const sources = new Map<string, ts.SourceFile>();

describe("in a copy of the checkout", () => {
  let copy = "";

  beforeAll(() => {
    copy = mkdtempSync(join(tmpdir(), "torquil-new-rule-"));
    for (const path of ["package.json", "grammar", "server", "tests/rules", "tests/support"]) {
      mkdirSync(join(copy, path, ".."), { recursive: true });
      cpSync(join(root, path), join(copy, path), { recursive: true });
    }
    symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
  });

  afterAll(() => rmSync(copy, { recursive: true, force: true }));

  const node = (...args: string[]) =>
    spawnSync(process.execPath, ["--import", "tsx", ...args], { cwd: copy, encoding: "utf8" });
  const registry = (): string => readFileSync(join(copy, "server/rules/registry.ts"), "utf8");

  test("a code the engine itself finds is refused with exit 2, and nothing is written", () => {
    const { status, stderr } = node("server/tools/new-rule.ts", "allows-nothing");
    expect([status, stderr]).toEqual([
      2,
      "There is a finding allows-nothing already: see server/rules/CATALOGUE.md.\n",
    ]);
    expect(registry()).toBe(REGISTRY);
  });

  test("a new rule is run and finds nothing yet, so its fixture does not hold", () => {
    expect(node("server/tools/new-rule.ts", "bolt-too-long").status).toBe(0);
    expect(codesIn(registry())).toContain("bolt-too-long");
    const script = `
      import { readFileSync } from "node:fs";
      import { RULES } from "./server/rules/index.ts";
      import { compared, readFixtures } from "./tests/support/fixtures.ts";
      const own = RULES.filter((r) => r.code === "bolt-too-long");
      const sections = readFixtures(readFileSync("tests/rules/bolt-too-long.torquil", "utf8")).map(compared);
      console.log(JSON.stringify([own.length, ...sections.map((s) => [s.found.length, s.meant.length])]));`;
    expect(node("--input-type=module", "--eval", script).stdout.trim()).toBe("[1,[0,1],[0,0]]");
  });
});
