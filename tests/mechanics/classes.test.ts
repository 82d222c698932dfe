/** Classes of bolts: read as they are written, and the loads they give against published tables. */
import { describe, expect, it, test } from "vitest";
import { allClasses, strengthOf } from "../../server/mechanics/classes";
import { classOf } from "../../server/mechanics/classes-read";
import { proofLoad, ultimateLoad } from "../../server/mechanics/preload";
import { boltClass, offBy, thread } from "./bolts";
import { gradeTwoClamp, proofClasses, proofLoads, steelColumns, ultimateLoads } from "./published";

describe("a class is read", () => {
  it.each([
    ["8.8", "8.8"],
    ["class 10.9", "10.9"],
    ["Property class 12.9", "12.9"],
    ["grade 8.8", "8.8"],
    ["A2-70", "A2-70"],
    ["a4 80", "A4-80"],
    ["grade 5", "grade 5"],
    ["Gr. 8", "grade 8"],
    ["SAE grade 2", "grade 2"],
    ["SAE J429 grade 8.2", "grade 8.2"],
    ["5.2", "grade 5.2"],
  ])("%s as %s", (text, designation) => {
    expect(boltClass(text).designation).toBe(designation);
  });

  test("a bare number is a grade beside an inch thread alone", () => {
    expect(classOf("5", thread("1/2-13"))).toMatchObject({ designation: "grade 5" });
    expect(classOf("5", thread("M12"))).toEqual({ problem: "ambiguous", near: ["5.6", "5.8", "grade 5"] });
    expect(classOf("10")).toEqual({ problem: "ambiguous", near: ["10.9"] });
  });

  it.each([
    ["8.9", "unknown-class", ["8.8"]],
    ["7.8", "unknown-class", ["6.8", "8.8"]],
    ["A2", "unknown-class", ["A2-50", "A2-70", "A2-80"]],
    ["A4-60", "unknown-class", ["A4-50", "A4-70", "A4-80"]],
    ["grade 6", "unknown-class", ["grade 5.2", "grade 5"]],
    ["B7", "not-a-class", []],
    ["", "not-a-class", []],
    ["NaN", "not-a-class", []],
    ["8.8.8", "not-a-class", []],
    ["1e308", "not-a-class", []],
  ])("%j: %s", (text, problem, near) => {
    expect(classOf(text)).toEqual({ problem, near });
  });

  test("every class reads back from its designation", () => {
    for (const one of allClasses) expect(classOf(one.designation)).toEqual(one);
  });
});

describe("strength", () => {
  // The first figure × 100 is the nominal tensile strength, the product × 10 the nominal yield (ISO 898-1, clause 5).
  test("no steel class is weaker than its name says", () => {
    for (const { designation, rows, standard } of allClasses) {
      if (standard !== "ISO 898-1") continue;
      const [first = 0, second = 0] = designation.split(".").map(Number);
      for (const row of rows) {
        expect(row.tensile).toBeGreaterThanOrEqual(first * 100e6);
        expect(row.yield).toBeGreaterThanOrEqual(first * second * 10e6);
        expect(row.tensile).toBeLessThan(first * 100e6 * 1.06);
      }
    }
  });

  test("proof is under yield, yield under tensile, tensile under the most it may be", () => {
    for (const row of allClasses.flatMap(({ rows }) => rows)) {
      expect(row.proof ?? 0).toBeLessThan(row.yield);
      expect(row.yield).toBeLessThan(row.tensile);
      expect(row.tensile).toBeLessThan(row.tensileMost ?? Number.POSITIVE_INFINITY);
    }
  });

  // ISO 898-1 as reprinted: 8.8 is 640 up to M16 and 660 over it.
  it.each([
    ["8.8", "M16", 640e6],
    ["8.8", "M18", 660e6],
    ["10.9", "M10", 940e6],
    ["12.9", "M10", 1100e6],
    ["A2-70", "M24", 450e6],
    ["A2-80", "M12", 600e6],
  ])("%s in %s yields at %d", (name, size, yielding) => {
    expect(strengthOf(boltClass(name), thread(size))?.yield).toBe(yielding);
  });

  it.each([
    ["9.8", "M18"],
    ["8.8", "M42"],
    ["A2-70", "M27"],
    ["grade 5", "M10"],
    ["grade 5.2", "1-1/8-7"],
    ["grade 5", "#10-24"],
  ])("nothing is said of %s in %s", (name, size) => {
    expect(strengthOf(boltClass(name), thread(size))).toBeUndefined();
  });

  test("a size that two rows share belongs to the first", () => {
    expect(strengthOf(boltClass("grade 2"), thread("3/4-10"))?.proof).toBeCloseTo(55 * 6.894757e6, 0);
    expect(strengthOf(boltClass("grade 2"), thread("7/8-9"))?.proof).toBeCloseTo(33 * 6.894757e6, 0);
  });
});

describe("loads of ISO 898-1, which works with areas of three figures and rounds or cuts its loads by up to 0.8 %", () => {
  const cases = proofLoads.flatMap(([size, , loads]) => {
    const columns = loads.length === proofClasses.length ? proofClasses : steelColumns;
    return loads.map((load, index) => [size, columns[index] ?? "", load] as const);
  });
  it.each(cases)("proof load of %s %s is %d N", (size, name, load) => {
    const proof = strengthOf(boltClass(name), thread(size))?.proof ?? 0;
    expect(offBy(proofLoad(thread(size), proof), load)).toBeLessThan(0.0085);
  });

  const least = ultimateLoads.flatMap(([size, loads]) =>
    loads.map((load, index) => [size, proofClasses[index] ?? "", load] as const),
  );
  it.each(least)("least ultimate load of %s %s is %d N", (size, name, load) => {
    const tensile = strengthOf(boltClass(name), thread(size))?.tensile ?? 0;
    expect(offBy(ultimateLoad(thread(size), tensile), load)).toBeLessThan(0.0085);
  });
});

describe("SAE J429 grade 2, 75 % of proof load", () => {
  it.each(gradeTwoClamp)("%s: %d lbf coarse, %d lbf fine", (size, coarse, fine) => {
    for (const [series, force] of [
      ["UNC", coarse],
      ["UNF", fine],
    ] as const) {
      const one = thread(`${size} ${series}`);
      const load = proofLoad(one, strengthOf(boltClass("grade 2"), one)?.proof ?? 0) / 4.448222;
      expect(offBy(0.75 * load, force)).toBeLessThan(0.005);
    }
  });

  // SAE J429 as two reprints give it, in psi: grade, size, proof, yield, tensile.
  it.each([
    ["grade 1", "1/4-20", 33_000, 36_000, 60_000],
    ["grade 2", "3/4-10", 55_000, 57_000, 74_000],
    ["grade 2", "1-1/2-6", 33_000, 36_000, 60_000],
    ["grade 5", "1-8", 85_000, 92_000, 120_000],
    ["grade 5", "1-1/8-7", 74_000, 81_000, 105_000],
    ["grade 8", "1-1/2-6", 120_000, 130_000, 150_000],
  ])("%s in %s", (name, size, proof, yielding, tensile) => {
    const psi = 6894.757;
    const found = strengthOf(boltClass(name), thread(size));
    expect((found?.proof ?? 0) / psi).toBeCloseTo(proof, 6);
    expect((found?.yield ?? 0) / psi).toBeCloseTo(yielding, 6);
    expect((found?.tensile ?? 0) / psi).toBeCloseTo(tensile, 6);
  });
});
