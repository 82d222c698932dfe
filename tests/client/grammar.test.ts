/** The grammar for highlighting: a file of samples with what each place must be, and every construct of the table. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { CONSTRUCTS, elementsOf } from "../../grammar";
import { root } from "../../server/tools/setup.mjs";

/** Runs a file of samples; empty when all is as it says. */
function problemsIn(file: string): string {
  const tool = join(root, "node_modules/vscode-tmgrammar-test/dist/unit.js");
  const grammar = join(root, "grammar/torquil.tmLanguage.json");
  const { status, stdout, stderr } = spawnSync(process.execPath, [tool, "--compact", "-g", grammar, file], {
    cwd: root,
    encoding: "utf8",
  });
  return status === 0 ? "" : `${stdout}${stderr}`;
}

/** Runs samples that are made here. */
function problemsInText(lines: readonly string[]): string {
  const folder = mkdtempSync(join(tmpdir(), "torquil-grammar-"));
  try {
    const file = join(folder, "made.torquil");
    writeFileSync(file, ['// SYNTAX TEST "source.torquil"', ...lines, ""].join("\n"));
    return problemsIn(file);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test("each kind of thing in a line is what the samples say", () => {
  expect(problemsIn("tests/client/highlighting.torquil")).toBe("");
});

test("a sample that says something wrong is found", () => {
  expect(problemsInText(['   part cover "Cover"', "// ^^^^ comment.line"])).toContain("comment.line");
});

test("the first word of every construct is more than a name", () => {
  const samples = CONSTRUCTS.flatMap(({ id }) => {
    const [head] = elementsOf(id);
    const word = head?.type === "word" ? head.word : "";
    return [`   ${word} thing "Title"`, `// ${"^".repeat(word.length)} - variable.other.torquil`];
  });
  expect(samples.length).toBeGreaterThan(150);
  expect(problemsInText(samples)).toBe("");
});
