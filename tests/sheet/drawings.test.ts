/** Drawings in the sheet's outputs: one SVG for all of them, told in words, in black and white, nothing over anything else. */
import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { widthOf } from "../../server/drawings/text";
import { barsOf, compareRevisions, lineKey } from "../../server/features/compare";
import { LANGUAGES } from "../../server/phrases/sheet";
import type { Drawing, Sheet } from "../../server/sheet/blocks";
import { buildSheet } from "../../server/sheet/build";
import { markChanged } from "../../server/sheet/changed";
import { renderHtml } from "../../server/sheet/html";
import { renderPdf, type Typesetter } from "../../server/sheet/pdf";
import { renderPreview } from "../../server/sheet/preview";
import { projectOf } from "../support/project";
import { all, exampleSheet, procedureIn, sheetOf, small, text } from "./build-support";
import { readBack } from "./reader";
import { pdfOf, typesetter } from "./typesetter";

const NAMES = ["marine-generator", "tractor", "trailer-hub", "loader", "cargo-bike"];
/** The drawings at the place of the work. */
const drawings = (sheet: Sheet): readonly Drawing[] => all(sheet, "drawing");

/** Those of the ways at the end as well, in the order of the sheet. */
const everyDrawing = (sheet: Sheet): readonly Drawing[] => [
  ...drawings(sheet),
  ...sheet.blocks.flatMap((block) => (block.kind === "drawings" ? block.drawings : [])),
];

/** What a typesetter's compiler was given, by the end of its path. */
function given(sheet: Sheet): Map<string, string> {
  const files = new Map<string, string>();
  const watched: Typesetter = {
    ...typesetter,
    create: (args) => {
      const compiler = typesetter.create(args);
      const keep = compiler.mapShadow.bind(compiler);
      compiler.mapShadow = (path, content) => {
        files.set(path.slice(path.lastIndexOf("/")), content.toString("utf8"));
        keep(path, content);
      };
      return compiler;
    },
  };
  const result = renderPdf(sheet, watched);
  if ("error" in result) throw new Error(result.error.message);
  return files;
}

describe("every output", () => {
  it.each(NAMES)("of the %s has the same SVG", (name) => {
    const sheet = exampleSheet(name);
    const html = renderHtml(sheet);
    const preview = renderPreview(sheet).blocks.join("\n");
    const files = given(sheet);
    expect(drawings(sheet).length).toBeGreaterThan(0);
    everyDrawing(sheet).forEach(({ svg }, index) => {
      expect(html).toContain(svg);
      expect(preview).toContain(svg);
      expect(files.get(`/picture-${index}.svg`)).toBe(svg);
    });
  });

  it("says in words what a drawing shows, beside its caption", async () => {
    const sheet = exampleSheet("tractor");
    const html = renderHtml(sheet);
    const { alts } = await readBack(pdfOf(sheet).bytes);
    expect(alts).toEqual(everyDrawing(sheet).map(({ description }) => description));
    for (const { id, number, description, caption } of drawings(sheet)) {
      const figure = html.slice(html.indexOf(`id="${id}"`)).split("</figure>")[0] ?? "";
      expect(figure).toMatch(/<svg [^>]*role="img"[^>]*>\s*<title>[^<]+<\/title>\s*<desc>[^<]+<\/desc>/);
      expect(figure).toContain(
        `<figcaption><strong>Drawing\u00a0${number}</strong>  ${text(caption)}</figcaption>`,
      );
      expect(figure).toContain(`<summary>In words</summary><p>${description}</p>`);
    }
  });

  it("is the same bytes again", () => {
    const digest = () => {
      const sheet = exampleSheet("marine-generator");
      return createHash("sha256").update(pdfOf(sheet).bytes).update(renderHtml(sheet)).digest("hex");
    };
    expect(digest()).toBe(digest());
  });

  it("of the web leads from each reference to its drawing, and the preview from a drawing to the line of what it shows", () => {
    const sheet = exampleSheet("marine-generator");
    const html = renderHtml(sheet);
    expect(html).toContain('<a href="#drawing%3Atiming-belt">drawing\u00a01</a>');
    expect(html).toContain('<figure class="picture drawing" id="drawing:timing-belt">');
    const { places, blocks } = renderPreview(sheet);
    expect(places).toContainEqual({ id: "drawing:timing-belt", file: "skua-27.torquil", line: 116 });
    expect(blocks.join("")).not.toMatch(/ style=|<style/);
  });
});

describe("a character that no font has", () => {
  it("is an error that names the text in the drawing", () => {
    const machine = `view front "정면"
clip a "Upper clip" centre 0 mm, 0 mm
clip b "Lower clip" centre 90 mm, 60 mm
cable wire "Stop cable" { through a, b }`.replace("{ through a, b }", "{\nthrough a, b\n}");
    const sheet = sheetOf(small(machine, "", `step on "On" {\nrun wire through a, b\n}`));
    const result = renderPdf(sheet, typesetter);
    expect(result).toMatchObject({ error: { code: "missing-glyph", item: "drawing:wire" } });
    expect("error" in result && result.error.message.replaceAll("\u00a0", " ")).toContain(
      "in “정면. Scale 1 : 1 as printed. Numbers: the clips in the order of the run.”, at drawing:wire",
    );
  });
});

describe("a change of what a drawing is made from", () => {
  const MACHINE = `view front "Front"
part a "Drive pulley"
part b "Pump pulley"
shaft s "Shaft" turns clockwise
mark dot "Dot" on s seen at 90°
belt drive "Belt" {
path clockwise
pulley a diameter 100 mm centre 0 mm, 0 mm on s
pulley b diameter 90 mm centre 220 mm, 40 mm
}`;
  const STEPS = `step on "On" {\nfit drive\nlay-on drive clockwise a, b\n}`;

  it.each([
    ["a pulley", "centre 220 mm, 40 mm", "centre 240 mm, 40 mm"],
    ["a mark", "seen at 90°", "seen at 180°"],
    ["the way a shaft turns", "turns clockwise", "turns anticlockwise"],
    ["nothing of it", "job", "job"],
  ])("marks it: %s", (_, before, after) => {
    const old = projectOf({ "a.torquil": small(MACHINE, "", STEPS) });
    const fresh = projectOf({ "a.torquil": small(MACHINE, "", STEPS).replace(before, after) });
    const side = (project: typeof old) => ({ project, settings: null });
    const procedure = procedureIn(fresh);
    const bars = barsOf(compareRevisions(side(old), side(fresh)), fresh, procedure);
    const options = {
      language: "en",
      paper: "a4",
      units: "both",
      draft: false,
      pictures: () => undefined,
    } as const;
    const sheet = markChanged(buildSheet(fresh, procedure, options), {
      revision: "B",
      isChanged: (file, line) => bars.lines.has(lineKey(file, line)),
      removed: [],
    });
    expect(drawings(sheet).map(({ changed = false }) => changed)).toEqual([before !== after]);
    expect(renderHtml(sheet).includes("picture drawing changed")).toBe(before !== after);
  });
});

/** A line of text as a box on the paper, by its estimated width. */
interface Box {
  readonly words: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function boxesIn(svg: string): Box[] {
  const pattern = /<text x="([\d.-]+)" y="([\d.-]+)" font-size="([\d.]+)"([^>]*)>([^<]*)</g;
  return Array.from(svg.matchAll(pattern), ([, x, y, size, more = "", words = ""]) => {
    const [at, base, type] = [Number(x), Number(y), Number(size)];
    const width = widthOf(words, type);
    const left = more.includes('"middle"') ? at - width / 2 : more.includes('"end"') ? at - width : at;
    return { words, left, right: left + width, top: base - type * 0.72, bottom: base + type * 0.2 };
  });
}

const over = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

describe.each(LANGUAGES)("all drawings of the examples, in %s", (language) => {
  const all = NAMES.flatMap((name) => drawings(exampleSheet(name, { language })));

  it("are black, white and grey only, and need nothing from elsewhere", () => {
    for (const { svg } of NAMES.flatMap((name) => everyDrawing(exampleSheet(name, { language })))) {
      const paints = [...svg.matchAll(/(?:fill|stroke)="([^"]*)"/g)].map((match) => match[1] ?? "");
      expect(paints.filter((paint) => !/^(?:none|#([0-9a-f]{1,2})\1{2})$/.test(paint))).toEqual([]);
      expect(svg).not.toMatch(/ (?:style|id|href|class)=|url\(|<image|<style/);
    }
  });

  it("have letters of 7 pt or more, none over others, none off the paper", () => {
    const point = 25.4 / 72;
    for (const { svg } of all) {
      const boxes = boxesIn(svg);
      expect(boxes.length).toBe(svg.match(/<text /g)?.length);
      const sizes = [...svg.matchAll(/font-size="([\d.]+)"/g)].map((match) => Number(match[1]) / point);
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(7);
      const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)?.map(Number) ?? [];
      for (const [index, box] of boxes.entries()) {
        expect(
          boxes
            .slice(index + 1)
            .filter((other) => over(box, other))
            .map(({ words }) => [box.words, words]),
        ).toEqual([]);
        expect([box.left >= 0, box.right <= (width ?? 0), box.top >= 0, box.bottom <= (height ?? 0)]).toEqual(
          [true, true, true, true],
        );
      }
    }
  });

  it("are printed as large as they are made, so that their scale is true", () => {
    // A step's text is 166.5 mm wide on A4; a drawing has to fit in a check, an outcome and a condition in that.
    for (const { svg } of all) expect(svg).toContain('width="150mm"');
  });
});
