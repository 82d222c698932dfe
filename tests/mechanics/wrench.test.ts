/** Wrenches: adapters against worked examples of tool manuals, ranges against ISO 6789. */
import { describe, expect, it, test } from "vitest";
import { exactly } from "../../server/mechanics/range";
import { settingShare } from "../../server/mechanics/setting";
import { fitOf, trustedRange } from "../../server/mechanics/wrench";

describe("an adapter", () => {
  // Worked examples as published: a tool maker's manual (50 ft·lb, 16 in, 2 in), a vehicle maker's (120, 12, 2), a tool maker's page (10 N·m,
  // 18 cm, 0.5 cm).
  it.each([
    [50, 16, 2, 44.44],
    [120, 12, 2, 102.857],
    [10, 18, 0.5, 9.73],
  ])("in line: %d wanted, lever %d, reach %d: set %d", (wanted, lever, reach, set) => {
    expect(wanted * (settingShare(lever, reach) ?? 0)).toBeCloseTo(set, 2);
  });

  test("at right angles nothing changes, backwards the setting grows", () => {
    expect(settingShare(16, 2, Math.PI / 2)).toBe(1);
    expect(settingShare(16, 2, Math.PI)).toBeCloseTo(16 / 14, 12);
  });

  // TM 9-2350-261-20-1, page 2-29 (40 lb·ft, 12 in, 4 in) and TM 1-1500-204-23-9, figure 8-16 (300 lb·in, 10 in, 4 in): in line. A published
  // table of settings by angle (calculator.city, torque wrench extension: 100 lb·ft, 18 in, 3 in): 0°, 45°, 90°.
  it.each([
    [40, 12, 4, 0, 30, 2],
    [300, 10, 4, 0, 214, 0],
    [100, 18, 3, 0, 85.71, 2],
    [100, 18, 3, 45, 89.46, 2],
    [100, 18, 3, 90, 100, 12],
  ])("%d wanted, lever %d, reach %d at %d°: set %d", (wanted, lever, reach, degrees, set, digits) => {
    expect(wanted * (settingShare(lever, reach, (degrees * Math.PI) / 180) ?? 0)).toBeCloseTo(set, digits);
  });

  // TM 9-254, chapter 4, “Angled Extension”: effective lever = wrench + adapter × cos of the angle.
  it.each([30, 45, 60, 120])("at %d degrees only what it reaches along the wrench counts", (degrees) => {
    const angle = (degrees * Math.PI) / 180;
    expect(settingShare(0.4, 0.1, angle)).toBeCloseTo(0.4 / (0.4 + 0.1 * Math.cos(angle)), 12);
  });

  it.each([
    [0, 0.1, 0],
    [-1, 0.1, 0],
    [Number.NaN, 0.1, 0],
    [0.4, -0.1, 0],
    [0.4, Number.NaN, 0],
    [0.4, 0.1, Number.NaN],
    [0.4, 0.1, Number.POSITIVE_INFINITY],
    [0.4, 0.1, 1.5 * Math.PI],
    [0.4, 0.1, -4],
    [0.1, 0.2, Math.PI],
    [Number.POSITIVE_INFINITY, 0.1, 0],
    [1e308, 1e308, 0],
  ])("none for lever %d, reach %d, angle %d", (lever, reach, angle) => {
    expect(settingShare(lever, reach, angle)).toBeNull();
  });
});

describe("a wrench is trusted", () => {
  // ISO 6789: tested at 20, 60 and 100 % of its greatest torque.
  test("from a fifth of its top, or from its bottom where that is higher", () => {
    expect(trustedRange({ bottom: 10, top: 100 })).toEqual({ low: 20, high: 100 });
    expect(trustedRange({ bottom: 40, top: 200 })).toEqual({ low: 40, high: 200 });
    expect(trustedRange({ bottom: null, top: 60 })).toEqual({ low: 12, high: 60 });
    expect(trustedRange({ bottom: 25, top: 25 })).toEqual({ low: 25, high: 25 });
  });

  it.each([
    [0, 0],
    [0, -5],
    [-1, 50],
    [60, 50],
    [10, Number.NaN],
    [Number.NaN, 50],
    [10, Number.POSITIVE_INFINITY],
  ])("not at all on a scale from %d to %d", (bottom, top) => {
    expect(trustedRange({ bottom, top })).toBeUndefined();
    expect(fitOf({ bottom, top }, exactly(20))).toBeUndefined();
  });

  it.each([
    [47, 47, "within"],
    [20, 100, "within"],
    [18, 22, "partly"],
    [95, 105, "partly"],
    [12, 19, "untrusted"],
    [5, 9, "under"],
    [101, 110, "over"],
  ] as const)("10 to 100 N·m for %d to %d N·m: %s", (low, high, fit) => {
    expect(fitOf({ bottom: 10, top: 100 }, { low, high })).toBe(fit);
  });

  test("nothing is said of a torque that is none", () => {
    for (const torque of [exactly(0), exactly(-4), exactly(Number.NaN), { low: 5, high: 4 }]) {
      expect(fitOf({ bottom: 10, top: 100 }, torque)).toBeUndefined();
    }
  });
});
