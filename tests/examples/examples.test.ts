/** Holds the examples to the grammar: the clean ones read whole, the faulty ones mark their own faults. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readDocument } from "../../grammar";
import { faultsIn } from "./placement";

const root = join(import.meta.dirname, "../../examples");
const files = readdirSync(root, { recursive: true, encoding: "utf8" })
  .filter((path) => path.endsWith(".torquil"))
  .sort();
const clean = files.filter((path) => !path.startsWith("faulty") || path.endsWith("plover-5.torquil"));
const faulty = files.filter((path) => !clean.includes(path));
const read = (path: string): string => readFileSync(join(root, path), "utf8");

/** The codes that the comment under a line expects on it: `// error: blocked-by, hint: tool-unused`. */
const EXPECTED = /^\s*\/\/ (?:(?:error|warning|hint): [a-z-]+(?:, |$))+$/;

describe("clean examples", () => {
  test.each(clean)("%s reads whole", (path) => {
    expect(faultsIn(read(path), "file")).toEqual([]);
  });

  test.each(clean)("%s expects no finding", (path) => {
    expect(
      read(path)
        .split("\n")
        .filter((line) => EXPECTED.test(line)),
    ).toEqual([]);
  });

  test.each([
    ["marine-generator/belt-service.torquil", 30, 45],
    ["tractor/cylinder-head.torquil", 40, 60],
    ["trailer-hub/hub-bearings.torquil", 18, 25],
    ["forklift/make-safe.torquil", 8, 12],
    ["forklift/line-contactor.torquil", 14, 20],
    ["loader/lift-hose.torquil", 25, 35],
    ["cargo-bike/crank-set.torquil", 18, 25],
  ])("%s is a job of a real size", (path, least, most) => {
    const heads = readDocument(read(path)).lines.filter(
      (line) => line.head === "step" || line.head === "check",
    );
    expect(heads.length).toBeGreaterThanOrEqual(least);
    expect(heads.length).toBeLessThanOrEqual(most);
  });
});

describe("faulty examples", () => {
  test("there are some", () => expect(faulty.length).toBeGreaterThanOrEqual(8));

  test.each(faulty)("%s says in words what is wrong, and marks the lines", (path) => {
    const lines = read(path).split("\n");
    expect(lines[0]).toBe("torquil 1");
    expect(lines[2]).toMatch(/^\/\/ /);
    expect(lines.some((line) => EXPECTED.test(line))).toBe(true);
  });

  test.each(faulty)("%s is unreadable only where a mark stands below", (path) => {
    const { lines } = readDocument(read(path));
    const unmarked = lines.filter(
      (line, i) => line.problems.length > 0 && !EXPECTED.test(lines[i + 1]?.text ?? ""),
    );
    expect(unmarked.map((line) => line.text)).toEqual([]);
  });
});
