/** Holds the sources to the map of the house, and DEVELOPERS.md to a section for each folder of it. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { problemsOf, roomOf, sectionProblems, tableProblems } from "./checks";
import { HOUSE } from "./house";
import { readModule } from "./modules";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Every module below a folder, by path from the root, in the order of the paths. */
function modulePaths(folder: string): string[] {
  if (!existsSync(join(root, folder))) return [];
  return readdirSync(join(root, folder), { withFileTypes: true })
    .flatMap((entry) => {
      const path = `${folder}/${entry.name}`;
      if (entry.isDirectory()) return entry.name === "node_modules" ? [] : modulePaths(path);
      return /\.(ts|mts|mjs|js)$/.test(entry.name) ? [path] : [];
    })
    .sort();
}

const paths = ["grammar", "server", "client", "tests"].flatMap(modulePaths);
const sources = new Map(paths.map((path) => [path, readFileSync(join(root, path), "utf8")]));
const modules = paths.map((path) => readModule(path, sources.get(path) ?? ""));

test("the table of the house only looks upwards", () => {
  expect(tableProblems(HOUSE)).toEqual([]);
});

test("the sources are found and read", () => {
  const own = modules.find((module) => module.path === "tests/tidy/house.test.ts");
  expect(own?.imports.map((one) => one.specifier)).toContain("./checks");
});

test("every module keeps to its folder, opens with what it is for, is short, and is in no circle", () => {
  expect(problemsOf(HOUSE, modules, sources)).toEqual([]);
});

test.runIf(existsSync(join(root, "DEVELOPERS.md")))("DEVELOPERS.md has a section for each folder", () => {
  const rooms = HOUSE.filter((room) => modules.some((module) => roomOf(HOUSE, module.path) === room));
  expect(sectionProblems(rooms, readFileSync(join(root, "DEVELOPERS.md"), "utf8"))).toEqual([]);
});
