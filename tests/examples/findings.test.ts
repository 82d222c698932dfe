/** The examples and the checker: the clean ones have no finding at all, the faulty ones exactly those they mark. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readSettings } from "../../server/project";
import { compared, findingsIn, MAIN, readFixtures } from "../support/fixtures";

const root = join(import.meta.dirname, "../../examples");

/** The texts of a folder, by name. */
function textsOf(folder: string): Record<string, string> {
  const names = readdirSync(join(root, folder)).filter((name) => name.endsWith(".torquil"));
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(root, folder, name), "utf8")]));
}

const folders = readdirSync(root, { withFileTypes: true })
  .filter((e) => e.isDirectory())
  .map((e) => e.name)
  .filter((name) => name !== "faulty" && Object.keys(textsOf(name)).length > 0);

describe("clean examples", () => {
  test("are the flagship and five more", () => expect(folders.length).toBeGreaterThanOrEqual(6));

  test.each(folders)("%s has no finding, hints included", (folder) => {
    expect(compared({ name: folder, texts: textsOf(folder), expected: [] }).found).toEqual([]);
  });

  const settled = folders.filter((name) => existsSync(join(root, name, "torquil.json")));
  test.each(settled)("%s has settings that are understood, and no finding under them", (folder) => {
    const { settings, problems } = readSettings(readFileSync(join(root, folder, "torquil.json"), "utf8"));
    expect(problems).toEqual([]);
    expect(findingsIn(textsOf(folder), settings.rules).map(({ code }) => code)).toEqual([]);
  });
});

describe("faulty examples", () => {
  const texts = textsOf("faulty");
  const machine = "plover-5.torquil";
  test.each(Object.keys(texts).filter((name) => name !== machine))(
    "%s has the findings it marks, and no other",
    (name) => {
      const [section] = readFixtures(`//// ${name}\n${texts[name]}`);
      const { found, meant } = compared({
        name,
        texts: { [MAIN]: section?.texts[MAIN] ?? "", [machine]: texts[machine] ?? "" },
        expected: section?.expected ?? [],
      });
      expect(meant.length).toBeGreaterThan(0);
      expect(found).toEqual(meant);
    },
  );
});
