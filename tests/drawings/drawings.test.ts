/** Drawings: sound SVG of the same bytes, to scale, with nothing over anything else, and a description that says it all. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type BeltPicture,
  beltDrawing,
  boltsDrawing,
  circlePlaces,
  type Drawing,
  gridPlaces,
  type Hole,
  rowPlaces,
  runDrawing,
} from "../../server/drawings";
import { isClear, placeLabels } from "../../server/drawings/labels";
import { scaleFor, scaleWords } from "../../server/drawings/scale";
import { widthOf, wrapped } from "../../server/drawings/text";
import { beltPath, type Pulley, pitchDiameter, running } from "../../server/mechanics/belts";
import { LANGUAGES } from "../../server/phrases/sheet";
import { pulley, ringOf, round } from "../mechanics/belts-support";
import { seeded } from "../support/random";

const toothed: Pulley[] = [
  pulley(0, 0, pitchDiameter("toothed", 24, 8), { teeth: 24 }),
  pulley(15, 130, 60, { side: "back" }),
  pulley(110, 240, pitchDiameter("toothed", 48, 8), { teeth: 48 }),
  pulley(100, 140, 55, { side: "back", travel: 10 }),
];

function belt(more: Partial<BeltPicture> = {}, pulleys = toothed): Drawing {
  const layout = round(pulleys);
  const { path } = beltPath(layout);
  if (!path) throw new Error("no path");
  return beltDrawing({
    title: "Pump belt",
    kind: "toothed",
    layout,
    path,
    running: running(path, 0, "anticlockwise"),
    names: ["Crank sprocket", "Guide roller", "Pump sprocket", "Tensioner"],
    laid: [1, 2, 3, 4],
    marks: [{ pulley: 0, title: "Dot to the arrow", angle: Math.PI / 2 }],
    view: "Looking at the guard",
    language: "en",
    ...more,
  });
}

/** Every tag closed in its order, and nothing that is not a figure. */
function expectSound({ svg, width, height, title, description }: Drawing) {
  const open: string[] = [];
  for (const [, end, name = "", self] of svg.matchAll(/<(\/?)([a-z]+)[^<>]*?(\/?)>/g)) {
    if (end) expect(open.pop()).toBe(name);
    else if (!self) open.push(name);
  }
  expect(open).toEqual([]);
  expect(svg.replace(/<(title|desc|text)[^>]*>[^<]*</g, "")).not.toMatch(
    /NaN|Infinity|undefined|null|\de-?\d/,
  );
  expect(svg).toContain(
    `<title>${title.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;")}</title>`,
  );
  expect(description.length).toBeGreaterThan(title.length);
  expect([width, height].every((size) => size > 0 && size <= 260)).toBe(true);
}

describe("the drawing of a belt", () => {
  it("is sound in every language, and the same bytes twice", () => {
    for (const language of LANGUAGES) {
      expectSound(belt({ language }));
      expect(belt({ language }).svg).toBe(belt({ language }).svg);
    }
    expect(new Set(LANGUAGES.map((language) => belt({ language }).description)).size).toBe(4);
  });

  it("says in words what it shows", () => {
    expect(belt().description).toBe(
      "Pump belt: path. Looking at the guard. Numbers: the order of laying on. In the order of the path, clockwise: 1 Crank sprocket (24 teeth, Mark: Dot to the arrow, turns anticlockwise); 2 Guide roller (back of belt, turns clockwise); 3 Pump sprocket (48 teeth, turns anticlockwise); 4 Tensioner (back of belt, tensioner, turns clockwise).",
    );
  });

  it("draws each pulley at the scale it states", () => {
    const { svg } = belt();
    const scale = 1 / Number(/Scale\s1\s:\s([\d.]+)/.exec(svg)?.[1]);
    const rims = [...svg.matchAll(/<circle [^>]*r="([\d.]+)"[^>]*stroke-width="0.3"[^>]*>/g)].map((m) =>
      Number(m[1]),
    );
    for (const { radius } of toothed)
      expect(rims.some((rim) => Math.abs(rim + 0.45 - radius * scale) < 0.011)).toBe(true);
  });

  it("shows no direction where none is known, and dashes what cannot be", () => {
    expect(belt({ running: null }).svg).not.toContain("direction of travel");
    const crossed = round([pulley(0, 0, 60), pulley(300, 300, 60), pulley(0, 300, 80), pulley(300, 0, 100)]);
    const { path } = beltPath(crossed);
    if (!path) throw new Error("no path");
    const drawn = belt({ layout: crossed, path, running: null, names: ["A", "B", "C", "D"], marks: [] });
    expect(drawn.svg).toContain('stroke-dasharray="2.4 1.6"');
    expect(drawn.description).toContain("does not work");
  });

  it("writes the writer's words as text, whatever they are", () => {
    const odd = `<b> & "x" \u0000\u0007 日本語`;
    const drawn = belt({ names: [odd, odd, odd, odd], title: odd, view: odd });
    expectSound({ ...drawn, title: drawn.title.replaceAll("\u0000", "").replaceAll("\u0007", "") });
    expect(drawn.svg).toContain("&lt;b&gt; &amp; &quot;x&quot;");
  });

  it("is sound for many layouts by chance", () => {
    const random = seeded(9);
    for (let run = 0; run < 60; run++) {
      const layout = ringOf(random, 3 + (run % 10));
      const { path } = beltPath(layout);
      if (!path) continue;
      const names = layout.pulleys.map((_, index) => `Pulley number ${index + 1} of the accessory drive`);
      expectSound(belt({ layout, path, running: running(path, 0, "clockwise"), names }));
    }
  });
});

describe("labels", () => {
  it("keep clear of pulleys, lines, edges and one another", () => {
    const random = seeded(12);
    let homeless = 0;
    for (let run = 0; run < 150; run++) {
      const { pulleys } = ringOf(random, 6 + (run % 6));
      const scale = scaleFor(pulleys, { width: 96, height: 105 });
      const circles = pulleys.map(({ centre, radius }) => ({
        centre: scale.place(centre, { x: 37, y: 14 }),
        radius: Math.max(2.6, radius * scale.factor),
      }));
      const lines = circles.map(({ centre }, index) => ({
        start: centre,
        end: circles[(index + 1) % circles.length]?.centre ?? centre,
      }));
      const frame = { centre: { x: 85, y: 67 }, halfWidth: 85, halfHeight: 67 };
      const wanted = circles.map(({ centre, radius }) => ({
        anchor: centre,
        reach: radius,
        width: 26,
        height: 7,
      }));
      const placed = placeLabels(wanted, { circles, lines, boxes: [] }, frame, { x: 85, y: 67 });
      const boxes = placed.flatMap((label) => (label ? [label.box] : []));
      homeless += placed.length - boxes.length;
      boxes.forEach((box, index) => {
        expect(isClear(box, { circles, lines, boxes: boxes.slice(0, index) })).toBe(true);
        expect(Math.abs(box.centre.x - 85) + box.halfWidth).toBeLessThanOrEqual(85);
      });
    }
    expect(homeless).toBeLessThan(30);
  });

  it("break between words, and lose the end of a word that is too long", () => {
    const lines = wrapped("Power steering pump pulley", 3.1, 30);
    expect(lines.join(" ")).toBe("Power steering pump pulley");
    expect(lines.every((own) => widthOf(own, 3.1) <= 30)).toBe(true);
    expect(wrapped("Keilrippenriemenspannrollenhalterung", 3.1, 30)[0]).toMatch(/…$/);
    expect(wrapped("  ", 3.1, 30)).toEqual([]);
  });
});

describe("scales", () => {
  it("are round, and the largest that fits", () => {
    const at = (size: number) => {
      const { factor } = scaleFor(
        [
          { centre: { x: 0, y: 0 }, radius: 0 },
          { centre: { x: size, y: 0 }, radius: 0 },
        ],
        { width: 100, height: 100 },
      );
      return scaleWords(factor);
    };
    expect([80, 100, 101, 230, 990, 12_000, 0].map(at)).toEqual([
      { way: "up", n: 1.25 },
      { way: "down", n: 1 },
      { way: "down", n: 1.25 },
      { way: "down", n: 2.5 },
      { way: "down", n: 10 },
      { way: "down", n: 125 },
      { way: "up", n: 5 },
    ]);
  });
});

describe("the drawing of a tightening order", () => {
  const picture = {
    title: "Cover bolts",
    holes: circlePlaces([1, 2, 3, 4]),
    order: [1, 3, 2, 4],
    schematic: true,
    onCircle: true,
    first: null,
    way: "tighten",
    stages: ["22 N·m"],
    notes: [],
    view: "",
    language: "en",
  } as const;

  it("numbers the holes by their turn, from the top, clockwise", () => {
    const drawn = boltsDrawing(picture);
    if (!drawn) throw new Error("no drawing");
    expectSound(drawn);
    expect(drawn.description).toBe(
      "Cover bolts: order of tightening. In this order, by hole: 1, 3, 2, 4. 22 N·m.",
    );
    const bold = [...drawn.svg.matchAll(/<text x="([\d.]+)" y="([\d.]+)"[^>]*bold">(\d)</g)].map((m) => [
      Number(m[1]),
      Number(m[2]),
      Number(m[3]),
    ]);
    const [top, right, bottom, left] = bold as [number[], number[], number[], number[]];
    expect([top[2], right[2], bottom[2], left[2]]).toEqual([1, 3, 2, 4]);
    expect((top[1] as number) < (bottom[1] as number) && (left[0] as number) < (right[0] as number)).toBe(
      true,
    );
  });

  it("draws steps only where none runs over a third hole", () => {
    const arrows = (order: number[]) =>
      boltsDrawing({ ...picture, holes: rowPlaces([1, 2, 3]), onCircle: false, order })?.svg.match(
        /<polygon/g,
      )?.length ?? 0;
    expect([arrows([1, 2, 3]), arrows([2, 1, 3])]).toEqual([2, 0]);
  });

  it("shrinks holes that lie close together, and blows none up", () => {
    const drawn = (holes: readonly Hole[], onCircle = false) => {
      const order = [...holes].reverse().map(({ number }) => number);
      const svg = boltsDrawing({ ...picture, holes, order, onCircle })?.svg ?? "";
      const circles = [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)" fill="#fff"/g)];
      return circles.map((m) => ({ x: Number(m[1]), y: Number(m[2]), r: Number(m[3]) }));
    };
    const numbers = (count: number) => Array.from({ length: count }, (_, index) => index + 1);
    for (const holes of [
      rowPlaces(numbers(20)),
      gridPlaces(numbers(36), 3),
      gridPlaces(numbers(14), 2),
      rowPlaces([1, 2]),
    ]) {
      const circles = drawn(holes);
      const gaps = circles.flatMap((a, index) =>
        circles.slice(index + 1).map((b) => Math.hypot(a.x - b.x, a.y - b.y) - a.r - b.r),
      );
      expect(circles).toHaveLength(holes.length);
      expect(Math.min(...gaps)).toBeGreaterThan(0.5);
      expect(Math.min(...gaps)).toBeLessThan(14);
    }
    expect(new Set(drawn(circlePlaces(numbers(12)), true).map(({ r }) => r))).toEqual(new Set([4.4]));
  });

  it("of no holes, or holes nowhere, is none", () => {
    expect(boltsDrawing({ ...picture, holes: [] })).toBeNull();
    expect(boltsDrawing({ ...picture, holes: [{ number: 1, at: { x: Number.NaN, y: 0 } }] })).toBeNull();
    for (const order of [[], [9, 9, 1], [1]]) {
      const drawn = boltsDrawing({ ...picture, order });
      if (drawn) expectSound(drawn);
    }
    const one = boltsDrawing({ ...picture, holes: circlePlaces([1]), order: [] });
    if (!one) throw new Error("no drawing");
    expectSound(one);
  });
});

describe("the drawing of a run", () => {
  it("is sound, with its clips in order", () => {
    const drawn = runDrawing({
      title: "Stop cable",
      places: [
        { name: "Bracket", at: { x: 0, y: 0 }, end: false },
        { name: "Upper clip", at: { x: 90, y: 120 }, end: false },
        { name: "Grommet", at: { x: 400, y: 60 }, end: false },
        { name: "Lever", at: { x: 430, y: -20 }, end: true },
      ],
      notes: ["Bend radius: at least 40 mm."],
      view: "Looking from the left.",
      language: "en",
    });
    if (!drawn) throw new Error("no drawing");
    expectSound(drawn);
    expect(drawn.description).toBe(
      "Stop cable: run. Looking from the left. Through the clips in this order: 1 Bracket; 2 Upper clip; 3 Grommet. Bend radius: at least 40 mm.",
    );
  });

  it("of nonsense is none or sound", () => {
    const figure = fc.oneof(
      fc.constantFrom(0, 1e308, Number.NaN, 1e-320, -1e8),
      fc.integer({ min: -9, max: 9 }),
    );
    fc.assert(
      fc.property(fc.array(fc.record({ x: figure, y: figure }), { maxLength: 5 }), (places) => {
        const clips = places.map((at, index) => ({ name: `Clip ${index}`, at, end: index % 3 === 2 }));
        const drawn = runDrawing({ title: "Hose", places: clips, notes: [], view: "", language: "en" });
        if (drawn) expectSound(drawn);
      }),
      { seed: 5, numRuns: 200 },
    );
  });
});
