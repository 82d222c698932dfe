/** The printed sheets of all examples read back: by pdf.js everything once and in order, by poppler and qpdf no error. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createWorkspace, discover, diskFiles, joinPath } from "../../server/project";
import type { Sheet } from "../../server/sheet/blocks";
import { buildSheet } from "../../server/sheet/build";
import { BELT_SHEET } from "./fixture";
import { type ReadBack, readBack } from "./reader";
import { saidByBlocks, saidByLayout } from "./said";
import { pdfOf } from "./typesetter";

const root = fileURLToPath(new URL("../..", import.meta.url)).replace(/\/$/, "");
const folder = mkdtempSync(join(tmpdir(), "torquil-reader-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The sheet of every procedure in the examples, as their projects' settings print it, and the belt with everything in it. */
function allSheets(): [string, Sheet][] {
  const files = diskFiles();
  const { projects } = discover(files, root, ["examples"]);
  const sheets = projects.flatMap(({ root: home, files: named }): [string, Sheet][] => {
    const clean = named.filter((path) => !joinPath(home, path).startsWith(`${root}/examples/faulty/`));
    const workspace = createWorkspace(files, home, clean);
    const { language, paper, units } = workspace.settings();
    return clean.flatMap((path) =>
      (workspace.project().files.get(path)?.procedures ?? []).map((procedure): [string, Sheet] => {
        const pictures = (file: string) => {
          const read = files.readBytes(joinPath(home, file));
          return "bytes" in read ? read.bytes : undefined;
        };
        const options = { language, paper, units, draft: false, pictures };
        return [`${path} ${procedure.thing.name}`, buildSheet(workspace.project(), procedure, options)];
      }),
    );
  });
  return [...sheets, ["a sheet with every kind of thing", BELT_SHEET]];
}

/** Letters as they are meant, without what only decides where a line ends: spaces, and the hyphens set in for it. */
function letters(text: string): string {
  return text.normalize("NFKC").replace(/[\s\u00ad\u200b\u2010-]/g, "");
}

const sheets = allSheets();

test("there are examples to read", () => expect(sheets.length).toBeGreaterThan(2));

describe.each(sheets)("%s", (name, sheet) => {
  const path = join(folder, `${sheets.findIndex(([other]) => other === name)}.pdf`);
  let pages = 0;
  let read: ReadBack;
  beforeAll(async () => {
    const pdf = pdfOf(sheet);
    pages = pdf.pages;
    writeFileSync(path, pdf.bytes);
    read = await readBack(pdf.bytes);
  });

  test("has everything that is laid out once, in order, and nothing else", () => {
    expect(letters(read.text)).toBe(letters(saidByLayout(sheet)));
    expect(read).toMatchObject({ pages, title: sheet.title });
    expect(read.lang.split("-")[0]).toBe(sheet.lang.split("-")[0]);
  });

  test("has every step, torque in both units, caution, limit and row that the blocks hold, in their order", () => {
    const whole = letters(read.text);
    let at = 0;
    for (const text of saidByBlocks(sheet)) {
      const found = whole.indexOf(letters(text), at);
      if (found < 0) expect.fail(`“${text}” is not behind “…${whole.slice(Math.max(0, at - 60), at)}”`);
      at = found + letters(text).length;
    }
    expect(at).toBeGreaterThan(whole.length / 2);
  });

  test("has a heading for each step and each block of its own", () => {
    const steps = sheet.blocks.flatMap((block) => (block.kind === "section" ? countSteps(block.blocks) : []));
    expect(read.tags.get("H1")).toBe(1);
    expect(read.tags.get("H3") ?? 0).toBeGreaterThanOrEqual(steps.length);
    expect(new Set(steps).size).toBe(steps.length);
  });

  test.skipIf(!isThere("pdfinfo"))(
    "has no error for poppler (pdfinfo, pdftotext; needs poppler-utils)",
    () => {
      const info = spawnSync("pdfinfo", [path], { encoding: "utf8" });
      expect(info).toMatchObject({ status: 0, stderr: "" });
      expect(info.stdout).toMatch(new RegExp(`^Pages: +${pages}$`, "m"));
      expect(info.stdout).toMatch(/^Tagged: +yes$/m);
      const text = spawnSync("pdftotext", ["-layout", path, "-"], { encoding: "utf8" });
      expect(text).toMatchObject({ status: 0, stderr: "" });
      const torques = saidByBlocks(sheet).filter((words) => /N·m|lb·ft/.test(words));
      const whole = letters(text.stdout);
      expect(torques.filter((words) => !whole.includes(letters(words)))).toEqual([]);
    },
  );

  test.skipIf(!isThere("qpdf"))("has no error for qpdf (needs the package qpdf)", () => {
    const check = spawnSync("qpdf", ["--check", path], { encoding: "utf8" });
    expect(check).toMatchObject({ status: 0, stderr: "" });
  });
});

/** The numbers of steps, also of those within steps. */
function countSteps(works: readonly { kind: string; number?: string; body?: unknown }[]): string[] {
  return works.flatMap((work) => [
    ...(work.kind === "step" || work.kind === "check" ? [work.number ?? ""] : []),
    ...countSteps((work.body as typeof works | undefined) ?? []),
    ...countSteps(((work as { outcomes?: typeof works }).outcomes ?? []) as typeof works),
  ]);
}

/** Whether a program is installed; the tests that need it are skipped where it is not, and say what they need. */
function isThere(program: string): boolean {
  return spawnSync(program, ["--version"], { stdio: "ignore" }).error === undefined;
}
