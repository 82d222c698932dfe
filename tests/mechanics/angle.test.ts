/** Torque, then angle: stiffness against a textbook's worked example, the answers against their own bounds. */
import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { type AngleSaid, angleStage } from "../../server/mechanics/angle";
import { exactly, holds, scaled } from "../../server/mechanics/range";
import { boltResilience, coneResilience, jointResilience } from "../../server/mechanics/resilience";
import { type Bolt, boltOf, preloadOf } from "../../server/mechanics/tightening";
import { boltClass, offBy, thread } from "./bolts";

const degrees = (angle: number): number => (angle * Math.PI) / 180;

describe("a worked example of machine design: M14 x 2 through two 15 mm steel plates, E = 207 GPa", () => {
  // Solution as published with the textbook's exercise: bolt 874.62 MN/m (grip alone, 11 mm of shank), plates 3116.45 MN/m (frusta
  // of 30° from a washer face of 1.5 d).
  test("the plates give 1 / 3116.45 MN/m", () => {
    const found = coneResilience(0.021, 0.014, 0.03, Math.tan(degrees(30)), 207e9);
    expect(offBy(1 / found / 1e6, 3116.45)).toBeLessThan(0.001);
  });

  test("the bolt's 874.62 MN/m lies within the bounds for that grip", () => {
    expect(holds(boltResilience(thread("M14"), exactly(0.03), false), 1 / 874.62e6)).toBe(true);
  });

  test("the plates' 3116.45 MN/m lies within the bounds for steel under that face", () => {
    const ring = { outer: exactly(0.021), hole: exactly(0.014), mean: exactly(0.0175), standard: true };
    expect(holds(jointResilience(ring, exactly(0.03), "steel"), 1 / 3116.45e6)).toBe(true);
  });
});

const said = (angle: number, more: Partial<AngleSaid> = {}): AngleSaid => ({
  torque: exactly(40),
  angle: degrees(angle),
  ...more,
});
const headBolt = (name: string | null = "10.9"): Bolt =>
  boltOf({
    thread: thread("M12 x 1.25"),
    boltClass: name === null ? null : boltClass(name),
    state: "oiled",
    lubricated: "thread-and-head",
    head: "hexagon",
  });

describe("an angle stage", () => {
  test("adds what pitch and stiffness give: twice the angle, twice the gain", () => {
    const [one, two] = [30, 60].map((angle) =>
      angleStage(headBolt(), said(angle, { grip: 0.1, joint: "iron" })),
    );
    expect(two?.gain.low).toBeCloseTo(2 * (one?.gain.low ?? 0), 3);
    expect(two?.gain.high).toBeCloseTo(2 * (one?.gain.high ?? 0), 3);
    // Drawn in by 60° of 1.25 mm, 0.208 mm, on a bolt of 100 mm whose own stretch is 3.6 to 5.5 nm/N (l / E A of shank and of root).
    expect(two?.gain.high).toBeLessThan(0.2083e-3 / (0.1 / (212e9 * 113.1e-6)));
    expect(two?.before).toEqual(preloadOf(headBolt(), exactly(40))?.force);
  });

  it.each([
    ["10.9", 60, 0.1, "no"],
    ["10.9", 180, 0.03, "yes"],
    ["10.9", 90, 0.1, "cannot-tell"],
    ["8.8", 180, 0.05, "yes"],
    ["8.8", 20, 0.1, "no"],
    ["A2-70", 360, 0.03, "cannot-tell"],
  ] as const)("%s turned %d° on %d m of iron: %s", (name, angle, grip, yields) => {
    const found = angleStage(headBolt(name), said(angle, { grip, joint: "iron" }));
    expect(found?.yields).toBe(yields);
    expect(found?.assumed).toEqual(["wide-metal-parts"]);
  });

  test("a bolt that yields holds no more than the strongest of its class", () => {
    const found = angleStage(headBolt(), said(720, { grip: 0.03, joint: "steel" }));
    expect(found?.after.high).toBe(found?.yieldsAt?.high);
    expect(found?.after.low).toBe(found?.yieldsAt?.low);
  });

  test("without the clamped length the gain is bounded and the assumption named", () => {
    const [known, unknown] = [said(60, { grip: 0.1, joint: "iron" }), said(60)].map((s) =>
      angleStage(headBolt(), s),
    );
    expect(unknown?.gain.low).toBeLessThan(known?.gain.low ?? 0);
    expect(unknown?.gain.high).toBeGreaterThan(known?.gain.high ?? 0);
    expect(unknown?.yields).toBe("cannot-tell");
    expect(unknown?.assumed).toEqual(["wide-metal-parts", "grip-unknown", "joint-material-unknown"]);
  });

  test("no bolt holds more than the strongest there is, whatever the angle and with no class said", () => {
    // M12 x 1.25, 92.1 mm² (ISO 965-1 table), at most 1405 MPa: 129 kN without torsion.
    const found = angleStage(headBolt(null), said(720));
    expect(found?.after.high).toBeLessThan(92.1e-6 * 1405e6 * 1.001);
    expect(found?.after.low).toBeLessThanOrEqual(found?.after.high ?? 0);
    // A2-70, 700 MPa at least, 1.6 times that at most.
    const stainless = angleStage(headBolt("A2-70"), said(720, { grip: 0.03 }));
    expect(stainless?.after.high).toBeLessThan(92.1e-6 * 1120e6 * 1.001);
  });

  test("without a class nothing is said of yield", () => {
    expect(angleStage(headBolt(null), said(90, { grip: 0.1 }))).toMatchObject({
      yields: "cannot-tell",
      yieldsAt: null,
    });
  });

  test("yes and no never change to the other when less is known", () => {
    const cases = fc.record({
      angle: fc.double({ min: 1, max: 720, noNaN: true }),
      grip: fc.double({ min: 0.012, max: 0.24, noNaN: true }),
      torque: fc.double({ min: 5, max: 120, noNaN: true }),
      joint: fc.constantFrom("steel", "iron", "aluminium" as const),
      name: fc.constantFrom("5.6", "8.8", "10.9", "12.9"),
    });
    fc.assert(
      fc.property(cases, ({ angle, grip, torque, joint, name }) => {
        const all = [{ grip, joint }, { grip }, { joint }, {}].map((known) =>
          angleStage(headBolt(name), {
            torque: exactly(torque),
            angle: degrees(angle),
            ...known,
          } as AngleSaid),
        );
        const verdicts = new Set(all.map((one) => one?.yields));
        expect(verdicts.has("yes") && verdicts.has("no")).toBe(false);
        for (const one of all) {
          const least = one && scaled(one.after, 1 - 1e-9).low <= one.after.high;
          expect(least).toBe(true);
        }
      }),
    );
  });
});
