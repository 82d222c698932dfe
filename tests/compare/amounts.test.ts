/** What counts as the same quantity written otherwise, and which way one went, tolerances above all. */
import { expect, test } from "vitest";
import { compareProjects } from "../../server/compare";
import { projectOf } from "../support/project";

const side = (torque: string) => ({
  project: projectOf({
    "winch.torquil": `torquil 1\n\nmachine winch "Winch" {\n  fastener bolt "Bolt"  tighten ${torque}\n}\n`,
  }),
  settings: { file: "torquil.json", values: {}, text: null },
});
const changes = (before: string, after: string) =>
  compareProjects(side(before), side(after)).changes.filter(({ rank }) => rank !== "layout");

test.each([
  ["30 +3/-1 N·m", "30 +3/-2 N·m"],
  ["30 +3/-1 N·m", "30 N·m"],
  ["30 ± 3 N·m", "30 +3/-1 N·m"],
  ["30 N·m ± 10 %", "30 N·m ± 15 %"],
  // The same limits, but a wrench is set to another value.
  ["30 +3/-1 N·m", "32 +1/-3 N·m"],
  ["29 to 33 N·m", "30 +3/-1 N·m"],
])("%s → %s is a change of safety", (before, after) => {
  expect(changes(before, after).map(({ rank }) => rank)).toEqual(["safety"]);
});

test.each([
  ["30 +3/-1 N·m", "30.0 +3.0/-1.0 N·m"],
  ["30 ± 3 N·m", "30 +3/-3 N·m"],
  ["30 ± 3 N·m", "30 N·m ± 10 %"],
  ["30 +3 −1 N·m", "30 +3/-1 N·m"],
])("%s → %s says the same", (before, after) => {
  expect(changes(before, after).filter(({ rank }) => rank === "safety")).toEqual([]);
});
