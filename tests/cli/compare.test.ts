/** `torquil compare` on real git repositories: each kind of change named with its rank, and nothing else; reports; wrong use. */
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, realpathSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import Ajv2020 from "ajv/dist/2020";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Io, paintFor } from "../../server/cli/io";
import { run } from "../../server/cli/run";
import { diskFiles } from "../../server/project/disk";
import { FLAGSHIP, MACHINE, PROCEDURE, revised } from "../compare/flagship";
import { MEANT } from "../compare/meant";
import { REVISIONS } from "../compare/revisions";
import type { Outcome } from "./in-process";
import { discard } from "./process";

/** Blanks and letters beyond ASCII in every path. */
const JOBS = "Aufträge 1";
let folder = "";

function git(...args: string[]): string {
  const who = ["-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "commit.gpgsign=false"];
  return execFileSync("git", [...who, ...args], {
    cwd: folder,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "ignore"],
  });
}

function write(texts: Readonly<Record<string, string>>, below = JOBS): void {
  for (const [path, text] of Object.entries(texts)) {
    const place = join(folder, below, path);
    mkdirSync(dirname(place), { recursive: true });
    writeFileSync(place, text);
  }
}

/** Makes the folder of the jobs hold these texts and no others, and commits it. */
function commit(texts: Readonly<Record<string, string>>): void {
  git("rm", "-rq", "--cached", "--ignore-unmatch", JOBS);
  discard(join(folder, JOBS));
  write(texts);
  git("add", "-A");
  git("commit", "-q", "--allow-empty", "-m", "revision");
}

async function torquil(args: readonly string[], at = folder): Promise<Outcome> {
  let [out, err] = ["", ""];
  const io: Io = {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    paintOut: paintFor(false),
    paintErr: paintFor(false),
    progress: () => undefined,
    width: 100,
    folder: at,
    files: diskFiles(),
    readStdin: async () => new Uint8Array(),
    now: () => new Date(0),
  };
  const code = await run(args, io, "1.2.3");
  return { code, out, err };
}

beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "torquil größe ")));
  git("init", "-q", "-b", "main");
  write({ "torquil.json": "{}\n" }, ".");
  commit(FLAGSHIP);
  git("tag", "base");
});
afterAll(() => discard(folder));

const headlines = (out: string): string[] =>
  JSON.parse(out).changes.map(({ rank, text }: { rank: string; text: string }) => `${rank}: ${text}`);

describe("a revision of the flagship for each kind of change, in git", () => {
  it.each(Object.keys(REVISIONS))("%s", async (name) => {
    commit(REVISIONS[name] ?? {});
    const { code, out, err } = await torquil([
      "compare",
      "--since",
      "base",
      "--until",
      "HEAD",
      "--format",
      "json",
    ]);
    const meant = (MEANT[name] ?? []).map((line) => line.split(" | ")[0]);
    expect(err).toBe("");
    expect(headlines(out).map((line) => line.replaceAll(`${JOBS}/`, ""))).toEqual(meant);
    expect(code).toBe(meant.some((line) => line?.startsWith("safety")) ? 1 : 0);
  });

  it("settings with it", async () => {
    commit(FLAGSHIP);
    write({ "torquil.json": '{ "severities": { "tool-unused": "off" }, "paper": "letter" }\n' }, ".");
    const { code, out } = await torquil(["compare", "--since", "HEAD", "--format", "json"]);
    write({ "torquil.json": "{}\n" }, ".");
    expect(headlines(out)).toEqual([
      "safety: Severity of “tool-unused” in the settings: as usual → “off”",
      "content: Setting “paper”: “a4” → “letter”",
    ]);
    expect(code).toBe(1);
  });

  it("a revision with itself is empty", async () => {
    commit(FLAGSHIP);
    const done = await torquil(["compare", "--since", "base", "--until", "HEAD"]);
    expect(done).toEqual({ code: 0, out: "Nothing has changed.\n", err: "" });
  });
});

describe("reports", () => {
  const torque = revised(
    PROCEDURE,
    "Knead the",
    "Squeeze the",
    revised(MACHINE, "snug 40 N·m", "snug 45 N·m"),
  );
  beforeAll(() => {
    commit(FLAGSHIP);
    write(torque);
  });

  it("text, safety first, with printed steps and places", async () => {
    const { code, out } = await torquil(["compare", "--since", "HEAD"]);
    expect(code).toBe(1);
    expect(out).toMatch(
      /^Safety, 1 change\n\n {2}Tightening of “Pump sprocket bolt”: “40 N·m then 90°” → “45 N·m then 90°”\n {4}higher by 12\.5 %\n {4}touches “Renew the injection-pump belt”: step \d+, “Pump shaft end float”\n {4}Aufträge 1\/skua-27\.torquil:\d+\n\nWording, 1 change\n\n {2}Text: /,
    );
  });

  it("Markdown in which nothing of the writer's is taken for Markdown", async () => {
    write(revised(PROCEDURE, 'step "Pin the crankshaft"', 'step "Pin *it* `x` <b>"', torque));
    const { out } = await torquil(["compare", "--since", "HEAD", "--format", "markdown"]);
    write(torque);
    expect(out).toMatch(
      /^## Changes from `HEAD` to `the work tree`\n\n### Safety \(1 change\)\n\n- Tightening of \*Pump sprocket bolt\*: `40 N·m then 90°` → `45 N·m then 90°`\n/,
    );
    expect(out).toContain("→ *Pin \\*it\\* \\`x\\` \\<b\\>*");
  });

  it("JSON by its published schema, for every kind of revision", async () => {
    const schema = JSON.parse(
      readFileSync(new URL("../../server/cli/compare.schema.json", import.meta.url), "utf8"),
    );
    const validate = new Ajv2020({ allErrors: true }).compile(schema);
    for (const name of [
      "torque",
      "limit",
      "caution moved",
      "section split",
      "run",
      "part renamed",
      "three",
      "wrapped",
    ]) {
      write(REVISIONS[name] ?? {});
      const { out } = await torquil(["compare", "--since", "HEAD", "--format", "json"]);
      expect([validate(JSON.parse(out)), validate.errors]).toEqual([true, null]);
    }
    write(torque);
  });

  it("a path that is named is a part of the project, and touches the rest", async () => {
    const { out } = await torquil(["compare", "--since", "HEAD", MACHINE], join(folder, JOBS));
    expect(out).toContain("touches “Renew the injection-pump belt”");
    expect(out).not.toContain("Wording");
  });

  it("the exit code, by --fail-on", async () => {
    write(revised(PROCEDURE, "Knead the", "Squeeze the"));
    write({ [MACHINE]: FLAGSHIP[MACHINE] ?? "" });
    const codes = [];
    for (const rank of ["safety", "content", "wording", "layout", "never"])
      codes.push((await torquil(["compare", "--since", "HEAD", "--fail-on", rank])).code);
    write(torque);
    expect(codes).toEqual([0, 0, 1, 1, 0]);
  });

  it("a report into a file, and two folders or two files without git", async () => {
    const away = realpathSync(mkdtempSync(join(tmpdir(), "torquil-two-")));
    for (const [side, texts] of [
      ["old", FLAGSHIP],
      ["new", torque],
    ] as const)
      for (const [path, text] of Object.entries(texts)) {
        mkdirSync(join(away, side), { recursive: true });
        writeFileSync(join(away, side, path), text);
      }
    const folders = await torquil(["compare", "old", "new", "--out", "r.txt"], away);
    expect(folders).toEqual({ code: 1, out: "", err: "" });
    expect(readFileSync(join(away, "r.txt"), "utf8")).toMatch(
      /old\/skua-27\.torquil:\d+ → new\/skua-27\.torquil:\d+/,
    );
    const file = await torquil(["compare", `old/${PROCEDURE}`, `new/${PROCEDURE}`], away);
    // What the files use is part of what they mean.
    expect(file.out).toContain("Tightening of “Pump sprocket bolt”");
    writeFileSync(join(away, "other-name.torquil"), FLAGSHIP[PROCEDURE] ?? "");
    writeFileSync(join(away, MACHINE), FLAGSHIP[MACHINE] ?? "");
    const named = await torquil(
      ["compare", `old/${PROCEDURE}`, "other-name.torquil", "--fail-on", "wording"],
      away,
    );
    expect(named.code).toBe(0);
    discard(away);
  });
});

describe("wrong use", () => {
  const first = async (...args: string[]): Promise<string> => {
    const { code, out, err } = await torquil(["compare", ...args]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    return err.split("\n")[0] ?? "";
  };
  it("is told with the way out", async () => {
    expect(await first()).toBe("error: Say what to compare: two files, two folders, or --since REVISION.");
    expect(await first("a")).toBe(
      "error: There is one path only. Name the newer one behind it, or compare with a revision: --since HEAD a.",
    );
    expect(await first("--until", "HEAD")).toMatch(/--until needs --since/);
    expect(await first("--since", "no-such")).toMatch(
      /^error: There is no revision “no-such” in this repository\./,
    );
    expect(await first("--since", "--output=x")).toMatch(/^error: The option --since needs a value/);
    expect(await first("--since", "HEAD", "nowhere")).toMatch(
      /^error: There is no nowhere, neither now nor at HEAD\./,
    );
    expect(await first(JOBS, `${JOBS}/${MACHINE}`)).toMatch(
      /^error: A file and a folder cannot be compared\./,
    );
  });

  it("outside of a repository, and with files that cannot be read", async () => {
    const away = realpathSync(mkdtempSync(join(tmpdir(), "torquil-no-git-")));
    const { code, err } = await torquil(["compare", "--since", "HEAD"], away);
    expect(code).toBe(2);
    expect(err).toContain("This folder is not in a git repository.");
    writeFileSync(join(away, "a.torquil"), "torquil 1\n");
    writeFileSync(join(away, "b.torquil"), new Uint8Array([116, 0, 1]));
    const unread = await torquil(["compare", "a.torquil", "b.torquil"], away);
    expect(unread.code).toBe(2);
    expect(unread.err).toContain("b.torquil");
    discard(away);
  });
});
