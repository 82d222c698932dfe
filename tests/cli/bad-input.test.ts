/** Bad input: a plain message with the place, the exit code that is promised, no stack trace, and no waiting. */
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { afterEach, beforeAll, expect, test } from "vitest";
import { buildBundle, type Content, discard, folderWith, torquil } from "./process";

beforeAll(buildBundle);

let folder = "";
afterEach(() => discard(folder));

const GOOD = 'torquil 1\n\nmachine winch "Hand winch" {\n  part drum "Drum"\n}\n';

/** Checks a folder with these contents and gives the exit code, and all that was said as lines. */
function checked(
  contents: Readonly<Record<string, Content>>,
  ...args: string[]
): { code: number; lines: string[] } {
  folder = folderWith(contents);
  const { code, out, err } = torquil(folder, ["check", ...args]);
  const said = err + out;
  expect(said).not.toMatch(/^\s+at |node:internal|mistake in Torquil/m);
  return { code, lines: said.split("\n") };
}

/** Expects one line to begin with a place and to match. */
function expectLine(lines: readonly string[], place: string, words: RegExp): void {
  expect(lines.filter((line) => line.startsWith(`${place}: `) && words.test(line))).toHaveLength(1);
}

test("a file that is not there", () => {
  const { code, lines } = checked({ "a.torquil": GOOD }, "none.torquil", "a.torquil");
  expect(code).toBe(2);
  expectLine(lines, "none.torquil", /error: There is no such file/);
  expect(lines.join("\n")).toMatch(/in 1 file;/);
});

test("a folder without files, and no folder at all", () => {
  const { code, lines } = checked({ "jobs/notes.md": "" }, "jobs");
  expect(code).toBe(2);
  expectLine(lines, "jobs", /error: There is no \.torquil file in this folder/);
});

test("a file that is no text", () => {
  const { code, lines } = checked({ "photo.torquil": new Uint8Array([0x89, 0x50, 0x0a, 0x4e, 0x00, 0x1a]) });
  expect(code).toBe(2);
  expectLine(lines, "photo.torquil:2:2", /error: This is not a text/);
});

test("a file that is not UTF-8; the others are checked all the same", () => {
  const { code, lines } = checked({
    "a.torquil": Buffer.from("torquil 1\n// caf\xe9\n", "latin1"),
    "b.torquil": 'torquil 1\n\nallow no-such-code "x"\n',
  });
  expect(code).toBe(2);
  expectLine(lines, "a.torquil:2:7", /error: This is not UTF-8: the byte E9/);
  expectLine(lines, "b.torquil:3:7", /warning: There is no code/);
});

test("an empty file", () => {
  const { code, lines } = checked({ "a.torquil": "", "b.torquil": "\ufeff \r\n" });
  expect(code).toBe(2);
  expectLine(lines, "a.torquil:1:1", /error: This file is empty/);
  expectLine(lines, "b.torquil:1:1", /error: This file is empty/);
});

test("a file of more than 16 MB", () => {
  const { code, lines } = checked({ "a.torquil": Buffer.alloc(16 * 1024 * 1024 + 1, "// x\n") });
  expect(code).toBe(2);
  expectLine(lines, "a.torquil", /error: This file is over 16 MB/);
});

test("ten thousand braces, in any order, end soon and with places", () => {
  const many = (text: string): string => `torquil 1\n${text.repeat(10_000)}\n`;
  const { code, lines } = checked({
    "close.torquil": many("}\n"),
    "heads.torquil": many('section "x" {\n'),
    "line.torquil": many("{"),
    "open.torquil": many("{\n"),
    "turns.torquil": many("{\n}\n"),
  });
  expect(code).toBe(1);
  for (const file of ["close", "heads", "line", "open", "turns"])
    expect(lines.some((line) => line.startsWith(`${file}.torquil:2:`) && line.includes("error: "))).toBe(
      true,
    );
  expect(lines.length).toBeLessThan(2_000);
});

test("links that lead in a loop", () => {
  const { code, lines } = checked({
    "a.torquil": GOOD,
    "one.torquil": { link: "two.torquil" },
    "two.torquil": { link: "one.torquil" },
    "sub/up": { link: ".." },
  });
  expect(code).toBe(2);
  expectLine(lines, "one.torquil", /error: This link leads back/);
  expectLine(lines, "sub/up", /error: This link leads back/);
});

test("a use that leads outside the project, as written or through a link", () => {
  const { code, lines } = checked(
    {
      "secret.torquil": GOOD,
      "p/torquil.json": "{}",
      "p/a.torquil": 'torquil 1\n\nuse "../secret.torquil"\n',
      "p/b.torquil": 'torquil 1\n\nuse "link/secret.torquil"\n',
      "p/skipped/link": { link: "../.." },
      "p/c.torquil": 'torquil 1\n\nuse "skipped/link/secret.torquil"\n',
    },
    "p/a.torquil",
    "p/c.torquil",
  );
  expect(code).toBe(1);
  expectLine(lines, "p/a.torquil:3:5", /error: .*outside/);
  expectLine(lines, "p/c.torquil:3:5", /error: .*outside/);
  expect(lines.join("\n")).not.toContain("Hand winch");
});

test("a link to a file outside the project", () => {
  const { code, lines } = checked(
    { "secret.torquil": GOOD, "p/torquil.json": "{}", "p/a.torquil": { link: "../secret.torquil" } },
    "p",
  );
  expect(code).toBe(2);
  expectLine(lines, "p/a.torquil", /error: This link leads outside the project folder/);
});

test("a settings file with an error, in its JSON or in what it says", () => {
  const json = checked({ "torquil.json": '{\n  "paper": "a4"\n  "units": "both"\n}', "a.torquil": GOOD });
  expect(json.code).toBe(2);
  expectLine(json.lines, "torquil.json:3:3", /error: A comma is missing/);
  discard(folder);
  const key = checked({ "torquil.json": '{\n  "papper": "a4"\n}', "a.torquil": GOOD });
  expect(key.code).toBe(2);
  expectLine(
    key.lines,
    "torquil.json:2:3",
    /error: There is no setting "papper" here\. Did you mean "paper"\?/,
  );
});

test("a pipe is not waited for", () => {
  folder = folderWith({ "a.torquil": GOOD });
  spawnSync("mkfifo", [join(folder, "pipe.torquil")]);
  const { code, err } = torquil(folder, ["check", "pipe.torquil"]);
  expect(code).toBe(2);
  expect(err).toMatch(/^pipe\.torquil: error: This is neither a file nor a folder/);
});

test("a reader that closes the pipe early is no fault", () => {
  folder = folderWith({ "a.torquil": `torquil 1\n${'allow none "x"\n\n'.repeat(2_000)}` });
  const bundle = new URL("../../dist/torquil.js", import.meta.url).pathname;
  const done = spawnSync("sh", ["-c", `"${process.execPath}" "${bundle}" check --json | head -n 1`], {
    cwd: folder,
    encoding: "utf8",
  });
  expect(done.stdout).toBe("{\n");
  expect(done.stderr).toBe("");
});

test("a folder that is gone is told", () => {
  folder = folderWith({});
  const bundle = new URL("../../dist/torquil.js", import.meta.url).pathname;
  const script = `rmdir "$PWD" && "${process.execPath}" "${bundle}" check`;
  const done = spawnSync("sh", ["-c", script], { cwd: folder, encoding: "utf8" });
  expect(done.status).toBe(2);
  expect(done.stderr).not.toMatch(/^\s+at /m);
  expect(done.stderr).toMatch(/no longer there/);
});
