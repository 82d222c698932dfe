/** Quantities: shapes, limits, agreement, and how they are spelled. */
import { describe, expect, test } from "vitest";
import type { Amount } from "../../server/units/amount";
import {
  convertQuantity,
  formatAmount,
  formatDecimal,
  formatQuantity,
  sourceWords,
} from "../../server/units/format";
import {
  contains,
  leavesGap,
  limitsEmpty,
  limitsReversed,
  makeQuantity,
  overlaps,
  quantitiesAgree,
} from "../../server/units/quantity";
import { amount, quantity, unit } from "./figures";

const over = { lowIncluded: false };
const plain = { plain: true };

describe("makeQuantity", () => {
  test("of 47 ± 3 N·m the limits are 44 and 50", () => {
    const made = quantity("tolerance", "47 N·m", "3 N·m");
    expect([made.low?.decimal.text, made.nominal?.decimal.text, made.high?.decimal.text]).toEqual([
      "44",
      "47",
      "50",
    ]);
    expect(made.high?.si).toBe(50);
  });

  test("of 20 ± 0.05 mm the limits have the tolerance's digits", () => {
    const made = quantity("tolerance", "20 mm", "0.05 mm");
    expect(made.low?.decimal).toEqual({ text: "19.95", value: 19.95, digits: 2 });
  });

  test("a tolerance of temperature is a difference", () => {
    const made = quantity("tolerance", "90 °C", "5 °C");
    expect(made.tolerance?.unit.id).toBe("°C difference");
    expect(made.low?.si).toBeCloseTo(358.15, 9);
    expect(made.high?.si).toBeCloseTo(368.15, 9);
  });

  const ends = ({ low, high }: { low: Amount | null; high: Amount | null }) => [
    low?.decimal.text,
    high?.decimal.text,
  ];
  const sides = (first: string, upper: string, lower: string) =>
    quantity("deviations", first, upper, { third: amount(lower) });

  test("of 30 +3/-1 N·m the limits are 29 and 33, and both deviations may lie on one side", () => {
    expect(ends(sides("30 N·m", "+3 N·m", "-1 N·m"))).toEqual(["29", "33"]);
    expect(ends(sides("20 mm", "-0.020 mm", "-0.041 mm"))).toEqual(["19.959", "19.98"]);
    expect(ends(sides("0.10 mm", "+0.05 mm", "-0 mm"))).toEqual(["0.1", "0.15"]);
    expect(ends(sides("20 °C", "+9 °F", "-9 °F"))).toEqual(["15", "25"]);
  });

  test("a tolerance in per cent is a share of the value; of a percentage it is points; of a temperature it is nothing", () => {
    expect(ends(quantity("tolerance", "30 N·m", "10 %"))).toEqual(["27", "33"]);
    expect(ends(quantity("tolerance", "33 N·m", "10 %"))).toEqual(["29.7", "36.3"]);
    expect(ends(sides("230 V", "+6 %", "-10 %"))).toEqual(["207", "243.8"]);
    expect(ends(quantity("tolerance", "60 %", "5 %"))).toEqual(["55", "65"]);
    expect(ends(quantity("tolerance", "-10 mm", "10 %"))).toEqual(["-11", "-9"]);
    const share = { shape: "tolerance", first: amount("20 °C"), second: amount("10 %"), text: "" } as const;
    expect(makeQuantity(share)).toBeNull();
  });

  test("nonsense keeps its figures and is told apart: reversed, of two kinds, without the second side", () => {
    expect(limitsReversed(sides("30 N·m", "+1 N·m", "+3 N·m"))).toBe(true);
    expect(limitsReversed(sides("30 N·m", "-1 N·m", "+3 N·m"))).toBe(true);
    expect(limitsReversed(sides("30 N·m", "+3 N·m", "+1 N·m"))).toBe(false);
    expect(ends(sides("30 N·m", "+3 N·m", "-40 N·m"))).toEqual(["-10", "33"]);
    expect(ends(quantity("tolerance", "30 N·m", "200 %"))).toEqual(["-30", "90"]);
    expect(ends(quantity("tolerance", "30 N·m", "0 %"))).toEqual(["30", "30"]);
    const [first, second] = [amount("30 N·m"), amount("+3 N·m")];
    expect(makeQuantity({ shape: "deviations", first, second, text: "" })).toBeNull();
    expect(makeQuantity({ shape: "deviations", first, second, third: amount("-1 mm"), text: "" })).toBeNull();
  });

  test.each(["range", "tolerance"] as const)(
    "null for a %s without a second figure, or of two kinds",
    (shape) => {
      expect(makeQuantity({ shape, first: amount("47 N·m"), text: "" })).toBeNull();
      expect(makeQuantity({ shape, first: amount("47 N·m"), second: amount("3 mm"), text: "" })).toBeNull();
    },
  );
});

describe("contains", () => {
  test.each([
    [quantity("range", "0.5 mm", "1.2 mm"), "0.5 mm", true],
    [quantity("range", "0.5 mm", "1.2 mm"), "1.2 mm", true],
    [quantity("range", "0.5 mm", "1.2 mm"), "1.21 mm", false],
    [quantity("range", "0.55 mm", "0.65 mm", over), "0.55 mm", false],
    [quantity("range", "0.55 mm", "0.65 mm", over), "0.56 mm", true],
    [quantity("at-least", "0.5 mm"), "0.5 mm", true],
    [quantity("at-least", "0.5 mm"), "0.49 mm", false],
    [quantity("over", "0.5 mm"), "0.5 mm", false],
    [quantity("at-most", "0.5 mm"), "0.5 mm", true],
    [quantity("under", "40 °C"), "40 °C", false],
    [quantity("under", "40 °C"), "39 °C", true],
    [quantity("exact", "0.3 mm"), "300 µm", true],
    [quantity("exact", "0.3 mm"), "0.31 mm", false],
    [quantity("tolerance", "47 N·m", "3 N·m"), "50 N·m", true],
    [quantity("tolerance", "47 N·m", "3 N·m"), "51 N·m", false],
    [quantity("about", "5 L"), "5.5 L", true],
    [quantity("about", "5 L"), "5.6 L", false],
  ])("case %#", (made, figure, within) => {
    expect(contains(made, amount(figure).si)).toBe(within);
  });

  test("a value that is not a number is in nothing; an endless one only where there is no end", () => {
    expect(contains(quantity("at-least", "0.5 mm"), Number.NaN)).toBe(false);
    expect(contains(quantity("range", "0.5 mm", "1.2 mm"), Number.POSITIVE_INFINITY)).toBe(false);
    expect(contains(quantity("at-least", "0.5 mm"), Number.POSITIVE_INFINITY)).toBe(true);
  });
});

describe("limits", () => {
  test("reversed", () => {
    expect(limitsReversed(quantity("range", "1.2 mm", "0.5 mm"))).toBe(true);
    expect(limitsReversed(quantity("range", "900 µm", "1 mm"))).toBe(false);
    expect(limitsReversed(quantity("at-least", "1 mm"))).toBe(false);
  });

  test("empty", () => {
    expect(limitsEmpty(quantity("range", "0.5 mm", "500 µm", over))).toBe(true);
    expect(limitsEmpty(quantity("range", "0.5 mm", "0.5 mm"))).toBe(false);
    expect(limitsEmpty(quantity("range", "0.5 mm", "0.6 mm", over))).toBe(false);
  });

  const first = quantity("range", "0.50 mm", "0.55 mm");
  test.each([
    [true, false, quantity("range", "0.55 mm", "0.60 mm")],
    [false, false, quantity("range", "0.55 mm", "0.60 mm", over)],
    [false, true, quantity("range", "0.56 mm", "0.60 mm")],
    [true, false, quantity("range", "0.54 mm", "0.60 mm")],
    [false, false, quantity("over", "0.55 mm")],
    [false, true, quantity("over", "0.6 mm")],
    [false, false, quantity("over", "40 °C")],
  ])("0.50 to 0.55 mm overlaps (%s), leaves a gap (%s), case %#", (overlap, gap, second) => {
    expect(overlaps(first, second)).toBe(overlap);
    expect(overlaps(second, first)).toBe(overlap);
    expect(leavesGap(first, second)).toBe(gap);
  });

  test("a single point can be a gap", () => {
    expect(leavesGap(quantity("under", "5 mm"), quantity("over", "5 mm"))).toBe(true);
  });
});

describe("quantitiesAgree", () => {
  test.each([
    [quantity("range", "0.5 mm", "1.2 mm"), quantity("range", "0.020 in", "0.047 in"), true],
    [quantity("range", "0.50 mm", "1.20 mm"), quantity("range", "0.020 in", "0.057 in"), false],
    [quantity("tolerance", "47 N·m", "3 N·m"), quantity("tolerance", "35 lb·ft", "2 lb·ft"), true],
    [quantity("tolerance", "47 N·m", "3 N·m"), quantity("tolerance", "35 lb·ft", "4 lb·ft"), false],
    [
      quantity("deviations", "30 N·m", "+3 N·m", { third: amount("-1 N·m") }),
      quantity("deviations", "22 lb·ft", "+2 lb·ft", { third: amount("-1 lb·ft") }),
      true,
    ],
    [
      quantity("deviations", "30 N·m", "+3 N·m", { third: amount("-1 N·m") }),
      quantity("deviations", "22 lb·ft", "+4 lb·ft", { third: amount("-1 lb·ft") }),
      false,
    ],
    [
      quantity("deviations", "47 N·m", "+3 N·m", { third: amount("-3 N·m") }),
      quantity("tolerance", "35 lb·ft", "2 lb·ft"),
      true,
    ],
    [quantity("tolerance", "47 N·m", "10 %"), quantity("tolerance", "35 lb·ft", "10 %"), true],
    [quantity("tolerance", "47 N·m", "10 %"), quantity("tolerance", "35 lb·ft", "12 %"), false],
    [quantity("tolerance", "30 N·m", "10 %"), quantity("tolerance", "22 lb·ft", "2 lb·ft"), true],
    [quantity("at-least", "0.50 mm"), quantity("at-least", "0.020 in"), true],
    [quantity("at-least", "0.50 mm"), quantity("over", "0.020 in"), false],
    [quantity("exact", "90 °C"), quantity("exact", "194 °F"), true],
    [quantity("exact", "47 N·m"), quantity("exact", "35 kg"), false],
  ])("case %#", (a, b, agree) => {
    expect(quantitiesAgree(a, b)).toBe(agree);
    expect(quantitiesAgree(b, a)).toBe(agree);
  });
});

describe("formatQuantity", () => {
  const both = { ...plain, units: "both" } as const;
  test.each([
    ["47 N·m (35 lb·ft)", quantity("exact", "47 N·m")],
    ["8 N·m (71 lb·in)", quantity("exact", "8 N·m")],
    ["0.5 to 1.2 mm (0.020 to 0.047 in)", quantity("range", "0.5 mm", "1.2 mm")],
    ["0.00 to 0.15 mm (0.000 to 0.006 in)", quantity("range", "0.00 mm", "0.15 mm")],
    ["over 0.55 to 0.65 mm (over 0.0217 to 0.0256 in)", quantity("range", "0.55 mm", "0.65 mm", over)],
    ["10 to 100 N·m (7 to 74 lb·ft)", quantity("range", "10 N·m", "100 N·m")],
    ["500 mm to 1.2 m (19.7 to 47.2 in)", quantity("range", "500 mm", "1.2 m")],
    ["47 ± 3 N·m (35 ± 2 lb·ft)", quantity("tolerance", "47 N·m", "3 N·m")],
    ["20 ± 0.5 mm (0.787 ± 0.020 in)", quantity("tolerance", "20 mm", "0.5 mm")],
    ["90 ± 5 °C (194 ± 9 °F)", quantity("tolerance", "90 °C", "5 °C")],
    ["60° ± 5°", quantity("tolerance", "60°", "5°")],
    // Each deviation as coarse as it was meant (worked out by hand: 30 N·m = 22.1, 3 = 2.2, 1 = 0.7 lb·ft; 0.05 mm = 0.0020 in).
    [
      "30 +3/-1 N·m (22 +2/-1 lb·ft)",
      quantity("deviations", "30 N·m", "+3 N·m", { third: amount("-1 N·m") }),
    ],
    [
      "0.10 +0.05/-0 mm (0.004 +0.002/-0.000 in)",
      quantity("deviations", "0.10 mm", "+0.05 mm", { third: amount("-0 mm") }),
    ],
    [
      "20 -0.020/-0.041 mm (0.7874 -0.0008/-0.0016 in)",
      quantity("deviations", "20 mm", "-0.020 mm", { third: amount("-0.041 mm") }),
    ],
    ["20 +5/-3 °C (68 +9/-5 °F)", quantity("deviations", "20 °C", "+5 °C", { third: amount("-3 °C") })],
    ["60° +5°/-3°", quantity("deviations", "60°", "+5°", { third: amount("-3°") })],
    ["47 N·m ± 10 % (35 lb·ft ± 10 %)", quantity("tolerance", "47 N·m", "10 %")],
    ["230 V +6/-10 %", quantity("deviations", "230 V", "+6 %", { third: amount("-10 %") })],
    ["at least 0.5 mm (at least 0.02 in)", quantity("at-least", "0.5 mm")],
    ["at most 2.5 bar (at most 36 psi)", quantity("at-most", "2.5 bar")],
    ["under 40 °C (under 104 °F)", quantity("under", "40 °C")],
    ["about 5.6 L (about 5.9 US qt)", quantity("about", "5.6 L")],
    ["1/6 turn", quantity("exact", "1/6 turn")],
    ["2 turns", quantity("exact", "2 turns")],
    ["0.020 in (0.51 mm)", quantity("exact", ".020 in")],
  ])("both units: %s", (spelled, made) => {
    expect(formatQuantity(made, both)).toBe(spelled);
  });

  test("a figure the writer gave is shown, not a worked-out one", () => {
    const made = quantity("exact", "47 N·m", undefined, { other: quantity("exact", "34 lb·ft") });
    expect(formatQuantity(made, plain)).toBe("47 N·m (34 lb·ft)");
    expect(formatQuantity(made, both)).toBe("47 N·m (34 lb·ft)");
    expect(formatQuantity(made, { ...plain, units: "metric" })).toBe("47 N·m");
    expect(formatQuantity(made, { ...plain, units: "imperial" })).toBe("34 lb·ft");
  });

  test("one side alone is worked out where the writer gave the other", () => {
    expect(formatQuantity(quantity("exact", "35 lb·ft"), { ...plain, units: "metric" })).toBe("47 N·m");
    expect(formatQuantity(quantity("exact", "60°"), { ...plain, units: "imperial" })).toBe("60°");
    expect(formatQuantity(quantity("exact", "47 N·m"), plain)).toBe("47 N·m");
  });

  test("a line never parts a figure from its unit or from ±", () => {
    expect(formatQuantity(quantity("tolerance", "47 N·m", "3 N·m"))).toBe("47\u00a0±\u00a03\u00a0N·m");
    expect(formatQuantity(quantity("range", "0.5 mm", "1.2 mm"))).toBe("0.5 to 1.2\u00a0mm");
    const sided = quantity("deviations", "30 N·m", "+3 N·m", { third: amount("-1 N·m") });
    expect(formatQuantity(sided)).toBe("30\u00a0+3/\u22121\u00a0N·m");
    expect(formatAmount(amount("1 1/2 turns"))).toBe("1\u00a01/2\u00a0turns");
    expect(formatAmount(amount("60 deg"))).toBe("60°");
  });

  test("minus is a minus sign for people, a hyphen in the source", () => {
    expect(formatAmount(amount("-10 °C"))).toBe("\u221210\u00a0°C");
    expect(formatAmount(amount("\u221210 °C"), plain)).toBe("-10 °C");
  });

  test("another language brings its words, its decimal mark and its names of units", () => {
    const words = { ...sourceWords, range: "{0} bis {1}", beside: "{0} ({1})" };
    const german = { ...plain, point: ",", words, spell: spellGerman };
    expect(formatQuantity(quantity("range", "0.5 mm", "1.2 mm"), german)).toBe("0,5 bis 1,2 mm");
    expect(formatQuantity(quantity("exact", "2 turns"), german)).toBe("2 Umdrehungen");
    expect(formatDecimal(amount("0.020 in").decimal, german)).toBe("0,020");
  });
});

function spellGerman(one: { id: string }): string | undefined {
  return one.id === "turn" ? "Umdrehungen" : undefined;
}

describe("convertQuantity", () => {
  test("gives a quantity like any other, with its own text", () => {
    const made = convertQuantity(quantity("range", "0.55 mm", "0.65 mm", over), unit("in"));
    expect(made).toMatchObject({
      shape: "range",
      kind: "length",
      lowIncluded: false,
      text: "over 0.0217 to 0.0256 in",
    });
    expect(made?.high?.si).toBeCloseTo(0.0256 * 0.0254, 12);
  });

  test("null for another kind", () => {
    expect(convertQuantity(quantity("exact", "47 N·m"), unit("mm"))).toBeNull();
    expect(convertQuantity(quantity("tolerance", "47 N·m", "3 N·m"), unit("°C"))).toBeNull();
  });
});
