/** `torquil git`: set up and undone in real repositories, and what `git diff` then shows. Paths have blanks and letters beyond ASCII. */
import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { buildBundle, discard, torquil } from "./process";

const MACHINE =
  'torquil 1\n\nmachine m "M" {\n  part lid "Lid"\n  fastener bolt "Lid bolt" {\n    secures lid\n    tighten 10 N·m\n  }\n}\n';
const JOB =
  'torquil 1\n\nuse "m.torquil"\n\nprocedure p "Lid off" {\n  on m\n  step "Off" {\n    remove bolt, lid\n  }\n}\n';
let folder = "";
const at = (...path: string[]): string => join(folder, ...path);
const text = (...path: string[]): string => readFileSync(at(...path), "utf8");

function git(...args: string[]): { out: string; code: number } {
  const who = ["-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "commit.gpgsign=false"];
  const done = spawnSync("git", [...who, ...args], { cwd: folder, encoding: "utf8" });
  return { out: done.stdout + done.stderr, code: done.status ?? -1 };
}

beforeAll(buildBundle);
beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "torquil é 'n ")));
  git("init", "-q");
  mkdirSync(at("jöbs 1"));
  writeFileSync(at("jöbs 1", "m.torquil"), MACHINE);
  writeFileSync(at("jöbs 1", "p.torquil"), JOB);
  writeFileSync(at("notes.txt"), "one\n");
  git("add", "-A");
  git("commit", "-qm", "one");
});
afterEach(() => discard(folder));

describe("git diff, once it is set up", () => {
  beforeEach(() => expect(torquil(folder, ["git", "install", "--yes"]).code).toBe(0));

  it("tells what has changed in meaning, and whom it touches; other files are shown as before", () => {
    writeFileSync(at("jöbs 1", "m.torquil"), MACHINE.replace("10 N·m", "12 N·m"));
    writeFileSync(at("notes.txt"), "two\n");
    const { out, code } = git("diff");
    expect(code).toBe(0);
    expect(out).toContain(
      "Tightening of “Lid bolt”: “10 N·m” → “12 N·m”\n    higher by 20 %\n    touches “Lid off”: step 1, “Off”\n",
    );
    expect(out).toContain("-one\n+two\n");
    expect(git("diff", "--no-ext-diff").out).toContain("-    tighten 10 N·m\n+    tighten 12 N·m\n");
  });

  it("new, deleted, renamed and broken files, and one that is not text", () => {
    writeFileSync(at("jöbs 1", "n.torquil"), MACHINE.replace("machine m", "machine n"));
    rmSync(at("jöbs 1", "p.torquil"));
    git("add", "-A");
    const { out } = git("diff", "--cached");
    expect(out).toContain("New file “jöbs 1/n.torquil”");
    expect(out).toContain("Removed file “jöbs 1/p.torquil”");
    git("commit", "-qm", "two");
    renameSync(at("jöbs 1", "n.torquil"), at("jöbs 1", "o.torquil"));
    writeFileSync(
      at("jöbs 1", "o.torquil"),
      MACHINE.replace("machine m", "machine n").replace("10 N·m", "11 N·m"),
    );
    git("add", "-A");
    const renamed = git("diff", "--cached", "-M");
    expect(renamed.out).toContain("torquil diff a/jöbs 1/n.torquil b/jöbs 1/o.torquil\n");
    expect(renamed.out).toContain("“10 N·m” → “11 N·m”");
    git("commit", "-qm", "three");
    writeFileSync(at("jöbs 1", "o.torquil"), 'machine { {{ \n"');
    expect(git("diff")).toMatchObject({ code: 0 });
    writeFileSync(at("jöbs 1", "o.torquil"), new Uint8Array([0, 1, 2]));
    const binary = git("diff");
    expect(binary).toMatchObject({ code: 0 });
    expect(binary.out).toContain("This is not a text");
  });

  it("works from a folder below, and says so where nothing but the layout has changed", () => {
    writeFileSync(at("jöbs 1", "m.torquil"), MACHINE.replace("    secures", "      secures"));
    const done = spawnSync("git", ["diff", "--", "m.torquil"], { cwd: at("jöbs 1"), encoding: "utf8" });
    expect(done.stdout).toContain("Layout, 1 change\n");
  });

  it("tells of a file that is not merged yet", () => {
    git("checkout", "-qb", "other");
    writeFileSync(at("jöbs 1", "m.torquil"), MACHINE.replace("10 N·m", "12 N·m"));
    git("commit", "-qam", "twelve");
    git("checkout", "-q", "-");
    writeFileSync(at("jöbs 1", "m.torquil"), MACHINE.replace("10 N·m", "14 N·m"));
    git("commit", "-qam", "fourteen");
    git("merge", "other");
    // Git itself shows both sides of a conflict, as lines.
    expect(git("diff").out).toContain("++<<<<<<< HEAD");
    const asked = torquil(folder, ["git", "show-change", "jöbs 1/m.torquil"]);
    expect(asked).toMatchObject({ code: 0, out: expect.stringContaining("not merged yet") });
  });
});

describe("what is there before comes back byte for byte", () => {
  it.each([
    ["no file", null],
    ["an empty file", ""],
    ["lines", "*.txt text\n"],
    ["a last line without its end", "*.txt text"],
    ["line ends of another system", "*.txt text\r\n*.md text\r\n"],
  ])("%s", (_, attributes) => {
    if (attributes !== null) writeFileSync(at(".gitattributes"), attributes);
    const config = text(".git", "config");
    expect(torquil(folder, ["git", "install", "--yes"]).code).toBe(0);
    expect(text(".git", "config")).not.toBe(config);
    expect(text(".gitattributes")).toContain("*.torquil diff=torquil\n");
    // What is set meanwhile stays.
    git("config", "user.nickname", "x");
    const { code, out } = torquil(folder, ["git", "uninstall", "--yes"]);
    expect([code, out]).toEqual([
      0,
      expect.stringContaining('To be taken out of .git/config:\n  [diff "torquil"]\n'),
    ]);
    git("config", "--unset", "user.nickname");
    expect(text(".git", "config").replace("[user]\n", "")).toBe(config);
    if (attributes === null) expect(existsSync(at(".gitattributes"))).toBe(false);
    else expect(text(".gitattributes")).toBe(attributes);
  });
});

describe("asking, and refusing", () => {
  it("where nobody can be asked, the lines are shown and nothing is written", () => {
    const config = text(".git", "config");
    const { code, out, err } = torquil(folder, ["git", "install"]);
    expect(code).toBe(2);
    expect(out).toMatch(
      /^To be added to \.git\/config:\n {2}\[diff "torquil"\]\n {6}command = .* git show-change"\nTo be added to \.gitattributes:\n {2}\*\.torquil diff=torquil\n$/,
    );
    expect(err).toContain("With --yes it is done without asking; nothing is written.");
    expect(text(".git", "config")).toBe(config);
  });

  it("a person at a terminal is asked", () => {
    const asked = (answer: string) =>
      spawnSync(
        "script",
        [
          "-qec",
          `'${process.execPath}' '${join(process.cwd(), "dist/torquil.js")}' git install`,
          "/dev/null",
        ],
        {
          cwd: folder,
          input: `${answer}\n`,
          encoding: "utf8",
        },
      );
    const no = asked("n");
    expect(no.stdout).toContain("Write these lines? [y/N]");
    expect(no.stdout).toContain("Nothing is written.");
    expect(no.status).toBe(1);
    expect(existsSync(at(".gitattributes"))).toBe(false);
    expect(asked("y").status).toBe(0);
    expect(existsSync(at(".gitattributes"))).toBe(true);
  });

  it("twice, never, beside somebody else's lines, outside of a repository, and without permission", () => {
    const first = (...args: string[]) => {
      const { code, err } = torquil(folder, ["git", ...args]);
      return [code, err.split("\n")[0]];
    };
    expect(first("uninstall")).toEqual([
      2,
      "error: There is nothing to undo: it is not set up in this repository.",
    ]);
    writeFileSync(at(".gitattributes"), "*.torquil -diff\n");
    expect(first("install", "--yes")).toEqual([
      2,
      expect.stringMatching(/^error: \.gitattributes, line 1, says already/),
    ]);
    rmSync(at(".gitattributes"));
    expect(first("install", "--yes")[0]).toBe(0);
    expect(first("install", "--yes")).toEqual([2, expect.stringMatching(/^error: It is set up already\./)]);
    expect(first("instal")).toEqual([2, "error: Say install or uninstall, and nothing else."]);
    rmSync(at(".git"), { recursive: true });
    expect(first("install", "--yes")).toEqual([2, expect.stringMatching(/not in a git repository/)]);
  });

  it("a repository can set up nothing that runs when it is compared", () => {
    const trap = at("trap.sh");
    writeFileSync(trap, `#!/bin/sh\ntouch "${at("sprung")}"\ncat "$1" 2>/dev/null\n`);
    chmodSync(trap, 0o755);
    for (const key of [
      "core.fsmonitor",
      "diff.external",
      "core.pager",
      "diff.torquil.textconv",
      "diff.torquil.command",
      "filter.x.smudge",
      "filter.x.clean",
      "core.sshCommand",
      "credential.helper",
    ])
      git("config", key, trap);
    writeFileSync(at(".gitattributes"), "*.torquil filter=x diff=torquil\n");
    rmSync(at("sprung"), { force: true });
    writeFileSync(at("jöbs 1", "m.torquil"), MACHINE.replace("10 N·m", "12 N·m"));
    const { code, out } = torquil(folder, ["compare", "--since", "HEAD"]);
    expect([code, out]).toEqual([1, expect.stringContaining("“10 N·m” → “12 N·m”")]);
    expect(existsSync(at("sprung"))).toBe(false);
  });
});

it("print --since puts a bar beside what has changed, and refuses a revision that is not there", () => {
  writeFileSync(at("jöbs 1", "p.torquil"), JOB.replace("bolt, lid", "bolt, lid  by two people"));
  const plain = torquil(folder, ["print", "jöbs 1", "--draft", "--to", "html", "--out", "plain"]);
  const { code } = torquil(folder, [
    "print",
    "jöbs 1",
    "--draft",
    "--to",
    "html",
    "--out",
    "bars",
    "--since",
    "HEAD",
  ]);
  expect([plain.code, code]).toEqual([0, 0]);
  expect(text("plain", "p.html")).not.toContain("A bar in the margin");
  expect(text("bars", "p.html")).toContain("A bar in the margin marks what has changed since revision HEAD.");
  expect(text("bars", "p.html")).toMatch(/class="[\w -]*\bchanged"/);
  const wrong = torquil(folder, ["print", "jöbs 1", "--since", "nope"]);
  expect([wrong.code, wrong.err.split("\n")[0]]).toEqual([
    2,
    expect.stringMatching(/^error: There is no revision “nope”/),
  ]);
});
