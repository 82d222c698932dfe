/** How a belt runs: sides, wraps, teeth, directions, and every way it can be wrong. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  backPitchDiameter,
  beltPath,
  fitOf,
  isWhole,
  type Layout,
  lengthOfTeeth,
  lengthRange,
  meshFactor,
  type Pulley,
  pitchDiameter,
  type Repair,
  repairs,
  running,
} from "../../server/mechanics/belts";
import { seeded } from "../support/random";
import { pulley, ringOf, round } from "./belts-support";

/** A toothed belt, 8 mm pitch, round a crank and a pump sprocket, its back on a roller and on a tensioner. */
const toothed = (): Pulley[] => [
  pulley(0, 0, pitchDiameter("toothed", 24, 8), { teeth: 24 }),
  pulley(15, 130, 60, { side: "back" }),
  pulley(110, 240, pitchDiameter("toothed", 48, 8), { teeth: 48 }),
  pulley(100, 140, 55, { side: "back", travel: 10 }),
];
const square = (): Pulley[] => [
  pulley(0, 0, 60),
  pulley(0, 300, 80),
  pulley(300, 300, 60),
  pulley(300, 0, 100),
];
const soundPath = (layout: Layout) => {
  const { path } = beltPath(layout);
  if (!path?.sound) throw new Error("not sound");
  return path;
};
const swapped = (pulleys: Pulley[], a: number, b: number) =>
  pulleys.map((p, index) => (index === a ? pulleys[b] : index === b ? pulleys[a] : p) as Pulley);

describe("a sound path", () => {
  it("turns once in all: wraps inside less wraps of the back make a whole turn", () => {
    const random = seeded(5);
    for (let run = 0, sound = 0; sound < 300; run++) {
      const layout = ringOf(random, 4 + (run % 9));
      const { path } = beltPath(layout);
      if (!path?.sound) continue;
      sound++;
      const turned = path.wraps.reduce(
        (sum, wrap, index) => sum + (layout.pulleys[index]?.side === "inside" ? wrap.angle : -wrap.angle),
        0,
      );
      expect(turned).toBeCloseTo(2 * Math.PI, 9);
    }
  });

  it("meets every pulley at a right angle to its radius", () => {
    const layout = round(toothed());
    const path = soundPath(layout);
    for (const { from, to, start, end } of path.spans)
      for (const [index, point] of [
        [from, start],
        [to, end],
      ] as const) {
        const { centre, radius } = layout.pulleys[index] as Pulley;
        const [dx, dy] = [point.x - centre.x, point.y - centre.y];
        expect(Math.hypot(dx, dy)).toBeCloseTo(radius, 9);
        expect(dx * (end.x - start.x) + dy * (end.y - start.y)).toBeCloseTo(0, 6);
      }
  });

  it("has inner spans where the side changes, and half the teeth of two equal sprockets in mesh", () => {
    expect(soundPath(round(toothed())).spans.map((span) => span.outer)).toEqual([false, false, false, false]);
    const even = (x: number) => pulley(x, 0, pitchDiameter("toothed", 40, 5), { teeth: 40 });
    const path = soundPath(round([even(0), even(300)]));
    expect(path.wraps.map((wrap) => wrap.teethInMesh)).toEqual([20, 20]);
    expect(path.spans.map((span) => [span.outer, span.length])).toEqual([
      [true, 300],
      [true, 300],
    ]);
  });

  it("counts teeth in mesh by z(1/2 − (D − d)/(6C)), the handbooks' approximation, to a tenth", () => {
    const sprocket = (x: number, teeth: number) =>
      pulley(x, 0, pitchDiameter("toothed", teeth, 8), { teeth });
    const path = soundPath(round([sprocket(0, 22), sprocket(500, 60)]));
    const approximate = 22 * (1 / 2 - ((60 - 22) * 8) / Math.PI / (6 * 500));
    expect(path.wraps[0]?.teethInMesh).toBeCloseTo(approximate, 1);
  });

  it("is the same, mirrored and walked the other way", () => {
    const mirrored = toothed().map((p) => ({ ...p, centre: { x: -p.centre.x, y: p.centre.y } }));
    const path = soundPath(round(toothed()));
    expect(soundPath(round(mirrored, "anticlockwise")).length).toBeCloseTo(path.length, 9);
    expect(soundPath(round([...toothed()].reverse(), "anticlockwise")).length).toBeCloseTo(path.length, 9);
  });

  it("turns each pulley with its rim: the back of a belt turns a pulley against the others", () => {
    const path = soundPath(round(toothed()));
    expect(running(path, 0, "anticlockwise")).toEqual({
      travel: "backwards",
      turns: ["anticlockwise", "clockwise", "anticlockwise", "clockwise"],
    });
    expect(running(path, 1, "anticlockwise")?.travel).toBe("forwards");
    expect(running(path, 7, "clockwise")).toBeNull();
  });
});

describe("what is wrong with a path", () => {
  it("an order that makes spans cross", () => {
    const { path } = beltPath(round(swapped(square(), 1, 2)));
    expect(path?.sound).toBe(false);
    // The spans that leave and come to pulleys of their own come first; those that cross about one pulley follow.
    expect(path?.crossings[0]).toEqual([0, 2]);
  });

  it("the other way round than said", () => {
    const { path } = beltPath(round(square(), "anticlockwise"));
    expect([path?.sound, path?.otherWayThanSaid, path?.round]).toEqual([true, true, "clockwise"]);
    const unsaid = beltPath(round(square(), null)).path;
    expect([unsaid?.sound, unsaid?.otherWayThanSaid, unsaid?.round]).toEqual([true, false, "clockwise"]);
  });

  it("a pulley that the tight belt passes by, and how far off", () => {
    const inner = beltPath(round([...square().slice(0, 3), pulley(150, 100, 40), ...square().slice(3)])).path;
    expect(inner?.untouched.map((u) => u.pulley)).toEqual([3]);
    expect(inner?.sound).toBe(true);
    expect(inner?.wraps[3]).toMatchObject({ touched: false, angle: 0, arc: 0 });
    const without = soundPath(round(square()));
    expect(inner?.length).toBeCloseTo(without.length, 9);
    const away = beltPath(
      round([pulley(0, 0, 60), pulley(150, 90, 40, { side: "back" }), pulley(300, 0, 60)]),
    );
    expect(away.path?.untouched[0]?.pulley).toBe(1);
    expect(away.path?.untouched[0]?.gap).toBeCloseTo(90 - 20 - 30, 9);
  });

  it("a span that runs into a pulley it does not touch", () => {
    // The thick one between two thin ones stands in the way of the belt's return.
    const { path } = beltPath(round([pulley(0, 0, 40), pulley(200, 0, 120), pulley(400, 0, 40)]));
    expect(path?.sound).toBe(false);
    expect(path?.cuts.some((cut) => cut.pulley === 1)).toBe(true);
  });

  it.each<[string, Layout, Repair]>([
    ["two swapped", round(swapped(square(), 1, 2)), { kind: "swap", pulleys: [1, 2] }],
    [
      "inside for back",
      round([...square().slice(0, 2), pulley(150, 220, 60), ...square().slice(2)]),
      { kind: "side", pulley: 2 },
    ],
    [
      "back for inside",
      round(square().map((p, index) => (index === 1 ? { ...p, side: "back" } : p))),
      { kind: "side", pulley: 1 },
    ],
  ])("%s is what makes it whole again", (_, layout, repair) => {
    expect(isWhole(layout)).toBe(false);
    expect(repairs(layout)).toContainEqual(repair);
    expect(repairs(round(square()))).toEqual([]);
  });
});

describe("figures that make no path", () => {
  const bad = (more: Partial<Pulley>) => round([pulley(0, 0, 60), { ...pulley(200, 0, 60), ...more }]);
  it.each<[string, Layout, object]>([
    ["one pulley", round([pulley(0, 0, 60)]), { kind: "too-few", count: 1 }],
    [
      "thirteen",
      round(Array.from({ length: 13 }, (_, i) => pulley(i * 100, 0, 20))),
      { kind: "too-many", count: 13 },
    ],
    ["no diameter", bad({ radius: 0 }), { kind: "bad-figure", pulley: 1, figure: "diameter" }],
    ["a negative one", bad({ radius: -5 }), { kind: "bad-figure", pulley: 1, figure: "diameter" }],
    [
      "beyond measure",
      bad({ centre: { x: 1e308, y: 0 } }),
      { kind: "bad-figure", pulley: 1, figure: "centre" },
    ],
    [
      "no number",
      bad({ centre: { x: 0, y: Number.NaN } }),
      { kind: "bad-figure", pulley: 1, figure: "centre" },
    ],
    ["half a tooth", bad({ teeth: 20.5 }), { kind: "bad-figure", pulley: 1, figure: "teeth" }],
    ["negative travel", bad({ travel: -1 }), { kind: "bad-figure", pulley: 1, figure: "travel" }],
    ["one on the other", bad({ centre: { x: 0, y: 0 } }), { kind: "coincident", pulleys: [0, 1] }],
    ["one into the other", bad({ centre: { x: 50, y: 0 } }), { kind: "overlap", pulleys: [0, 1], by: 10 }],
    [
      "all by the back",
      round(square().map((p) => ({ ...p, side: "back" as const }))),
      { kind: "cannot-close", inside: 0 },
    ],
  ])("%s", (_, layout, problem) => {
    const found = beltPath(layout);
    expect(found.path).toBeNull();
    expect(found.problems).toContainEqual(problem);
    expect(isWhole(layout)).toBe(false);
  });

  const figure = fc.oneof(
    fc.constantFrom(0, -0, 1, -1, 1e-320, 1e308, -1e308, Number.NaN, Infinity, -Infinity, 1e-3, 100),
    fc.double({ min: -500, max: 500 }),
    fc.integer({ min: -300, max: 300 }),
  );
  const anyPulley = fc.record({
    centre: fc.record({ x: figure, y: figure }),
    radius: figure,
    side: fc.constantFrom<Pulley["side"]>("inside", "back"),
    teeth: fc.oneof(fc.constant(null), figure),
    travel: figure,
  });
  const likelyPulley = fc.record({
    centre: fc.record({ x: fc.integer({ min: 0, max: 12 }), y: fc.integer({ min: 0, max: 12 }) }),
    radius: fc.constantFrom(0.2, 0.5, 1),
    side: fc.constantFrom<Pulley["side"]>("inside", "inside", "back"),
    teeth: fc.constant(null),
    travel: fc.constantFrom(0, 0, 1, 5),
  });
  const way = fc.constantFrom<Layout["round"]>("clockwise", "anticlockwise", null);

  it.each([
    ["anything at all", anyPulley],
    ["on a grid, in line, touching", likelyPulley],
  ])("nonsense: %s gives a problem or finite figures, never an error", (_, one) => {
    fc.assert(
      fc.property(fc.array(one, { maxLength: 6 }), way, figure, (pulleys, said, length) => {
        const layout = { pulleys, round: said };
        const { path, problems } = beltPath(layout);
        expect(path === null).toBe(problems.length > 0);
        if (!path) return;
        const { shortest, middle, longest } = lengthRange(layout, path);
        const figures = [path.length, shortest, middle, longest, ...path.untouched.map((u) => u.gap)];
        for (const wrap of path.wraps) figures.push(wrap.angle, wrap.arc, wrap.from, wrap.to);
        for (const span of path.spans) figures.push(span.length, span.start.x, span.end.y);
        expect(figures.every(Number.isFinite)).toBe(true);
        expect(shortest <= middle && middle <= longest).toBe(true);
        const fit = fitOf(layout, path, length);
        if (fit?.kind === "fits") expect(Math.abs(fit.position)).toBeLessThanOrEqual(1);
        else if (fit) expect(fit.by).toBeGreaterThan(0);
      }),
      { seed: 7, numRuns: 400 },
    );
  });
});

describe("length and travel", () => {
  const layout = round(toothed());

  it("grows all along the travel, and a belt in between stands where it fits", () => {
    const path = soundPath(layout);
    const range = lengthRange(layout, path);
    expect(range.shortest).toBeLessThan(path.length);
    expect(range.longest).toBeGreaterThan(path.length);
    // The length grows by twice the sine of half the wrap for each millimetre towards the belt.
    const half = Math.sin((path.wraps[3]?.angle ?? 0) / 2);
    expect((range.longest - range.shortest) / (2 * 10 * half)).toBeCloseTo(1, 1);
    const fit = fitOf(layout, path, (path.length + range.longest) / 2);
    expect(fit?.kind === "fits" && fit.position > 0.3 && fit.position < 0.7).toBe(true);
  });

  it("says by how much a belt is too long or too short, beyond what is allowed", () => {
    const path = soundPath(layout);
    const { shortest, longest } = lengthRange(layout, path);
    expect(fitOf(layout, path, longest + 5)).toEqual({ kind: "too-long", by: expect.closeTo(5, 9) });
    expect(fitOf(layout, path, shortest - 3)).toEqual({ kind: "too-short", by: expect.closeTo(3, 9) });
    expect(fitOf(layout, path, longest + 5, 6)).toMatchObject({ kind: "fits" });
    expect([Number.NaN, 0, -1, Infinity].map((length) => fitOf(layout, path, length))).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });

  it("stops a tensioner where it would run into another pulley", () => {
    const tight = round([pulley(0, 0, 60), pulley(45, 120, 40, { travel: 500 }), pulley(90, 0, 50)]);
    const range = lengthRange(tight, soundPath(tight));
    expect(range.stopped).toBe(true);
    expect(Number.isFinite(range.shortest + range.longest)).toBe(true);
  });
});

describe("sizes", () => {
  // Pitch diameters of published tables: 8 mm pitch, 22 teeth 56.02 mm, 72 teeth 183.35 mm (timing pulley catalogues);
  // 1/2 in chain, 17 teeth 69.12 mm, 12.7 / sin(180°/17) (sprocket catalogues). From memory.
  it.each([
    ["toothed", 22, 8, 56.02],
    ["toothed", 72, 8, 183.35],
    ["chain", 17, 12.7, 69.12],
  ] as const)("%s, %d teeth of %d mm: %d mm", (kind, teeth, pitch, diameter) => {
    expect(pitchDiameter(kind, teeth, pitch)).toBeCloseTo(diameter, 2);
  });

  it("a back pulley's pitch line lies beyond its rim by part of the belt's thickness", () => {
    expect(backPitchDiameter("flat", 60, 4)).toBe(64);
    // A maker's table: H8M 6.0 mm thick, tooth 3.38, pitch line 0.686 above it: 1.934 mm from the back.
    expect((backPitchDiameter("toothed", 60, 6) - 60) / 2).toBeCloseTo(1.934, 0);
  });

  it("no size of figures that are none", () => {
    for (const figure of [0, -1, Number.NaN, Infinity])
      expect([
        pitchDiameter("toothed", figure, 8),
        pitchDiameter("chain", 20, figure),
        lengthOfTeeth(figure, 8),
        backPitchDiameter("vee", 60, figure),
      ]).toEqual([Number.NaN, Number.NaN, Number.NaN, Number.NaN]);
    expect(pitchDiameter("chain", 1, 12.7)).toBeNaN();
  });

  it("a belt on fewer than six teeth carries a fifth less for each", () => {
    expect([7, 6, 5.99, 5, 3, 1, 0, Number.NaN].map(meshFactor)).toEqual([
      1,
      1,
      expect.closeTo(0.8),
      expect.closeTo(0.8),
      expect.closeTo(0.4),
      0,
      0,
      0,
    ]);
  });
});
