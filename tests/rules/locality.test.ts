/**
 * One broken line in an example: what else is reported then. A break that leaves an error on its line gives no new
 * finding elsewhere but a block that is not closed, at its head; a break that leaves a valid or blank line gives exactly
 * the findings of that other text, read fresh.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type Document, readDocument } from "../../grammar";
import { buildProject, type Project } from "../../server/model";
import { checkProject, type Finding } from "../../server/rules";
import { BREAKS, type Break, randomBreak, withBreak } from "../support/breaks";
import { resolver } from "../support/project";
import { seeded } from "../support/random";

const ROOT = "examples";
const FOLDERS = ["marine-generator", "tractor"];
const BREAK_COUNT = Number(process.env.TORQUIL_BREAKS ?? 600);
const SEED = Number(process.env.TORQUIL_SEED ?? 20261125);

interface Folder {
  readonly texts: ReadonlyMap<string, string>;
  readonly documents: ReadonlyMap<string, Document>;
  readonly project: Project;
}

function load(folder: string): Folder {
  const names = readdirSync(join(ROOT, folder)).filter((name) => name.endsWith(".torquil"));
  const texts = new Map(names.map((name) => [name, readFileSync(join(ROOT, folder, name), "utf8")]));
  const documents = new Map([...texts].map(([name, text]) => [name, readDocument(text)]));
  return { texts, documents, project: buildProject(documents, resolver(new Set(names))) };
}

const folders = FOLDERS.map(load);
const errorOn = (findings: readonly Finding[], line: number): boolean =>
  findings.some((f) => f.place.line === line && f.severity === "error");

/** Findings that another line gets through the break, shown as text; those at a head that is not closed aside. */
function elsewhere(found: ReadonlyMap<string, readonly Finding[]>, file: string, line: number): string[] {
  return [...found].flatMap(([path, findings]) =>
    findings
      .filter((f) => !(path === file && f.place.line === line) && f.code !== "block-not-closed")
      .map((f) => `${path}:${f.place.line + 1} ${f.code}`),
  );
}

interface Outcome {
  readonly what: Break;
  readonly file: string;
  readonly news: readonly string[];
  readonly error: boolean;
}

function breakOnce(folder: Folder, random: () => number): Outcome {
  const files = [...folder.texts.keys()];
  const file = files[Math.floor(random() * files.length)] as string;
  const lines = (folder.texts.get(file) as string).split("\n");
  const what = randomBreak(random, lines);
  const documents = new Map(folder.documents).set(file, readDocument(withBreak(lines, what).join("\n")));
  const found = checkProject(buildProject(documents, resolver(new Set(files)), folder.project));
  return {
    what,
    file,
    news: elsewhere(found, file, what.line),
    error: errorOn(found.get(file) ?? [], what.line),
  };
}

describe("a broken line", () => {
  test("leaves no finding elsewhere while the error stands on its own line", () => {
    const random = seeded(SEED);
    const counts = new Map<string, number>(BREAKS.map((kind) => [kind, 0]));
    const misses: string[] = [];
    let errors = 0;
    for (let i = 0; i < BREAK_COUNT; i++) {
      const { what, file, news, error } = breakOnce(folders[i % folders.length] as Folder, random);
      counts.set(what.kind, (counts.get(what.kind) ?? 0) + 1);
      if (!error) continue;
      errors++;
      if (news.length > 0)
        misses.push(
          `${what.kind}: ${file}:${what.line + 1} ${what.text.trim()} → ${news.slice(0, 3).join(", ")}`,
        );
    }
    console.log(
      `breaks ${BREAK_COUNT}, with an error on the line ${errors}: ${[...counts].map(([k, n]) => `${k} ${n}`).join(", ")}`,
    );
    expect(errors).toBeGreaterThan(BREAK_COUNT / 3);
    expect(misses).toEqual([]);
  });

  test("that can be read gives the findings of that text, read fresh", () => {
    const random = seeded(SEED + 1);
    let valid = 0;
    for (let i = 0; i < BREAK_COUNT / 6; i++) {
      const folder = folders[i % folders.length] as Folder;
      const files = [...folder.texts.keys()];
      const file = files[Math.floor(random() * files.length)] as string;
      const lines = (folder.texts.get(file) as string).split("\n");
      const what = randomBreak(random, lines);
      const text = withBreak(lines, what).join("\n");
      const documents = new Map(folder.documents).set(file, readDocument(text));
      if (documents.get(file)?.lines[what.line]?.kind === "broken") continue;
      valid++;
      const resolve = resolver(new Set(files));
      const fresh = new Map(
        [...folder.texts].map(([name, t]) => [name, readDocument(name === file ? text : t)]),
      );
      const kept = [...checkProject(buildProject(documents, resolve, folder.project))];
      expect(kept).toEqual([...checkProject(buildProject(fresh, resolve))]);
    }
    expect(valid).toBeGreaterThan(10);
  });

  test("the examples themselves have no finding, so the above means something", () => {
    for (const folder of folders) expect([...checkProject(folder.project).values()].flat()).toEqual([]);
  });
});
