/** Amounts: mixed figures, agreement within rounding, conversion as exact as the writer meant. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Amount,
  convertForPrint,
  makeAmount,
  sameWithinRounding,
  stepOf,
  sumAmounts,
} from "../../server/units/amount";
import { otherUnit } from "../../server/units/beside";
import { roundedDecimal } from "../../server/units/decimal";
import { formatAmount } from "../../server/units/format";
import { allUnits } from "../../server/units/table";
import { convert } from "../../server/units/unit";
import { amount, unit } from "./figures";

const plain = (one: Amount | null) => one && formatAmount(one, { plain: true });

describe("sumAmounts", () => {
  test.each([
    [["3 h", "30 min"], 12_600, "3 h 30 min"],
    [["2 ft", "6 in"], 0.762, "2 ft 6 in"],
    [["5 ft", "6 1/2 in"], 66.5 * 0.0254, "5 ft 6 1/2 in"],
    [["1 day", "2 h", "3 min"], 93_780, "1 day 2 h 3 min"],
    [["-1 °", "15 ′"], (-1.25 * Math.PI) / 180, "-1° 15′"],
    [["-0 °", "30 ′"], (-0.5 * Math.PI) / 180, "-0° 30′"],
    [["7 mm"], 0.007, "7 mm"],
  ])("%j", (texts, si, spelled) => {
    const sum = sumAmounts(texts.map((text) => amount(text)));
    expect(sum?.si).toBeCloseTo(si, 12);
    expect(plain(sum)).toBe(spelled);
  });

  test.each([
    [["30 min", "3 h"]],
    [["3 h", "3 h"]],
    [["3 h", "30 mm"]],
    [["3 h", "-30 min"]],
    [["90 °C", "5 °F"]],
    [[]],
  ])("%j is no mixed figure", (texts: string[]) => {
    expect(sumAmounts(texts.map((text) => amount(text)))).toBeNull();
  });

  test("is counted in its finest unit", () => {
    const sum = sumAmounts([amount("3 h"), amount("30 min")]);
    expect(sum?.decimal).toEqual({ text: "210", value: 210, digits: 0 });
    expect(plain(convertForPrint(sum as Amount, unit("h")))).toBe("3.5 h");
  });
});

describe("sameWithinRounding", () => {
  test.each([
    ["47 N·m", "35 lb·ft", true],
    ["47 N·m", "34 lb·ft", true],
    ["47 N·m", "36 lb·ft", false],
    ["47 N·m", "35 kgf·m", false],
    ["4.8 kgf·m", "47 N·m", true],
    ["0.50 mm", "0.020 in", true],
    ["0.50 mm", "0.021 in", false],
    ["0.2 mm", "0.010 in", true],
    ["0.20 mm", "0.010 in", false],
    ["0.05 mm", "0.002 in", true],
    ["90 °C", "194 °F", true],
    ["90 °C", "196 °F", false],
    ["1/6 turn", "60°", true],
    ["1/6 turn", "62°", false],
    ["1/6 turn", "2/12 turn", true],
    ["1/2 in", "12.7 mm", true],
    ["2.5 bar", "36 psi", true],
    ["2.5 bar", "40 psi", false],
    ["47 N·m", "47 J", false],
    ["0.1 mm", "0.2 mm", true],
    ["5.6 L", "1.5 US gal", true],
  ])("%s and %s: %s", (a, b, same) => {
    expect(sameWithinRounding(amount(a), amount(b))).toBe(same);
    expect(sameWithinRounding(amount(b), amount(a))).toBe(same);
  });
});

describe("convertForPrint keeps the precision the writer meant", () => {
  test.each([
    ["47 N·m", "lb·ft", "35 lb·ft"],
    ["22 N·m", "lb·ft", "16 lb·ft"],
    ["8 N·m", "lb·ft", "6 lb·ft"],
    ["8 N·m", "lb·in", "71 lb·in"],
    ["47.0 N·m", "lb·ft", "34.7 lb·ft"],
    ["35 lb·ft", "N·m", "47 N·m"],
    ["90 lb·in", "N·m", "10.2 N·m"],
    ["0.05 mm", "in", "0.002 in"],
    ["0.15 mm", "in", "0.006 in"],
    ["1.2 mm", "in", "0.047 in"],
    ["25.4 mm", "in", "1 in"],
    ["0.020 in", "mm", "0.51 mm"],
    ["3/8 in", "mm", "9.5 mm"],
    ["1/2 in", "mm", "12.7 mm"],
    ["1 1/2 in", "mm", "38 mm"],
    ["1/6 turn", "°", "60°"],
    ["90 °C", "°F", "194 °F"],
    ["-40 °F", "°C", "-40 °C"],
    ["20.5 °C", "°F", "68.9 °F"],
    ["2.5 bar", "psi", "36 psi"],
    ["36 psi", "bar", "2.5 bar"],
    ["5.6 L", "US qt", "5.9 US qt"],
    ["4 kg", "lb", "9 lb"],
    ["0 mm", "in", "0 in"],
    ["1 kN", "lbf", "225 lbf"],
  ])("%s in %s is %s", (written, id, printed) => {
    expect(plain(convertForPrint(amount(written), unit(id)))).toBe(printed);
  });

  test("null for another kind, and for what is too large to print", () => {
    expect(convertForPrint(amount("47 N·m"), unit("J"))).toBeNull();
    expect(convertForPrint(amount("999999999999999 km"), unit("mm"))).toBeNull();
  });
});

describe("published guides round as convertForPrint does", () => {
  test.each([
    // NIST SP 811 (2008), B.7.2: 36 ft is 10.9728 m and is stated as 11.0 m.
    ["36 ft", "m", "11.0 m"],
    // NIST LC 1137, Metric Style Guide: not more digits than the precision of the original justifies.
    ["36 in", "cm", "91 cm"],
    ["40.1 in", "cm", "101.9 cm"],
  ])("%s in %s is %s", (written, id, printed) => {
    expect(plain(convertForPrint(amount(written), unit(id)))).toBe(printed);
  });

  // The same section: a result three times as coarse as the figure (±4.5 % for ±1.4 %) has lost information.
  test("no result that had to be rounded is three times as coarse as the figure", () => {
    const figure = fc.tuple(fc.integer({ min: 1, max: 99_999 }), fc.integer({ min: 0, max: 3 }));
    const partnered = allUnits.filter((one) => otherUnit(one, 1) !== null);
    fc.assert(
      fc.property(fc.constantFrom(...partnered), figure, (own, [steps, places]) => {
        const written = makeAmount(roundedDecimal(steps / 10 ** places, places), own);
        const printed = convertForPrint(written, otherUnit(own, written.si) ?? own) as Amount;
        const rounded = Math.abs(printed.si - written.si) > 1e-8 * Math.abs(written.si);
        expect(rounded && stepOf(printed) > 3 * stepOf(written) * (1 + 1e-9)).toBe(false);
      }),
    );
  });
});

describe("the unit shown beside", () => {
  test.each([
    ["47 N·m", "lb·ft"],
    ["22 N·m", "lb·ft"],
    ["20 N·m", "lb·in"],
    ["8 N·m", "lb·in"],
    ["35 lb·ft", "N·m"],
    ["71 lb·in", "N·m"],
    ["4.8 kgf·m", "lb·ft"],
    ["0.05 mm", "in"],
    ["12 m", "ft"],
    ["2 m", "in"],
    ["25 L", "US gal"],
    ["5.6 L", "US qt"],
    ["0.2 L", "US fl oz"],
    ["90 °C", "°F"],
    ["-90 °C", "°F"],
    ["200 g", "oz"],
  ])("%s: %s", (written, id) => {
    const { unit: own, si } = amount(written);
    expect(otherUnit(own, si)?.id).toBe(id);
  });

  test.each(["60°", "1/6 turn", "3 h", "12 V", "300 K", "5 %", "1500 rpm"])("%s: none", (written) => {
    const { unit: own, si } = amount(written);
    expect(otherUnit(own, si)).toBeNull();
  });

  test("is of the same kind and the other side, for all but these", () => {
    const without = [];
    for (const own of allUnits.filter(({ system }) => system !== "neutral")) {
      const partners = [1e-12, 1, 1e12].map((si) => otherUnit(own, si));
      for (const partner of partners) {
        if (partner === null) continue;
        expect(partner.kind).toBe(own.kind);
        expect([own.system, partner.system].sort()).toEqual(["imperial", "metric"]);
      }
      if (partners.includes(null)) without.push(own.id);
    }
    expect(without).toEqual(["mm³", "mg", "L/h", "mL/min", "W"]);
  });
});

describe("for any figure", () => {
  const anyUnit = fc.constantFrom(...allUnits);
  const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  const pair = anyUnit.chain((from) =>
    fc.tuple(fc.constant(from), fc.constantFrom(...allUnits.filter(({ kind }) => kind === from.kind))),
  );

  test("there and back again is the same figure", () => {
    fc.assert(
      fc.property(pair, value, ([from, to], figure) => {
        const back = convert(convert(figure, from, to) as number, to, from) as number;
        const size = Math.abs(figure) + Math.abs(from.offset / from.factor);
        expect(Math.abs(back - figure)).toBeLessThanOrEqual(1e-12 * size + 1e-12);
      }),
    );
  });

  test("order is kept", () => {
    fc.assert(
      fc.property(pair, value, value, ([from, to], a, b) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(convert(low, from, to)).toBeLessThanOrEqual(convert(high, from, to) as number);
      }),
    );
  });

  test("what is printed agrees with what was written", () => {
    const digits = fc.integer({ min: 0, max: 4 });
    fc.assert(
      fc.property(
        pair,
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        digits,
        ([from, to], figure, places) => {
          const written = makeAmount(roundedDecimal(figure, places), from);
          const printed = convertForPrint(written, to);
          expect(printed === null || sameWithinRounding(written, printed)).toBe(true);
        },
      ),
    );
  });

  test("no step is coarser than one and a half of the writer's unless the figure leads back", () => {
    const partnered = allUnits.filter((own) => otherUnit(own, 1) !== null);
    fc.assert(
      fc.property(fc.constantFrom(...partnered), fc.integer({ min: 1, max: 99_999 }), (own, steps) => {
        const written = makeAmount(roundedDecimal(steps / 100, 2), own);
        const printed = convertForPrint(written, otherUnit(own, written.si) ?? own) as Amount;
        const back = convert(printed.decimal.value, printed.unit, own) as number;
        const fine = stepOf(printed) <= 1.5 * stepOf(written) * (1 + 1e-9);
        expect(fine || roundedDecimal(back, 2).text === written.decimal.text).toBe(true);
      }),
    );
  });
});
