/** Drawings in the sheet's blocks: which there are, where they stand, what they show and who refers to them. */
import { describe, expect, it } from "vitest";
import { LANGUAGES } from "../../server/phrases/sheet";
import type { Action, Drawing, Sheet, Step, Work } from "../../server/sheet/blocks";
import { textsIn } from "../../server/sheet/where";
import { all, exampleSheet, idsOf, sheetOf, small, text, works } from "./build-support";

const drawings = (sheet: Sheet): readonly Drawing[] => all(sheet, "drawing");

/** For each drawing: its caption, and the number of the step it stands in. */
function stands(sheet: Sheet): string[] {
  const inside = (work: Work | Step, step: string): string[] => {
    const here = "outcomes" in work ? work.number : step;
    const own = work.kind === "drawing" ? [`${work.number} in ${here}: ${text(work.caption)}`] : [];
    const body = "body" in work ? work.body : [];
    const outcomes = "outcomes" in work ? work.outcomes.flatMap((outcome) => outcome.body) : [];
    return [...own, ...[...body, ...outcomes].flatMap((one) => inside(one, here))];
  };
  return sheet.blocks.flatMap((one) =>
    one.kind === "section" ? one.blocks.flatMap((work) => inside(work, "")) : [],
  );
}

/** The sentences that refer to a drawing, by its number. */
function referring(sheet: Sheet, number: string): string[] {
  return all(sheet, "action")
    .filter(({ drawings: seen = [] }) => seen.some((ref) => ref.number === number))
    .map(({ sentence }) => text(sentence));
}

/** The lines of text in a drawing, no-break spaces as spaces. */
const lines = ({ svg }: Drawing): string[] => textsIn(svg).map((line) => line.replaceAll("\u00a0", " "));

/** The large numbers of a drawing from the left, then those of the next row. */
const bold = ({ svg }: Drawing): string[] =>
  [...svg.matchAll(/<text [^>]*text-anchor="middle" font-weight="bold">([^<]*)</g)].map(
    (match) => match[1] ?? "",
  );

const BELT = `part crank "Crank pulley"
part pump "Pump pulley"
part roller "Roller"
shaft crank-shaft "Crankshaft" turns clockwise
mark dot "Dot" on crank-shaft at 0° seen at 270°
mark notch "Notch" on pump
view front "Looking at the belt"
belt drive "Drive belt" {
  path clockwise
  pulley crank diameter 100 mm centre 0 mm, 0 mm on crank-shaft
  pulley roller diameter 50 mm centre 100 mm, 85 mm back of belt travel 8 mm
  pulley pump diameter 90 mm centre 220 mm, 40 mm
}`;

describe("a belt", () => {
  const steps = `step off "Off" {\nremove drive keep\n}
step on "On" {
  fit drive
  lay-on drive clockwise pump, crank, roller
}`;
  const sheet = sheetOf(small(BELT, "", steps));
  const [drawing] = drawings(sheet) as [Drawing];

  it("is drawn where it is laid on, and referred to wherever the job handles it", () => {
    expect(stands(sheet)).toEqual(["1 in 2: Drive belt: path"]);
    expect(referring(sheet, "1")).toHaveLength(3);
    expect(all(sheet, "action").every(({ drawings: seen }) => seen?.length === 1)).toBe(true);
  });

  it("has the numbers of the laying on, the way it travels, the sides and the view", () => {
    expect(bold(drawing)).toEqual(["2", "3", "1"]);
    expect(drawing.description).toMatch(
      /^Drive belt: path\. Looking at the belt\. Numbers: the order of laying on\./,
    );
    expect(drawing.description).toContain("2 Crank pulley (Mark: Dot, turns clockwise)");
    expect(drawing.description).toContain("3 Roller (back of belt, tensioner, turns anticlockwise)");
    expect(lines(drawing)).toContain("Looking at the belt. Scale 1 : 3 as printed.");
  });

  it("shows a mark where it is seen, and names one of which nobody says where", () => {
    expect(drawing.description).toContain("1 Pump pulley (Mark: Notch");
    expect(drawing.svg.match(/stroke-width="0.7"/g)).toHaveLength(1);
    expect(drawing.description).not.toContain("Triangle");
    expect(lines(drawing).join(" ")).toContain("Triangle: the mark");
  });

  it("without an order of laying on has the numbers of its path", () => {
    const [other] = drawings(sheetOf(small(BELT, "", `step off "Off" {\nremove drive\n}`))) as [Drawing];
    expect(bold(other)).toEqual(["1", "2", "3"]);
    expect(other.description).toContain("Numbers: the order of the path");
  });

  it("is not drawn where a place is missing, or the job does not handle it", () => {
    const placeless = BELT.replace("centre 220 mm, 40 mm", "");
    expect(drawings(sheetOf(small(placeless, "", steps)))).toEqual([]);
    expect(drawings(sheetOf(small(BELT, "", `step off "Off" {\nturn crank-shaft 1 turn\n}`)))).toEqual([]);
  });
});

const BOLTS = (lines: string): string => `part cover "Cover"
fastener bolts "Cover bolts" {
secures cover
${lines}
}`;
const ONE = `step on "On" {\ntighten bolts\n}`;
const of = (lines: string, steps = ONE): Sheet => sheetOf(small(BOLTS(lines), "", steps));

describe("a group of fasteners", () => {
  it("is numbered in the order it is tightened, with its stages beside", () => {
    const sheet = of("layout circle holes 1 to 4\ncrosswise\nstage snug 10 N·m\nstage full 22 N·m");
    const [drawing] = drawings(sheet) as [Drawing];
    expect(stands(sheet)).toEqual(["1 in 1: Cover bolts: order of tightening"]);
    expect(bold(drawing)).toEqual(["1", "3", "2", "4"]);
    expect(lines(drawing)).toEqual(
      expect.arrayContaining([
        "Each stage in this order:",
        "1  snug: 10 N·m (89 lb·in)",
        "2  full: 22 N·m (16 lb·ft)",
      ]),
    );
    expect(drawing.description).toContain("In this order, by hole: 1, 3, 2, 4.");
  });

  it("has a drawing for each order that its stages go in, and each act refers to its own", () => {
    const steps = `step a "A" {\ntighten bolts to snug\n}\nstep b "B" {\ntighten bolts\n}`;
    const facts =
      "layout circle holes 1 to 4\nstage snug 10 N·m  order 1, 2, 3, 4\nstage full 22 N·m  crosswise\nstage last 90°  crosswise";
    const sheet = of(facts, steps);
    expect(drawings(sheet).map(bold)).toEqual([
      ["1", "2", "3", "4"],
      ["1", "3", "2", "4"],
    ]);
    const [first, second] = all(sheet, "action") as [Action, Action];
    expect([first, second].map(({ drawings: seen = [] }) => seen.map(({ number }) => number))).toEqual([
      ["1"],
      ["2"],
    ]);
    expect(lines(drawings(sheet)[0] as Drawing)).toContain("snug: 10 N·m (89 lb·in)");
  });

  it("whose stages go in orders of their own says which, and has its boxes as the holes are counted", () => {
    const sheet = of(
      "layout circle holes 1 to 4\nstage snug 10 N·m  order 4, 3, 2, 1\nstage full 22 N·m  crosswise",
    );
    const [{ tightening, drawings: seen }] = all(sheet, "action") as [Action];
    expect(text(tightening?.order)).toBe("snug: 4, 3, 2, 1; full: crosswise: 1, 3, 2, 4");
    expect(tightening?.boxes).toEqual(["1", "2", "3", "4"]);
    expect(seen?.map(({ number }) => number)).toEqual(["1", "2"]);
  });

  it("loosened in another order has a drawing of that, in the same order the same one", () => {
    const steps = (order: string) => `step off "Off" {\nloosen bolts by 1/4 turn  order ${order}\n}\n${ONE}`;
    const lines = "layout row holes 1 to 3\nfrom the middle out\ntighten 22 N·m";
    expect(stands(of(lines, steps("1, 3, 2")))).toEqual([
      "1 in 1: Cover bolts: order of loosening",
      "2 in 2: Cover bolts: order of tightening",
    ]);
    const same = of(lines, steps("2, 1, 3"));
    expect(stands(same)).toEqual(["1 in 2: Cover bolts: order of tightening"]);
    expect(referring(same, "1")).toHaveLength(2);
  });

  it("lies as is said: from where and which way round, or in how many rows", () => {
    const at = ({ svg }: Drawing) =>
      [...svg.matchAll(/<text x="([\d.]+)" y="([\d.]+)"[^>]*bold">(\d)</g)].map((m) => ({
        x: Number(m[1]),
        y: Number(m[2]),
      }));
    const [right, top] = at(
      drawings(of("layout circle holes 1 to 4 first at 0° anticlockwise\ntighten 22 N·m"))[0] as Drawing,
    );
    expect(right && top && right.x > top.x && right.y > top.y).toBe(true);
    const grid = drawings(
      of("layout grid holes 1 to 6 in 2 rows\norder 2, 5, 1, 6, 3, 4\ntighten 22 N·m"),
    )[0] as Drawing;
    expect(bold(grid)).toEqual(["3", "1", "5", "6", "2", "4"]);
    const [one, , three, four] = at(grid);
    expect(one && three && four && one.y === three.y && four.y > one.y && four.x === one.x).toBe(true);
    expect(drawings(of("layout grid holes 1 to 6\norder 2, 5, 1, 6, 3, 4\ntighten 22 N·m"))).toEqual([]);
  });

  it("of which nobody says where the holes lie says so, and is in no view", () => {
    const note = (said: string) => lines(drawings(of(said))[0] as Drawing).join(" ");
    expect(note("layout circle holes 1 to 4\ncrosswise\ntighten 22 N·m")).toContain(
      "Where the holes lie is not said: hole 1 is drawn at the top",
    );
    expect(note("layout circle holes 1 to 4 first at 45°\ncrosswise\ntighten 22 N·m")).not.toContain(
      "is not said",
    );
  });

  it("without an order is drawn where its holes say something", () => {
    const captions = (said: string) => drawings(of(said)).map(({ caption }) => text(caption));
    const circle = "layout circle holes 1 to 4";
    expect(captions(`${circle}\ntighten 22 N·m`)).toEqual([]);
    expect(captions(`${circle} first at 45°\ntighten 22 N·m`)).toEqual(["Cover bolts: holes"]);
    expect(captions(`${circle}\nholes 1, 2, 4 length 25 mm\nholes 3 length 40 mm\ntighten 22 N·m`)).toEqual([
      "Cover bolts: holes",
    ]);
  });

  it("alone, or without places, has none", () => {
    expect(drawings(of("tighten 22 N·m"))).toEqual([]);
    expect(drawings(of("count 8\ncrosswise\ntighten 22 N·m"))).toEqual([]);
    expect(drawings(of("layout circle holes 1 to 1\ntighten 22 N·m"))).toEqual([]);
  });
});

describe("a run", () => {
  const machine = `view side "From the left"
part tank "Tank" centre 0 mm, 300 mm
part pump "Pump"
clip a "Upper clip" centre 90 mm, 200 mm
clip b "Lower clip" centre 160 mm, 60 mm
hose hose "Feed hose" {
  from tank to pump
  through a, b
  bend-radius at least 60 mm
  length 420 mm
  slack 20 mm
}`;
  const steps = `step on "On" {\nfit hose\nrun hose through a, b\n}`;

  it("has its clips in order, its ends where they are said, its bend, length and slack", () => {
    const sheet = sheetOf(small(machine, "", steps));
    expect(stands(sheet)).toEqual(["1 in 1: Feed hose: run"]);
    expect(referring(sheet, "1")).toHaveLength(2);
    const [drawing] = drawings(sheet) as [Drawing];
    expect(bold(drawing)).toEqual(["1", "2"]);
    expect(lines(drawing)).toEqual(expect.arrayContaining(["Tank", "Upper clip", "Lower clip"]));
    expect(lines(drawing)).not.toContain("Pump");
    expect(drawing.description).toBe(
      "Feed hose: run. From the left. Through the clips in this order: 1 Upper clip; 2 Lower clip. From Tank to Pump. Length: 420\u00a0mm (16.54\u00a0in). Bend radius: at least 60\u00a0mm (at least 2.36\u00a0in). Leave 20\u00a0mm (0.8\u00a0in) of slack.",
    );
  });

  it("through a clip that lies nowhere is not drawn", () => {
    expect(drawings(sheetOf(small(machine.replace("centre 160 mm, 60 mm", ""), "", steps)))).toEqual([]);
  });
});

describe("the examples", () => {
  const NAMES = ["marine-generator", "tractor", "trailer-hub", "forklift", "loader", "cargo-bike"];

  it("have their drawings at the place of the work, numbered through", () => {
    expect(NAMES.map((name) => stands(exampleSheet(name)))).toEqual([
      ["1 in 21: Injection-pump belt: path", "2 in 27: Coolant pipe bolts: order of tightening"],
      [
        "1 in 12: Rocker shaft bolts: order of loosening",
        "2 in 15: Cylinder head bolts: order of loosening",
        "3 in 30: Cylinder head bolts: order of tightening",
        "4 in 33: Rocker shaft bolts: order of tightening",
        "5 in 37: Exhaust manifold nuts: order of tightening",
      ],
      ["1 in 16: Wheel nuts: order of tightening"],
      [],
      ["1 in 14: Lift hose: run"],
      ["1 in 13: Chain: path"],
    ]);
  });

  it.each(LANGUAGES)(
    "have drawings in %s, with every id once and every reference to a drawing",
    (language) => {
      for (const name of NAMES) {
        const sheet = exampleSheet(name, { language });
        const ids = idsOf(sheet);
        expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
        const known = new Set(drawings(sheet).map(({ id }) => id));
        const refs = works(sheet).flatMap((work) => (work.kind === "action" ? (work.drawings ?? []) : []));
        expect(refs.filter(({ id }) => !known.has(id))).toEqual([]);
        for (const { id } of drawings(sheet)) expect(refs.some((ref) => ref.id === id)).toBe(true);
        for (const { svg, description } of drawings(sheet))
          expect(`${svg}${description}`).not.toMatch(/[{}]|undefined/);
      }
    },
  );
});
