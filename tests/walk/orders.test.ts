/** Orders that are worked out from a method and the places of holes, and given ones held against their method. */
import { expect, test } from "vitest";
import { fastenerFacts } from "../../server/facts";
import { keeps, orderOf, placesOf } from "../../server/walk/orders";
import { projectOf } from "../support/project";

/** The facts of a fastener with these lines. */
function facts(...lines: string[]): ReturnType<typeof fastenerFacts> {
  const text = `torquil 1\n\nmachine winch "Winch" {\n  fastener f "Bolts" {\n${lines.map((l) => `    ${l}\n`).join("")}    tighten 22 N·m\n  }\n}\n`;
  const thing = projectOf({ "winch.torquil": text })
    .files.get("winch.torquil")
    ?.things.find((t) => t.name === "f");
  if (!thing) throw new Error("the fastener is not there");
  return fastenerFacts(thing.entry);
}

const at = (...places: readonly (readonly [number, number])[]): string[] =>
  places.map(([x, y], index) => `hole ${index + 1} centre ${x} mm, ${y} mm`);

test("crosswise on a circle: opposite pairs, the star of five, numbers of the writer's own", () => {
  expect(orderOf(facts("layout circle  holes 1 to 6", "crosswise"))).toEqual([1, 4, 2, 5, 3, 6]);
  expect(orderOf(facts("layout circle  holes 1 to 5", "crosswise"))).toEqual([1, 3, 5, 2, 4]);
  expect(orderOf(facts("layout circle  holes 11 to 14", "crosswise"))).toEqual([11, 13, 12, 14]);
});

test("from centres: holes numbered in rows are gone across as they lie", () => {
  const square = at([0, 0], [60, 0], [0, 50], [60, 50]);
  const found = facts("layout grid  holes 1 to 4", ...square, "crosswise");
  expect(placesOf(found)?.map((p) => p.at.x)).toEqual([0, 0.06, 0, 0.06]);
  expect(orderOf(found)).toEqual([1, 4, 3, 2]);
  expect(keeps(found, { method: "crosswise", order: [1, 2, 4, 3] })).toBe(false);
});

test("from the middle out and from the ends in: a row, a grid with centres", () => {
  expect(orderOf(facts("layout row  holes 1 to 4", "from the middle out"))).toEqual([2, 3, 1, 4]);
  const grid = at([0, 0], [50, 0], [100, 0], [0, 80], [50, 80], [100, 80]);
  const found = facts("layout grid  holes 1 to 6", ...grid, "from the middle out");
  const out = orderOf(found);
  expect(out.slice(0, 2)).toEqual([2, 5]);
  expect(orderOf(found, { method: "from-ends", order: [] })).toEqual([...out].reverse());
  const row = facts("layout row  holes 1 to 6");
  expect(keeps(row, { method: "from-middle", order: [3, 4, 2, 5, 1, 6] })).toBe(true);
  expect(keeps(row, { method: "from-ends", order: [3, 4, 2, 5, 1, 6] })).toBe(false);
});

test("a given order goes before; where the places are not said there is none", () => {
  expect(orderOf(facts("layout circle  holes 1 to 3", "order 2, 1, 3", "crosswise"))).toEqual([2, 1, 3]);
  expect(orderOf(facts("count 6", "crosswise"))).toEqual([]);
  expect(orderOf(facts("layout grid  holes 1 to 6", "from the middle out"))).toEqual([]);
  expect(orderOf(facts("layout grid  holes 1 to 3", ...at([0, 0], [50, 0]), "from the middle out"))).toEqual(
    [],
  );
  // A long grid has no one way across.
  const long = at([0, 0], [100, 0], [200, 0], [0, 50], [100, 50], [200, 50]);
  expect(orderOf(facts("layout grid  holes 1 to 6", ...long, "crosswise"))).toEqual([]);
  expect(keeps(facts("count 6", "crosswise"), { method: "crosswise", order: [1, 2, 3, 4, 5, 6] })).toBe(null);
});
