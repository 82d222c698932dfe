/** Plants bad modules in a small house, to show that each tidy check finds what it is for and leaves good ones alone. */
import { describe, expect, test } from "vitest";
import { problemsOf, sectionProblems, tableProblems } from "./checks";
import { HOUSE, LONGEST_MODULE } from "./house";
import { readModule } from "./modules";

const OPENING = "/** A module planted for this test. */\n";

function problems(planted: Record<string, string>, opening = OPENING): string[] {
  const sources = new Map(Object.entries(planted).map(([path, text]) => [path, opening + text]));
  const modules = [...sources].map(([path, text]) => readModule(path, text));
  return problemsOf(HOUSE, modules, sources);
}

describe("directions", () => {
  test("downward imports, values and types, are fine", () => {
    const planted = {
      "server/units/a.ts": "export const a = 1;",
      "server/phrases/b.ts": "export type B = 1;",
      "server/facts/c.ts":
        'import { a } from "../units/a";\nimport type { B } from "../phrases/b";\nimport "./d";',
      "server/facts/d.ts": 'import { type B } from "../phrases/b";',
      "server/walk/e.ts": 'export { c } from "../facts/c";',
      "server/tools/f.ts": 'import { e } from "../walk/e";\nimport "node:fs";',
      "tests/walk/g.test.ts": 'import { e } from "../../server/walk/e";\nimport "vitest";',
    };
    expect(problems(planted)).toEqual([]);
  });

  const target = {
    "server/units/a.ts": "",
    "server/phrases/b.ts": "",
    "server/walk/w.ts": "",
    "server/sheet/s.ts": "",
    "server/lsp/l.ts": "",
    "tests/support/t.ts": "",
  };
  test.each([
    ["server/units/x.ts", "../walk/w", "server/units must not import from server/walk"],
    ["server/rules/x.ts", "../sheet/s", "server/rules must not import from server/sheet"],
    ["server/compare/x.ts", "../sheet/s", "server/compare must not import from server/sheet"],
    ["server/facts/x.ts", "../phrases/b", "server/facts may import only types from server/phrases"],
    ["server/model/x.ts", "../phrases/b", "server/model may import only types from server/phrases"],
    ["server/cli/x.ts", "../lsp/l", "server/cli must not import from server/lsp"],
    ["server/walk/x.ts", "../../tests/support/t", "server/walk must not import tests/support/t.ts"],
    ["server/walk/x.ts", "./nowhere", '"./nowhere" leads to no source'],
    ["client/x.ts", "../server/units/a", "client must not import from server/units"],
  ])("%s must not import %s", (path, specifier, message) => {
    const ways = [
      `import { a } from "${specifier}";`,
      `export * from "${specifier}";`,
      `const a = await import("${specifier}");`,
    ];
    for (const text of ways) expect(problems({ ...target, [path]: text })).toEqual([`${path}:2: ${message}`]);
  });

  test("types count as imports too", () => {
    for (const text of ['import type { w } from "../walk/w";', 'type W = import("../walk/w").W;'])
      expect(problems({ ...target, "server/units/x.ts": text })).toEqual([
        "server/units/x.ts:2: server/units must not import from server/walk",
      ]);
  });

  test.each([
    ["server/features/x.ts", "vscode-languageserver/node", "the package vscode-languageserver"],
    ["grammar/x.ts", "zod", "the package zod"],
    [
      "server/rules/x.ts",
      "@myriaddreamin/typst-ts-node-compiler",
      "the package @myriaddreamin/typst-ts-node-compiler",
    ],
    ["server/sheet/x.ts", "node:path", "node:path"],
    ["server/cli/x.ts", "node:fs/promises", "node:fs/promises"],
    ["server/lsp/x.ts", "fs", "the package fs"],
  ])("%s must not import %s", (path, specifier, what) => {
    const room = path.slice(0, path.lastIndexOf("/"));
    expect(problems({ [path]: `import "${specifier}";` })).toEqual([
      `${path}:2: ${room} must not import ${what}`,
    ]);
  });

  test("packages and modules of Node where the table has them are fine", () => {
    const planted = {
      "grammar/a.ts": 'import { Lexer } from "chevrotain";',
      "server/lsp/b.ts": 'import { createConnection } from "vscode-languageserver/node";',
      "server/project/c.ts": 'import { z } from "zod";\nimport { readFile } from "node:fs/promises";',
      "server/cli/d.ts": 'import { styleText } from "node:util";',
    };
    expect(problems(planted)).toEqual([]);
  });

  test("a module in no folder of the table is reported", () => {
    const path = "server/shed/x.ts";
    expect(problems({ [path]: "" })).toEqual([
      `${path}:1: lies in no folder of the table of tests/tidy/house.ts`,
    ]);
  });
});

describe("surroundings", () => {
  test.each([
    ["Date.now()", "Date.now"],
    ["new Date()", "new Date()"],
    ["new Date", "new Date()"],
    ["new Date(0).getHours()", "getHours"],
    ["Math.random()", "Math.random"],
    ["(1.5).toLocaleString()", "toLocaleString"],
    ['"a".localeCompare("b")', "localeCompare"],
    ["new Intl.NumberFormat()", "Intl"],
    ["process.cwd()", "process"],
    ["[process]", "process"],
    ["{ process }", "process"],
    ["globalThis.process", "globalThis.process"],
    ["performance.now()", "performance"],
    ["console.log(1)", "console"],
    ["setTimeout(() => 1, 2)", "setTimeout"],
  ])("%s is reported in a pure folder, and in no other", (text, what) => {
    const body = `export const a = ${text};`;
    expect(problems({ "server/walk/x.ts": body })).toEqual([
      `server/walk/x.ts:2: server/walk must not use ${what}`,
    ]);
    expect(problems({ "server/project/x.ts": body, "server/cli/x.ts": body })).toEqual([]);
  });

  test("what only bears such a name is fine", () => {
    const text = [
      "export const machine = { process: 1, console: 2 };",
      "export interface Job { process: string }",
      "export const { process: job } = machine;",
      "export const at = (machine.process, Date.UTC(2026, 0, 1), new Date(0).getTime());",
      '// process.exit() and Date.now() in a comment, "Math.random" in a text',
      'export const words = "process.cwd()";',
    ];
    expect(problems({ "server/walk/x.ts": text.join("\n") })).toEqual([]);
  });
});

describe("circles", () => {
  test("two modules, and three with a type import, are reported once", () => {
    const planted = {
      "server/walk/a.ts": 'import "./b";',
      "server/walk/b.ts": 'import "./c";',
      "server/walk/c.ts": 'import type { A } from "./a";',
      "server/units/d.ts": 'export * from "./e";',
      "server/units/e.ts": 'import "./d";',
    };
    expect(problems(planted)).toEqual([
      "server/walk/a.ts:1: imports itself by server/walk/a.ts → server/walk/b.ts → server/walk/c.ts → server/walk/a.ts",
      "server/units/d.ts:1: imports itself by server/units/d.ts → server/units/e.ts → server/units/d.ts",
    ]);
  });

  test("two ways to one module are no circle", () => {
    const planted = {
      "server/units/a.ts": 'import "./b";\nimport "./c";',
      "server/units/b.ts": 'import "./c";',
      "server/units/c.ts": "",
    };
    expect(problems(planted)).toEqual([]);
  });
});

describe("shape", () => {
  test("a module without an opening comment is reported", () => {
    const message = "grammar/x.ts:1: does not open with a comment /** … */ that says what it is for";
    for (const text of [
      "",
      "/** Tokens. */\n",
      "// tells what it is for\n",
      'import "chevrotain";\n/** Tokens of one line. */\n',
    ])
      expect(problems({ "grammar/x.ts": "" }, text)).toEqual([message]);
    expect(problems({ "grammar/x.mjs": "" }, "#!/usr/bin/env node\n/** Tokens of one line. */\n")).toEqual(
      [],
    );
  });

  test("a module that is too long is reported, unless it is generated", () => {
    const longest = "//\n".repeat(LONGEST_MODULE - 1);
    expect(problems({ "grammar/x.ts": longest })).toEqual([]);
    expect(problems({ "grammar/x.ts": `${longest}//\n` })).toEqual([
      `grammar/x.ts:${LONGEST_MODULE + 1}: has ${LONGEST_MODULE + 1} lines, more than ${LONGEST_MODULE}`,
    ]);
    expect(problems({ "grammar/generated/x.ts": `${longest}//\n` })).toEqual([]);
    const generated = "/** Generated by npm run generate. */\n";
    expect(problems({ "grammar/x.ts": `${longest}//\n` }, generated)).toEqual([]);
  });
});

describe("the table", () => {
  test("a row that looks downwards, or at no row, is reported", () => {
    const house = [
      { path: "a", mayImport: ["b"] },
      { path: "b", mayImport: ["a", "c"] },
    ];
    expect(tableProblems(house)).toEqual([
      "a: b does not stand above it in the table",
      "b: c does not stand above it in the table",
    ]);
  });
});

describe("sections", () => {
  test("a folder without a heading of its own is reported", () => {
    const rooms = ["grammar", "server/units", "server/walk", "server/lsp"].map((path) => ({
      path,
      mayImport: [],
    }));
    const text = "### grammar/\n### `units/` quantities\n## walk/\nSee server/walk/.\n### server/lsp/\n";
    expect(sectionProblems(rooms, text)).toEqual(['DEVELOPERS.md: no section "### server/walk/"']);
  });
});
