/** Lengths of belts and chains: published worked examples, the exact two-pulley formula, and two methods of other kinds. */
import { describe, expect, it } from "vitest";
import { beltPath, isWhole, pitchDiameter } from "../../server/mechanics/belts";
import { seeded } from "../support/random";
import { apart, hullPerimeter, pulley, ringOf, round, sampledLength } from "./belts-support";

const lengthOf = (layout: Parameters<typeof beltPath>[0]) => beltPath(layout).path?.length ?? Number.NaN;
const open = (d: number, e: number, centres: number) =>
  lengthOf(round([pulley(0, 0, d), pulley(centres, 0, e)]));
const crossed = (d: number, e: number, centres: number) =>
  lengthOf(round([pulley(0, 0, d), pulley(centres, 0, e, { side: "back" })]));

describe("published worked examples", () => {
  it.each([
    // "Find the length of belt necessary to drive a pulley of 500 mm diameter … 12 m … 1600 mm": textbook, 27.32 m.
    ["open, 1.6 m and 0.5 m at 12 m", open(1600, 500, 12_000), 27_320, 5],
    // A practice test's belt wrapped two thirds round 5 in and one third round 1 in, centres 8 in: 22π/3 + 8√3 in.
    ["open, radii 5 and 1 at 8", open(10, 2, 8), (22 / 3) * Math.PI + 8 * Math.sqrt(3), 1e-9],
    // A contest problem, radii 6 and 1, centres 13: 2(12 + 6π − 5 arctan 12/5) = 49.939 059 772 127 52.
    ["open, radii 6 and 1 at 13", open(12, 2, 13), 49.93905977212752, 1e-9],
    // Elementary Geometry for College Students, 8.4 exercise 40: radii 6 in, centres 20 in: 40 + 12π in.
    ["open, equal radii 6 at 20", open(12, 12, 20), 40 + 12 * Math.PI, 1e-9],
    // Pulleys 450 mm and 200 mm, 1.95 m apart, crossed: 4.975 m (textbook on the theory of machines; answer from memory).
    ["crossed, 0.45 m and 0.2 m at 1.95 m", crossed(450, 200, 1950), 4975, 1],
    // A college's sample question, crossed, 18 cm and 12 cm, 30 cm apart; sin of the half-angle is 1/2: 30√3 + 20π cm.
    ["crossed, 18 and 12 at 30", crossed(18, 12, 30), 30 * Math.sqrt(3) + 20 * Math.PI, 1e-9],
  ])("%s", (_, found, published, within) => {
    expect(Math.abs(found - published)).toBeLessThan(within);
  });

  it("three pulleys 2 ft across, centres 6, 9 and 13 ft apart: 28 + 2π ft (a puzzle page's solution)", () => {
    const x = (13 ** 2 + 6 ** 2 - 9 ** 2) / (2 * 13);
    const found = lengthOf(
      round([pulley(0, 0, 2), pulley(13, 0, 2), pulley(x, Math.sqrt(36 - x * x), 2)], null),
    );
    expect(found).toBeCloseTo(28 + 2 * Math.PI, 9);
  });

  it("the wrap of a crossed belt, 199° (the same textbook example, from memory)", () => {
    const { path } = beltPath(round([pulley(0, 0, 450), pulley(1950, 0, 200, { side: "back" })]));
    const degrees = path?.wraps.map((w) => (w.angle * 180) / Math.PI) ?? [];
    expect(degrees[0]).toBeCloseTo(199.2, 1);
    expect(degrees[1]).toBeCloseTo(199.2, 1);
    expect(path?.crossings).toEqual([[0, 1]]);
  });

  it("a chain over 20 and 63 teeth, 36 pitches apart: 114.8 pitches (a worked design example)", () => {
    const sprocket = (x: number, teeth: number) =>
      pulley(x, 0, pitchDiameter("chain", teeth, 1), { teeth, around: teeth });
    expect(Math.abs(lengthOf(round([sprocket(0, 20), sprocket(36, 63)])) - 114.8)).toBeLessThan(0.05);
  });

  it("chains by the makers' formula 2C + (N + n)/2 + (N − n)²/(4π²C), in pitches", () => {
    const random = seeded(11);
    for (let run = 0; run < 300; run++) {
      const [n, m] = [17 + Math.floor(random() * 20), 30 + Math.floor(random() * 60)];
      const centres = 40 + random() * 40;
      const sprocket = (x: number, teeth: number) =>
        pulley(x, 0, pitchDiameter("chain", teeth, 1), { teeth, around: teeth });
      const formula = 2 * centres + (n + m) / 2 + (m - n) ** 2 / (4 * Math.PI ** 2 * centres);
      const found = lengthOf(round([sprocket(0, n), sprocket(centres, m)]));
      expect(Math.abs(found - formula) / formula).toBeLessThan(2e-4);
    }
  });
});

describe("the exact formula for two pulleys", () => {
  it("agrees over random cases, open and crossed, to a part in 10¹²", () => {
    const random = seeded(1);
    let worst = 0;
    for (let run = 0; run < 5000; run++) {
      const [a, b] = [1 + 400 * random(), 1 + 400 * random()];
      const centres = (a + b) * (1.0001 + 5 * random());
      const angle = 2 * Math.PI * random();
      const far = (side: "inside" | "back") =>
        lengthOf(
          round(
            [
              pulley(0, 0, 2 * a),
              pulley(centres * Math.cos(angle), centres * Math.sin(angle), 2 * b, { side }),
            ],
            run % 2 === 0 ? "clockwise" : "anticlockwise",
          ),
        );
      const exact = (sum: number) =>
        2 * Math.sqrt(centres ** 2 - sum ** 2) + Math.PI * (a + b) + 2 * sum * Math.asin(sum / centres);
      worst = Math.max(
        worst,
        Math.abs(far("inside") / exact(a - b) - 1),
        Math.abs(far("back") / exact(a + b) - 1),
      );
    }
    expect(worst).toBeLessThan(1e-12);
  });
});

describe("many pulleys against other methods", () => {
  it("all inside: the integral of the support function, 2000 layouts of 3 to 12, to a part in 100,000", () => {
    const random = seeded(2);
    let worst = 0;
    let sound = 0;
    for (let run = 0; run < 2000; run++) {
      const placed = apart(random, 3 + (run % 10));
      const [cx, cy] = [
        placed.reduce((s, p) => s + p.centre.x, 0) / placed.length,
        placed.reduce((s, p) => s + p.centre.y, 0) / placed.length,
      ];
      placed.sort(
        (p, q) => Math.atan2(p.centre.y - cy, p.centre.x - cx) - Math.atan2(q.centre.y - cy, q.centre.x - cx),
      );
      const { path } = beltPath(round(placed, "anticlockwise"));
      // Where the hull touches one circle twice, as a thick one between two thin ones, no belt round each once is sound.
      if (!path?.sound) continue;
      sound++;
      worst = Math.max(worst, Math.abs(path.length / hullPerimeter(placed) - 1));
    }
    expect(worst).toBeLessThan(1e-5);
    expect(sound).toBeGreaterThan(1980);
  });

  it("inside and back: lines tried over polygons, 2000 layouts of 4 to 12, to a part in 100,000", () => {
    const random = seeded(3);
    let worst = 0;
    let compared = 0;
    for (let run = 0; compared < 2000; run++) {
      const layout = ringOf(random, 4 + (run % 9));
      if (!isWhole(layout) || layout.pulleys.every((p) => p.side === "inside")) continue;
      compared++;
      worst = Math.max(worst, Math.abs(lengthOf(layout) / sampledLength(layout) - 1));
    }
    expect(worst).toBeLessThan(1e-5);
  });
});
