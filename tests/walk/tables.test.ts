/** The tables of acts and hazards against the language and against each other. */
import { expect, test } from "vitest";
import { CONSTRUCTS } from "../../grammar";
import { ACTS, DEPARTURES, FACTS, HAZARDS, hazardNamed } from "../../server/walk";

const verbs = CONSTRUCTS.filter((c) => c.act).map((c) => c.id);

test("every act of the language has a row, and every row is an act", () => {
  expect(
    Object.keys(ACTS)
      .filter((verb) => verb !== "hand-back")
      .sort(),
  ).toEqual([...verbs].sort());
});

test("every departure has an act that brings it about and one that ends it", () => {
  const rows = Object.values(ACTS);
  for (const departure of Object.keys(DEPARTURES)) {
    expect(
      rows.some((r) => r.makes === departure),
      departure,
    ).toBe(true);
    expect(
      rows.some((r) => r.ends === departure),
      departure,
    ).toBe(true);
  }
});

test("every hazard is raised by some act, and what raises it is in the table of facts", () => {
  const raised = Object.values(ACTS).flatMap((row) => row.raises);
  expect([...new Set(raised.map(([hazard]) => hazard))].sort()).toEqual(Object.keys(HAZARDS).sort());
  for (const [, fact] of raised) expect(FACTS[fact], fact).toBeDefined();
});

test("the acts that facts speak of are acts", () => {
  for (const [fact, row] of Object.entries(FACTS)) {
    for (const verb of [...row.quiet, ...row.wakes, ...row.wakesAll]) expect(verbs, fact).toContain(verb);
  }
});

test("a caution may use another name for its hazard", () => {
  expect(["scald", "explosion", "burn", "of-our-own"].map(hazardNamed)).toEqual([
    "burn",
    "fire",
    "burn",
    "of-our-own",
  ]);
});
