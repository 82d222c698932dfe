/** The drawing of the ways: nothing over anything, all of its words, on as many pages as it takes; of procedures and of random rows. */
import { describe, expect, it } from "vitest";
import type { WaysBranch, WaysRow } from "../../server/drawings";
import { waysDrawings } from "../../server/drawings";
import { TYPE } from "../../server/drawings/svg";
import { widthOf } from "../../server/drawings/text";
import { CIRCLE } from "../../server/drawings/ways-lanes";
import { type WaysPage, WIDE } from "../../server/drawings/ways-lay";
import { layWays } from "../../server/drawings/ways-pages";
import { LABEL_LINE } from "../../server/drawings/ways-text";
import { jobOf, type Procedure, type Project } from "../../server/model";
import { LANGUAGES, type Language } from "../../server/phrases/sheet";
import { NO_DRAWINGS } from "../../server/sheet/build-context";
import { usesOf } from "../../server/sheet/build-uses";
import { flowIn, partingsIn } from "../../server/sheet/partings";
import { type Detail, WHOLE, waysPicture } from "../../server/sheet/ways-picture";
import { graphOf } from "../../server/walk";
import { cleanExamples } from "../support/examples";
import { projectOf } from "../support/project";
import { below, pick, type Random, seeded } from "../support/random";
import { MACHINE, makeProgram } from "../walk/programs";

const COUNT = Number(process.env.TORQUIL_PROGRAMS ?? 60);
const SEED = Number(process.env.TORQUIL_SEED ?? 20_260_419);
const TALLEST = 212;

function pictureOf(
  project: Project,
  procedure: Procedure,
  language: Language = "en",
  detail: Detail = WHOLE,
) {
  const job = jobOf(project, procedure);
  const build = {
    project,
    job,
    uses: usesOf(job),
    drawings: NO_DRAWINGS,
    language,
    paper: "letter" as const,
    units: "both" as const,
    draft: false,
    pictures: () => undefined,
  };
  const pieces = flowIn(job, graphOf(procedure));
  return { picture: waysPicture(build, pieces, detail), places: partingsIn(pieces) };
}

interface Box {
  readonly what: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function boxesOf({ shapes, labels, connectors }: WaysPage): Box[] {
  return [
    ...shapes.map((shape) => ({ ...shape, what: shape.text.map(({ words }) => words).join(" ") })),
    ...labels.map(({ at, width, lines }) => ({
      what: lines.join(" "),
      x: at.x,
      // From the top of the first line to its base line; what reaches below it is slight.
      y: at.y - (lines.length - 1) * LABEL_LINE - TYPE.note * 0.8,
      width,
      height: (lines.length - 1) * LABEL_LINE + TYPE.note * 0.8,
    })),
    ...connectors.map(({ at, words }) => ({
      what: words,
      x: at.x - CIRCLE,
      y: at.y - CIRCLE,
      width: 2 * CIRCLE,
      height: 2 * CIRCLE,
    })),
  ];
}

const over = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width - 0.01 &&
  b.x < a.x + a.width - 0.01 &&
  a.y < b.y + b.height - 0.01 &&
  b.y < a.y + a.height - 0.01;

/** The straight pieces of the lines of a page, as boxes without thickness. */
const piecesOf = ({ lines }: WaysPage): Box[] =>
  lines.flatMap(({ points }) =>
    points.slice(1).map((to, i) => {
      const from = points[i] as { x: number; y: number };
      return {
        what: "line",
        x: Math.min(from.x, to.x),
        y: Math.min(from.y, to.y),
        width: Math.abs(from.x - to.x),
        height: Math.abs(from.y - to.y),
      };
    }),
  );

/** Whether a straight piece runs through a box, and not only along it or up to it. */
const through = (line: Box, box: Box): boolean =>
  line.x < box.x + box.width - 0.02 &&
  line.x + line.width > box.x + 0.02 &&
  line.y < box.y + box.height - 0.02 &&
  line.y + line.height > box.y + 0.02;

function expectClear(rows: readonly WaysRow[], context: string): readonly WaysPage[] {
  const pages = layWays(rows, TALLEST);
  expect(pages.flatMap((page) => page.rows)).toEqual(rows);
  for (const page of pages) {
    const boxes = boxesOf(page);
    boxes.forEach((box, i) => {
      expect(
        box.x >= 0 && box.x + box.width <= WIDE + 0.01,
        `out of the sides: ${box.what}\n${context}`,
      ).toBe(true);
      expect(box.y >= 0 && box.y + box.height <= page.height + 0.01, `out: ${box.what}\n${context}`).toBe(
        true,
      );
      const met = boxes.slice(0, i).find((other) => over(box, other));
      expect(met?.what, `over: ${box.what}\n${context}`).toBeUndefined();
    });
    for (const line of piecesOf(page)) {
      const hit = boxes.find((box) => through(line, box));
      expect(hit?.what, `a line runs through it\n${context}`).toBeUndefined();
      expect(line.x + line.width <= WIDE + 0.01 && line.y + line.height <= page.height + 0.01).toBe(true);
    }
    for (const { text, width } of page.shapes)
      for (const { words, strong } of text)
        expect(widthOf(words, TYPE.note * (strong ? 1.08 : 1))).toBeLessThanOrEqual(width);
    if (page.rows.length > 1) expect(page.height).toBeLessThanOrEqual(TALLEST);
  }
  return pages;
}

function procedures(): { readonly project: Project; readonly procedure: Procedure }[] {
  const project = projectOf(Object.fromEntries(cleanExamples().map(({ path, text }) => [path, text])));
  return [...project.files.values()].flatMap((file) =>
    file.procedures.filter(({ doubtful }) => !doubtful).map((procedure) => ({ project, procedure })),
  );
}

describe("of procedures", () => {
  it("has nothing over anything, in every language, and a question for every place where the ways part", () => {
    let drawn = 0;
    for (const { project, procedure } of procedures()) {
      for (const language of LANGUAGES) {
        const { picture, places } = pictureOf(project, procedure, language);
        expectClear(picture.rows, `${procedure.thing.name} ${language}`);
        const wordy = places.filter(
          ({ of, answers }) => of === "condition" && answers.every((a) => a.pieces.length === 0),
        );
        if (picture.rows.length > 0) {
          expect(questionsIn(picture.rows), procedure.thing.name).toBe(places.length - wordy.length);
          drawn++;
        }
      }
    }
    expect(drawn).toBeGreaterThan(20);
  });

  it("is sound, says in words what it shows, and is the same bytes twice", () => {
    for (const { project, procedure } of procedures()) {
      const { picture } = pictureOf(project, procedure);
      const drawings = waysDrawings(picture);
      expect(drawings.map(({ svg }) => svg)).toEqual(waysDrawings(picture).map(({ svg }) => svg));
      for (const { svg, description, title } of drawings) {
        expect(svg).not.toMatch(/NaN|Infinity|undefined|\sid=/);
        expect(description.startsWith(title)).toBe(true);
      }
      const told = drawings.map(({ description }) => description).join(" ");
      for (const row of picture.rows) expect(told).toContain(row.head);
    }
  });

  it(`has nothing over anything for ${COUNT} random procedures`, () => {
    const random = seeded(SEED);
    const seen = { pages: 0, connectors: 0, nested: 0 };
    for (let i = 0; i < COUNT; i++) {
      const { text } = makeProgram(random, 3 + (i % 10));
      const project = projectOf({ "job.torquil": text, "winch.torquil": MACHINE });
      const procedure = project.files.get("job.torquil")?.procedures[0] as Procedure;
      for (const detail of [WHOLE, { briefly: true, deepest: 1 }]) {
        const { picture } = pictureOf(project, procedure, "en", detail);
        const pages = expectClear(picture.rows, text);
        if (pages.length > 1) seen.pages++;
        seen.connectors += pages.reduce((sum, { connectors }) => sum + connectors.length, 0);
        if (
          picture.rows.some(
            (row) => row.kind === "question" && row.branches.some(({ rows }) => questionsIn(rows) > 0),
          )
        )
          seen.nested++;
      }
    }
    expect(seen.pages).toBeGreaterThan(COUNT / 20);
    expect(seen.connectors).toBeGreaterThan(0);
    expect(seen.nested).toBeGreaterThan(COUNT / 10);
  });
});

const questionsIn = (rows: readonly WaysRow[]): number =>
  rows.reduce(
    (sum, row) =>
      row.kind === "question"
        ? sum + 1 + row.branches.reduce((all, { rows: own }) => all + questionsIn(own), 0)
        : sum,
    0,
  );

describe("of random rows", () => {
  it("has nothing over anything, however long its words and however many its answers", () => {
    const random = seeded(77);
    for (let i = 0; i < 60; i++) expectClear(randomRows(random, 4 + below(random, 12), 0, []), `run ${i}`);
  });
});

const WORDS = [
  "Fit",
  "the",
  "Keilrippenriemenspannrollenhalterung",
  "cover",
  "and",
  "tighten",
  "日本語",
  "22 N·m",
  "W",
];

const phrase = (random: Random, most: number): string =>
  Array.from({ length: 1 + below(random, most) }, () => pick(random, WORDS)).join(" ");

/** Rows with answers in answers; any may lead to any row of the outermost flow, before or behind. */
function randomRows(random: Random, count: number, depth: number, targets: readonly string[]): WaysRow[] {
  const ids = Array.from({ length: count }, (_, i) => `${depth === 0 ? "row" : `deep ${random()}`} ${i}`);
  const known = depth === 0 ? ids : targets;
  return ids.map((id, i): WaysRow => {
    const own = { id, head: phrase(random, 6), lines: [phrase(random, 30)] };
    if (below(random, 3) > 0 || depth === 2) return { kind: "run", ...own, foot: phrase(random, 5) };
    const branches = Array.from({ length: 1 + below(random, 4) }, () => randomBranch(random, depth, known));
    // Somewhere the way must go on.
    const isLast = i === count - 1;
    const straight = below(random, 4) > 0 || isLast ? phrase(random, 4) : null;
    return { kind: "question", ...own, straight, branches };
  });
}

function randomBranch(random: Random, depth: number, targets: readonly string[]): WaysBranch {
  const rows = randomRows(random, 1 + below(random, 2), depth + 1, targets);
  const label = phrase(random, 4);
  const choice = below(random, 3);
  if (choice === 0)
    return {
      label,
      rows: [...rows, { kind: "end", id: "end", head: "End", lines: [phrase(random, 9)] }],
      leads: { kind: "end" },
    };
  if (choice === 1) return { label, rows, leads: { kind: "on" } };
  return { label, rows, leads: { kind: "to", to: pick(random, targets), number: `${below(random, 200)}` } };
}
