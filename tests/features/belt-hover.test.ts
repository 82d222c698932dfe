/** What hovering a belt, chain or hose tells that is worked out: path, fit, spans, wrap, ratios, slack, bends. */
import { describe, expect, test } from "vitest";
import { marked, told } from "./support";

/** A machine of which these are the lines; the cursor is in them. */
const of = (lines: string): readonly string[] =>
  told(
    marked({
      "winch.torquil": `torquil 1\n\nmachine winch "Winch" {\n  view front "Looking at the belt"\n${lines}}\n`,
    }),
  );

const PULLEYS = `  part motor-pulley "Motor pulley"
  part drum-pulley "Drum pulley"
  part roller "Roller"
  shaft motor "Motor shaft"  turns clockwise
  shaft drum "Drum shaft"
`;
const belt = (lines: string): readonly string[] =>
  of(`${PULLEYS}  belt dri$0ve "Drive belt" {\n    ${lines.split("; ").join("\n    ")}\n  }\n`);
const found = (all: readonly string[], start: string): string =>
  all.find((sentence) => sentence.startsWith(start)) ?? "";

describe("a belt", () => {
  test("its path, held against published examples", () => {
    // "Find the length of belt necessary to drive a pulley of 500 mm diameter … 12 m … 1600 mm": textbook, 27.32 m.
    const textbook = belt(
      "flat; path clockwise; pulley motor-pulley  diameter 0.5 m  centre 0 m, 0 m; pulley drum-pulley  diameter 1.6 m  centre 12 m, 0 m",
    );
    const path = found(textbook, "By the places");
    expect(path).toContain("(89.6");
    expect(Number(/path is ([\d.]+) m /.exec(path)?.[1])).toBeCloseTo(27.32, 2);
    // Elementary Geometry for College Students, 8.4 exercise 40: radii 6 in, centres 20 in: 40 + 12π in.
    const inches = belt(
      "flat; path clockwise; pulley motor-pulley  diameter 12 in  centre 0 in, 0 in; pulley drum-pulley  diameter 12 in  centre 20 in, 0 in",
    );
    const length = Number(/path is ([\d.]+) in /.exec(found(inches, "By the places"))?.[1]);
    expect(length).toBeCloseTo(40 + 12 * Math.PI, 1);
  });

  test("spans, wrap, teeth in mesh, directions, ratio, and when the marks meet again", () => {
    const told = belt(
      "toothed; pitch 8 mm; teeth 75; path clockwise; pulley motor-pulley  teeth 20  centre 0 mm, 0 mm  on motor; pulley drum-pulley  teeth 40  centre 178 mm, 0 mm  on drum",
    );
    // Exact, two pulleys: 2√(C² − (R − r)²) + π(R + r) + 2(R − r)·asin((R − r)/C); wrap of the small one π − 2·asin((R − r)/C).
    const [r, R, c] = [(20 * 8) / (2 * Math.PI), (40 * 8) / (2 * Math.PI), 178];
    const turn = Math.asin((R - r) / c);
    const length = 2 * Math.sqrt(c ** 2 - (R - r) ** 2) + Math.PI * (R + r) + 2 * (R - r) * turn;
    const small = Math.round(((Math.PI - 2 * turn) * 180) / Math.PI);
    const teeth = Math.floor((20 * (Math.PI - 2 * turn)) / (2 * Math.PI));
    expect(told).toContain(
      `By the places of its pulleys the path is ${Math.round(length)} mm (23.62 in) long; its own length is 600 mm (23.62 in).`,
    );
    expect(told).toContain(
      `Spans: Motor pulley to Drum pulley ${Math.round(Math.sqrt(c ** 2 - (R - r) ** 2))} mm (6.93 in), Drum pulley to Motor pulley 176 mm (6.93 in).`,
    );
    expect(told).toContain(`Motor pulley: turns clockwise, ${small}° of belt on it, ${teeth} teeth in mesh.`);
    expect(found(told, "Drum pulley:")).toContain(`turns clockwise, ${360 - small}° of belt on it`);
    expect(told).toContain("One turn of Motor shaft turns Drum shaft by 1/2 turn, the same way.");
    // 75, 20 and 40 teeth: 600 is the least that all of them go into.
    expect(told).toContain(
      "Its printed marks meet those of its sprockets again when it has gone round 8 times: 30 turns of Motor shaft, 15 turns of Drum shaft.",
    );
  });

  const TENSIONED = (length: string): readonly string[] =>
    belt(
      `flat; ${length}path clockwise; pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm  on motor; pulley drum-pulley  diameter 100 mm  centre 300 mm, 0 mm  travel 20 mm`,
    );

  test("what a tensioner takes up: two equal pulleys are 2C + πd apart", () => {
    const middle = Math.round(600 + 100 * Math.PI);
    const [low, high] = [middle - 20, middle + 20];
    const all = TENSIONED("");
    expect(found(all, "By the places")).toContain(
      `path is ${middle} mm (36.0 in) long, ${low} to ${high} mm (`,
    );
    expect(found(all, "By the places")).toContain("over the travel of Drum pulley.");
    // The belt is 5 mm longer than in the middle: 2.5 mm of 20 further out.
    expect(found(TENSIONED(`length ${middle + 5} mm; `), "At its")).toMatch(
      /Drum pulley stands at 6[23] % of the travel from the slack end/,
    );
    expect(TENSIONED("length 1000 mm; ")).toContainEqual(expect.stringMatching(/^It is 6\d mm .* too long/));
    expect(TENSIONED("length 800 mm; ")).toContainEqual(expect.stringMatching(/^It is \d+ mm .* too short/));
  });

  test("the back of a belt turns its pulley the other way; a pulley that the belt misses is told", () => {
    const all = belt(
      "flat; path clockwise; pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm  on motor; pulley roller  diameter 60 mm  centre 150 mm, 30 mm  back of belt; pulley drum-pulley  diameter 100 mm  centre 300 mm, 0 mm",
    );
    expect(found(all, "Roller:")).toMatch(/^Roller: turns anticlockwise, \d+° of the belt’s back on it\.$/);
    const missed = belt(
      "flat; path clockwise; pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm  on motor; pulley roller  diameter 20 mm  centre 150 mm, 0 mm; pulley drum-pulley  diameter 100 mm  centre 300 mm, 0 mm",
    );
    expect(missed).toContain("Roller: the tight belt stands 40 mm (1.57 in) clear of it.");
  });

  test("what is missing is said where a path is begun, and nothing where none is", () => {
    const some = belt(
      "toothed; pitch 8 mm; teeth 75; pulley motor-pulley  teeth 20  centre 0 mm, 0 mm  on motor; pulley drum-pulley  teeth 40  on drum; pulley roller  diameter 20 mm",
    );
    expect(some).toContain(
      "Its path is not worked out: where or how large Drum pulley, Roller is, is not said.",
    );
    expect(some).toContain("One turn of Motor shaft turns Drum shaft by 1/2 turn, the same way.");
    const none = belt("ribbed; pulley motor-pulley; pulley drum-pulley");
    expect(none).toEqual(["belt drive", "Drive belt", "Runs round motor-pulley, drum-pulley."]);
    const unsaid = belt(
      "flat; path clockwise; pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm; pulley drum-pulley  diameter 100 mm  centre 300 mm, 0 mm",
    );
    expect(unsaid).toContain("Which way it runs is not said: no shaft on it says how it turns.");
  });

  test("where the figures leave no path it says so, and no figure", () => {
    const over = belt(
      "flat; pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm; pulley drum-pulley  diameter 100 mm  centre 60 mm, 0 mm",
    );
    expect(over.slice(3)).toEqual([
      "Its path is not worked out: the places and sizes as they are said leave none.",
    ]);
    const crossed = belt(
      "flat; path clockwise; pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm; pulley drum-pulley  diameter 100 mm  centre 300 mm, 0 mm  back of belt",
    );
    expect(crossed.slice(3)).toEqual([
      "Round its pulleys as they are said there is no path that crosses nothing and runs into nothing.",
    ]);
  });

  test("on the head word too, below what the word means; and a chain in links", () => {
    const head = of(
      `${PULLEYS}  cha$0in drive "Drive chain" {\n    pitch 12.7 mm\n    teeth 100\n    pulley motor-pulley  teeth 15  on motor\n    pulley drum-pulley  teeth 45  on drum\n  }\n`,
    );
    expect(head[0]).toBe("word of the language chain");
    expect(head).toContain("One turn of Motor shaft turns Drum shaft by 1/3 turn, the same way.");
    // 100, 15 and 45: 900.
    expect(head.at(-1)).toBe(
      "Its printed marks meet those of its sprockets again when it has gone round 9 times: 60 turns of Motor shaft, 20 turns of Drum shaft.",
    );
  });
});

describe("a hose, cable or wire", () => {
  const CLIPS = `  part switch "Switch"  centre 0 mm, 0 mm
  part lamp "Lamp"  centre 30 mm, 140 mm
  clip first "First clip"  centre 30 mm, 40 mm
  clip second "Second clip"  centre 30 mm, 90 mm
`;
  const hose = (lines: string, clips = CLIPS): readonly string[] =>
    of(`${clips}  hose dr$0ain "Drain hose" {\n    ${lines.split("; ").join("\n    ")}\n  }\n`);

  test("its way, the slack its length leaves, and its tightest bend", () => {
    // 3-4-5: 50 mm, then 50 and 50 straight up.
    const all = hose("from switch to lamp; through first, second; length 180 mm; slack 20 mm");
    expect(all.slice(2)).toEqual([
      "Runs from Switch to Lamp.",
      "Runs through First clip, Second clip.",
      "By the places of its clips and ends the way is 150 mm (5.9 in) long, straight from each to the next.",
      "Of its 180 mm (7.1 in) that leaves 30 mm (1.2 in) of slack, and 20 mm (0.8 in) is needed.",
      expect.stringMatching(/^It bends most tightly at First clip: \d+ mm \(.*\) at best\.$/),
    ]);
    expect(hose("from switch to lamp; through first, second; length 140 mm")).toContain(
      "Its 140 mm (5.5 in) is 10 mm (0.4 in) too short for that.",
    );
  });

  test("without places of the ends a part of the way; a clip without a place is named; without any nothing", () => {
    const open = hose("through first, second; length 180 mm", CLIPS.replace(/ {2}part .*\n/g, ""));
    expect(open.slice(3)).toEqual([
      "By the places of its clips the way from the first to the last is 50 mm (1.97 in) long, straight from each to the next.",
      "Its whole way is not worked out: where its ends lie is not said.",
    ]);
    const clip = hose(
      "through first, second",
      CLIPS.replace('"Second clip"  centre 30 mm, 90 mm', '"Second clip"'),
    );
    expect(clip).toContain("Its way is not worked out: where Second clip lies is not said.");
    const none = hose("through first, second", CLIPS.replace(/ {2}centre .*/g, ""));
    expect(none.slice(2)).toEqual(["Runs through First clip, Second clip."]);
  });
});
