/** Spellings of units: what is accepted, what is told apart, what is suggested. */
import { describe, expect, test } from "vitest";
import { differenceUnit, findUnit, longestUnitWords, nearestUnit, readUnit } from "../../server/units/lookup";
import { normaliseSpelling } from "../../server/units/spelling";
import { allUnits } from "../../server/units/table";
import { unit } from "./figures";

describe("findUnit", () => {
  test.each([
    ["N·m", "N\u00b7m N\u22c5m N\u2219m N\u2022m Nm N.m N*m N-m N\u2011m"],
    ["lb·ft", "lb·ft ft·lb lb-ft ft-lb ft-lbs lbf·ft ft·lbf lbf.ft lbft ftlb"],
    ["lb·in", "lb·in in-lb in-lbs lbf·in lb-in inlb"],
    ["kgf·m", "kgf·m kgf-m kgfm kp·m kg·m mkg mkp"],
    ["°", "° º ˚ deg degrees"],
    ["turn", "turn turns rev"],
    ["µm", "\u00b5m \u03bcm um micron"],
    ["Ω", "\u03a9 \u2126 ohm"],
    ["°C", "°C degC ℃ ºC"],
    ["°F", "°F degF ℉"],
    ["in", "in inch inches"],
    ["thou", "thou mil"],
    ["L", "L l litre"],
    ["cm³", "cm³ cm3 cm^3 cc"],
    ["mm²", "mm² mm2 mm^2"],
    ["MPa", "MPa N/mm² N/mm2"],
    ["kgf/cm²", "kgf/cm² kgf/cm2 kg/cm2"],
    ["inH2O", "inH2O"],
    ["m³/h", "m³/h m3/h"],
    ["psi", "psi lbf/in² lb/in2"],
    ["day", "day days d"],
    ["US gal", "gal"],
  ])("%s is also written %s", (id, spellings) => {
    for (const spelling of spellings.split(" ")) expect(findUnit(spelling)?.id, spelling).toBe(id);
  });

  test.each([
    ["lb\u00a0ft", "lb·ft"],
    ["ft lbs", "lb·ft"],
    ["N m", "N·m"],
    ["US  fl oz", "US fl oz"],
    ["UK gal", "imp gal"],
  ])("%j, with spaces, is %s", (spelling, id) => {
    expect(findUnit(spelling)?.id).toBe(id);
  });

  test("marks of feet and inches are that where a length is wanted, minutes and seconds of angle elsewhere", () => {
    expect(["′", "″"].map((mark) => findUnit(mark, "length")?.id)).toEqual(["ft", "in"]);
    expect(["′", "″"].map((mark) => findUnit(mark, "angle")?.id)).toEqual(["′", "″"]);
    expect(["′", "″"].map((mark) => findUnit(mark)?.kind)).toEqual(["angle", "angle"]);
  });

  test("upper and lower case tell units apart", () => {
    expect(findUnit("mN·m")?.factor).toBe(1e-3);
    expect(findUnit("MN·m")).toBeUndefined();
    expect(findUnit("mΩ")?.factor).toBe(1e-3);
    expect(findUnit("MΩ")?.factor).toBe(1e6);
    expect(findUnit("K")?.kind).toBe("temperature");
    expect(findUnit("k")).toBeUndefined();
  });

  test.each(["", " ", "·", "constructor", "__proto__", "C", "F", "nm", "m·in", "min·", "½"])(
    "%j is no unit",
    (text) => {
      expect(findUnit(text)).toBeUndefined();
    },
  );

  test("a spelling means one unit, but for points and differences of temperature and the marks ′ and ″", () => {
    const owners = new Map<string, Set<string>>();
    for (const one of allUnits) {
      for (const spelling of [one.print, ...one.spellings].map(normaliseSpelling)) {
        owners.set(spelling, (owners.get(spelling) ?? new Set()).add(one.id));
      }
    }
    const shared = [...owners.values()].filter((ids) => ids.size > 1).map((ids) => [...ids].join("|"));
    expect(new Set(shared)).toEqual(
      new Set(["°C|°C difference", "°F|°F difference", "K|K difference", "′|ft", "″|in"]),
    );
  });

  test("every print spelling is already in its one form, and every id is its own", () => {
    for (const one of allUnits) expect(normaliseSpelling(one.print)).toBe(one.print);
    expect(new Set(allUnits.map((one) => one.id)).size).toBe(allUnits.length);
  });

  test("a wanted kind decides between a point and a difference", () => {
    expect(findUnit("°C")?.kind).toBe("temperature");
    expect(findUnit("°C", "temperature-difference")?.id).toBe("°C difference");
    expect(findUnit("°C", "torque")?.id).toBe("°C");
    expect(differenceUnit(unit("°F")).id).toBe("°F difference");
    expect(differenceUnit(unit("mm"))).toBe(unit("mm"));
  });
});

describe("readUnit", () => {
  test("takes as many words as the unit has", () => {
    expect(readUnit(["US", "fl", "oz", "of"])).toEqual({ unit: unit("US fl oz"), taken: 3 });
    expect(readUnit(["lb", "ft"])).toEqual({ unit: unit("lb·ft"), taken: 2 });
    expect(readUnit(["mm", "on", "thread"])).toEqual({ unit: unit("mm"), taken: 1 });
    expect(longestUnitWords).toBe(3);
  });

  test("a wanted kind keeps a following word out", () => {
    expect(readUnit(["lb", "in"])?.unit.id).toBe("lb·in");
    expect(readUnit(["lb", "in"], "mass")).toEqual({ unit: unit("lb"), taken: 1 });
    expect(readUnit(["lb", "in"], "time")?.unit.id).toBe("lb·in");
  });

  test("finds nothing in nothing", () => {
    expect(readUnit([])).toBeUndefined();
    expect(readUnit(["holes", "mm"])).toBeUndefined();
  });
});

describe("nearestUnit", () => {
  test.each([
    ["NM", "N·m"],
    ["nm", "N·m"],
    ["C", "°C"],
    ["f", "°F"],
    ["Kg", "kg"],
    ["KPA", "kPa"],
    ["lbs-foot", "lb·ft"],
    ["lbs.ft.", "lb·ft"],
    ["ftlbss", "lb·ft"],
    ["celsius", undefined],
    ["litr", "L"],
    ["minuts", "min"],
    ["degrse", "°"],
  ])("%j: %s", (text, id) => {
    expect(nearestUnit(text)?.id).toBe(id);
  });

  test("of equally near ones, that of the wanted kind", () => {
    expect(nearestUnit("mmm")?.id).toBe("mN·m");
    expect(nearestUnit("mmm", "length")?.id).toBe("mm");
    expect(nearestUnit("C", "temperature-difference")?.id).toBe("°C difference");
  });

  test.each(["", "x", "??", "holes", "constructor", "\ud800", "x".repeat(10_000)])(
    "%j is near nothing",
    (text) => {
      expect(nearestUnit(text)).toBeUndefined();
    },
  );
});
