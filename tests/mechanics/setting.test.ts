/** What a wrench is set to under an adapter, held to the balance of moments. */
import { describe, expect, it } from "vitest";
import { wrenchSetting } from "../../server/mechanics/setting";
import { makeAmount } from "../../server/units/amount";
import { parseDecimal } from "../../server/units/decimal";
import { findUnit } from "../../server/units/lookup";
import { makeQuantity, type Shape } from "../../server/units/quantity";

function torque(first: string, shape: Shape = "exact", second?: string) {
  const amount = (text: string) => makeAmount(parseDecimal(text) as never, findUnit("N·m") as never);
  const made = makeQuantity({
    shape,
    first: amount(first),
    ...(second ? { second: amount(second) } : {}),
    text: "",
  });
  if (!made) throw new Error("no torque");
  return made;
}

describe("the setting", () => {
  it.each([
    ["22", 0.4, 0.05, "19.6"],
    ["140", 0.5, 0.1, "117"],
    ["8.5", 0.25, 0, "8.50"],
    ["1200", 1, 0.2, "1000"],
  ])("of %s N·m on %d m with %d m more is %s", (wanted, lever, extension, expected) => {
    const setting = wrenchSetting(torque(wanted), lever, extension)?.nominal;
    expect(setting?.decimal.text).toBe(expected);
    const atBolt = ((setting?.decimal.value ?? 0) * (lever + extension)) / lever;
    expect(Math.abs(atBolt - Number(wanted)) / Number(wanted)).toBeLessThan(0.005);
  });

  it("keeps a range a range, and gives the middle of a tolerance", () => {
    const range = wrenchSetting(torque("40", "range", "44"), 0.3, 0.1);
    expect([range?.shape, range?.low?.decimal.text, range?.high?.decimal.text]).toEqual([
      "range",
      "30.0",
      "33.0",
    ]);
    const middle = wrenchSetting(torque("40", "tolerance", "4"), 0.3, 0.1);
    expect([middle?.shape, middle?.nominal?.decimal.text]).toEqual(["exact", "30.0"]);
  });

  it("is none for a lever that makes no sense", () => {
    expect([0, -1, Number.NaN].map((lever) => wrenchSetting(torque("22"), lever, 0.1))).toEqual([
      null,
      null,
      null,
    ]);
    expect(wrenchSetting(torque("22"), 0.4, -0.1)).toBeNull();
  });
});
