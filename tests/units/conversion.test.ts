/** Every unit's conversion against NIST SP 811 and two independent libraries. */
import { describe, expect, test } from "vitest";
import { dimensionOf, kinds } from "../../server/units/dimension";
import { unitById } from "../../server/units/lookup";
import { allUnits } from "../../server/units/table";
import { convert, fromSi, toSi, type Unit } from "../../server/units/unit";
import { mathjsSi, ucumSi } from "./libraries";
import { celsiusToKelvin, fahrenheitToCelsius, nistFactors } from "./nist";

const limit = 1e-6;
const near = (a: number, b: number) => Math.abs(a - b) <= limit * Math.abs(b);

/** A unit's factor as a library has it: what one unit more makes, so that an offset falls out. */
function libraryFactor(si: typeof mathjsSi, unit: Unit): number | null {
  const one = si(unit, 1);
  const nought = unit.kind.startsWith("temperature") ? si(unit, 0) : 0;
  return one === null || nought === null ? null : one - nought;
}

const byNist = new Map(nistFactors.map(([id, name, factor]) => [id, { name, factor }]));
const witnesses = allUnits.map((unit) => ({
  unit,
  nist: byNist.get(unit.id)?.factor ?? null,
  mathjs: libraryFactor(mathjsSi, unit),
  ucum: libraryFactor(ucumSi, unit),
}));
const ids = (kept: (one: (typeof witnesses)[number]) => boolean) =>
  witnesses.filter(kept).map(({ unit }) => unit.id);
const off = (factor: number | null, unit: Unit) => factor !== null && !near(factor, unit.factor);

describe("factors", () => {
  test.each(nistFactors)("%s as NIST SP 811 prints it: %s", (id, _name, factor) => {
    const unit = unitById(id) as Unit;
    expect(near(unit.factor, factor), `${unit.factor} against ${factor}`).toBe(true);
  });

  test("no two entries of the NIST table are for one unit", () => {
    expect(byNist.size).toBe(nistFactors.length);
  });

  // mathjs holds mmHg as 133.322 Pa, UCUM as 133.322 Pa and inHg from the same figure: mercury at 0 °C with
  // fewer digits. NIST SP 811 gives the conventional units as we hold them (B.8, footnote 12).
  test("mathjs agrees on every unit it knows but these", () => {
    expect(ids(({ unit, mathjs }) => off(mathjs, unit))).toEqual(["mmHg"]);
  });
  test("UCUM agrees on every unit it knows but these", () => {
    expect(ids(({ unit, ucum }) => off(ucum, unit))).toEqual(["mmHg", "inHg"]);
  });

  test("mathjs does not know exactly these", () => {
    const imperial = ["imp gal", "imp qt", "imp pt", "imp fl oz"];
    const others = ["ksi", "inHg", "inH2O", "PS", "%", "ppm"];
    expect(ids(({ mathjs }) => mathjs === null)).toEqual(["oz·in", "µin", ...imperial, ...others]);
  });
  test("UCUM does not know exactly these", () => {
    expect(ids(({ ucum }) => ucum === null)).toEqual([]);
  });
  test("neither NIST SP 811 nor both libraries cover exactly these (UCUM alone does)", () => {
    const uncovered = ids(({ nist, mathjs, ucum }) => nist === null && (mathjs === null || ucum === null));
    expect(uncovered).toEqual(["imp qt", "imp pt", "%", "ppm"]);
  });
  test("nothing outside covers exactly these", () => {
    expect(ids(({ nist, mathjs, ucum }) => nist === null && mathjs === null && ucum === null)).toEqual([]);
  });
});

describe("what only one of them covers follows from another unit", () => {
  const factor = (id: string) => (unitById(id) as Unit).factor;
  // Weights and Measures Act 1985 (UK), schedule 1: a quart is a quarter, a pint an eighth of a gallon.
  test.each([
    ["imp qt", "imp gal", 1 / 4],
    ["imp pt", "imp gal", 1 / 8],
    ["%", "ppm", 1e4],
  ])("%s is so many %s", (id, other, times) => {
    expect(factor(id)).toBeCloseTo(factor(other) * times, 15);
  });
});

describe("temperature", () => {
  const celsius = unitById("°C") as Unit;
  const fahrenheit = unitById("°F") as Unit;
  const kelvin = unitById("K") as Unit;

  test.each([-459.67, -40, 0, 32, 98.6, 194, 212, 1000])("%d °F as a point", (degrees) => {
    expect(convert(degrees, fahrenheit, celsius)).toBeCloseTo(fahrenheitToCelsius(degrees), 9);
    expect(toSi(degrees, fahrenheit)).toBeCloseTo(celsiusToKelvin(fahrenheitToCelsius(degrees)), 9);
    expect(toSi(degrees, fahrenheit)).toBeCloseTo(mathjsSi(fahrenheit, degrees) as number, 9);
    expect(toSi(degrees, fahrenheit)).toBeCloseTo(ucumSi(fahrenheit, degrees) as number, 9);
  });

  test.each([-273.15, -40, 0, 15, 90, 250])("%d °C as a point", (degrees) => {
    expect(convert(degrees, celsius, kelvin)).toBeCloseTo(celsiusToKelvin(degrees), 9);
    expect(toSi(degrees, celsius)).toBeCloseTo(mathjsSi(celsius, degrees) as number, 9);
    expect(toSi(degrees, celsius)).toBeCloseTo(ucumSi(celsius, degrees) as number, 9);
  });

  test.each([-18, 0, 5, 100])("%d °C as a difference", (degrees) => {
    const [c, f, k] = ["°C", "°F", "K"].map((id) => unitById(`${id} difference`) as Unit) as [
      Unit,
      Unit,
      Unit,
    ];
    expect(convert(degrees, c, f)).toBeCloseTo(degrees * 1.8, 9);
    expect(convert(degrees, c, k)).toBe(degrees);
  });

  test("a point does not convert into a difference", () => {
    expect(convert(90, celsius, unitById("°C difference") as Unit)).toBeNull();
  });
});

describe("kinds", () => {
  test("are told apart by their dimensions alone", () => {
    expect(new Set(kinds.map((kind) => dimensionOf(kind).join())).size).toBe(kinds.length);
  });

  test("torque is not energy, rotation speed is not frequency", () => {
    expect(convert(1, unitById("N·m") as Unit, unitById("J") as Unit)).toBeNull();
    expect(convert(1, unitById("rpm") as Unit, unitById("Hz") as Unit)).toBeNull();
  });

  test("each has a unit", () => {
    expect(kinds.filter((kind) => !allUnits.some((unit) => unit.kind === kind))).toEqual([]);
  });
});

test("a figure that is not a number, or overflows, converts to null", () => {
  const [mm, km] = [unitById("mm") as Unit, unitById("km") as Unit];
  for (const value of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.MAX_VALUE]) {
    expect(convert(value, km, mm)).toBeNull();
  }
  expect(fromSi(1, km)).toBe(1e-3);
});
