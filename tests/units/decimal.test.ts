/** Numbers exactly as they are written: what is read, what is refused, and rounding. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseDecimal, round, roundedDecimal, shortestDecimal } from "../../server/units/decimal";

describe("parseDecimal", () => {
  test.each([
    ["47", 47, 0],
    ["0.05", 0.05, 2],
    [".020", 0.02, 3],
    ["-10", -10, 0],
    ["\u221210", -10, 0],
    ["+5.0", 5, 1],
    ["-0", 0, 0],
    ["100", 100, 0],
  ])("%s", (text, value, digits) => {
    expect(parseDecimal(text)).toEqual({ text, value, digits });
  });

  test.each([
    ["1/6", 1, 6],
    ["1 1/2", 3, 2],
    ["1-1/2", 3, 2],
    ["-1/2", -1, 2],
    ["0/4", 0, 4],
  ])("the fraction %s is %d/%d", (text, numerator, denominator) => {
    const read = parseDecimal(text);
    expect(read?.fraction).toEqual({ numerator, denominator });
    expect(read?.value).toBe(numerator / denominator);
  });

  test.each(
    [
      "",
      " ",
      "-",
      ".",
      "5.",
      "1e3",
      "1e308",
      "NaN",
      "Infinity",
      "0,5",
      "1 000",
      "1/0",
      "1/2/3",
      "1 /2",
      "1.2.3",
    ].concat(["0x10", "9".repeat(16), `0.${"1".repeat(16)}`, "9".repeat(400), "47 N", "\u0664"]),
  )("%j is no number", (text) => {
    expect(parseDecimal(text)).toBeNull();
  });

  test("reads back every number that it writes", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.integer({ min: 0, max: 9 }),
        (value, digits) => {
          const written = roundedDecimal(value, digits);
          expect(parseDecimal(written.text)).toEqual(written);
        },
      ),
    );
  });
});

test.each([
  [6.35, 1, 6.4],
  [-6.35, 1, -6.4],
  [1.005, 2, 1.01],
  [2.5, 0, 3],
  [-0.4, 0, 0],
  [34.665, 0, 35],
])("round(%d, %d) is %d", (value, digits, rounded) => {
  expect(round(value, digits)).toBe(rounded);
});

describe("shortestDecimal", () => {
  test.each([
    [180, 0, "180", 0],
    [180, 1, "180", 0],
    [35.6, 1, "35.6", 1],
    [0.30000000000000004, 12, "0.3", 1],
    [1e-7, 9, "0.0000001", 7],
    [100.5, 9, "100.5", 1],
    [0, 9, "0", 0],
  ])("%d to at most %d digits", (value, most, text, digits) => {
    expect(shortestDecimal(value, most)).toEqual({ text, value: Number(text), digits });
  });
});
