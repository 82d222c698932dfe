/**
 * The ways through a procedure as a flow from top to bottom, with the shapes of ISO 5807 (from memory): what is done in
 * rectangles, questions with pointed ends, beginnings and ends rounded, circles where a way goes on in another drawing.
 */

import type { Language } from "../phrases/sheet";
import { type WaysWord, waysWord } from "../phrases/ways";
import { sentences } from "./page";
import { arrowhead, circle, type Drawing, drawing, element, figure, TYPE, text } from "./svg";
import { wrapped } from "./text";
import { CIRCLE, type Connector, type Line } from "./ways-lanes";
import { type Label, type Shape, type WaysPage, WIDE } from "./ways-lay";
import { layWays } from "./ways-pages";
import type { WaysQuestion, WaysRow } from "./ways-rows";
import { LABEL_LINE, SLANT, TEXT_LINE } from "./ways-text";

/** All that a drawing of the ways shows. */
export interface WaysPicture {
  readonly rows: readonly WaysRow[];
  /** The height that a page has for a drawing, in millimetres. One is taller only where a single question is. */
  readonly tallest: number;
  /** What is to be known beside it, as sentences; may be empty. */
  readonly notes: readonly string[];
  readonly language: Language;
}

/** Draws the ways, on as many drawings as they take. None for no rows. */
export function waysDrawings(picture: WaysPicture): readonly Drawing[] {
  const { rows, language, notes, tallest } = picture;
  if (rows.length === 0) return [];
  const pages = pagesFor(rows, tallest, notesUnder(notes, 0).bottom);
  const say = (id: WaysWord, args = {}) => waysWord(language, id, args);
  return pages.map((page, index) => {
    const part = { n: `${index + 1}`, of: `${pages.length}` };
    const heading = say(pages.length > 1 ? "drawing.part" : "drawing.title", part);
    const own = index === pages.length - 1 ? notes : [];
    const foot = notesUnder(own, page.height);
    const description = sentences(heading, ...page.rows.map((row) => told(row, say)), ...own);
    const body = [
      ...page.lines.map(linePiece),
      ...page.shapes.map(shapePiece),
      ...page.labels.map(labelPiece),
      ...page.connectors.map(connectorPiece),
      ...turnings(page, index, pages.length, say),
      foot.svg,
    ];
    return drawing(WIDE, foot.bottom, heading, description, body);
  });
}

/** The pages, the last of them with room for notes. */
function pagesFor(rows: readonly WaysRow[], tallest: number, notes: number): readonly WaysPage[] {
  const pages = layWays(rows, tallest);
  const last = pages.at(-1)?.height ?? 0;
  return last + notes <= tallest ? pages : layWays(rows, tallest - notes);
}

/** Notes under all else. */
function notesUnder(
  notes: readonly string[],
  top: number,
): { readonly svg: string; readonly bottom: number } {
  const lines = notes.flatMap((note) => wrapped(note, TYPE.note, WIDE - 2));
  const svg = lines.map((own, i) => text({ x: 1, y: top + (i + 1.3) * TEXT_LINE }, own, TYPE.note)).join("");
  return { svg, bottom: top + (lines.length > 0 ? (lines.length + 0.8) * TEXT_LINE : 0) };
}

const INK = { stroke: "#000", "stroke-width": 0.35 } as const;

function linePiece({ points, arrow }: Line): string {
  const d = points.map(({ x, y }, i) => `${i === 0 ? "M" : "L"}${figure(x)} ${figure(y)}`).join("");
  const [from, to] = [points.at(-2), points.at(-1)];
  const path = element("path", { d, fill: "none", ...INK });
  if (!arrow || !from || !to) return path;
  return path + arrowhead(to, Math.atan2(to.y - from.y, to.x - from.x), 2);
}

const LOOK: Readonly<Record<Shape["kind"], string>> = {
  run: "#fff",
  question: "#ececec",
  begin: "#fff",
  end: "#fff",
};

function shapePiece(shape: Shape): string {
  const { kind, x, y, width, height } = shape;
  const look = { fill: LOOK[kind], ...INK };
  const outline =
    kind === "question"
      ? element("polygon", { points: pointed(shape), ...look })
      : element("rect", {
          x,
          y,
          width,
          height,
          rx: kind === "run" ? 0 : Math.min(height / 2, 4),
          ...look,
          ...(kind === "end" ? { "stroke-width": 0.7 } : {}),
        });
  const top = y + (height - shape.text.length * TEXT_LINE) / 2;
  const words = shape.text.map(({ words: own, strong }, i) =>
    text({ x: x + width / 2, y: top + (i + 1) * TEXT_LINE - TYPE.note * 0.42 }, own, TYPE.note, {
      "text-anchor": "middle",
      ...(strong ? { "font-weight": "bold" } : {}),
    }),
  );
  return outline + words.join("");
}

function pointed({ x, y, width, height }: Shape): string {
  const middle = y + height / 2;
  return [
    [x, middle],
    [x + SLANT, y],
    [x + width - SLANT, y],
    [x + width, middle],
    [x + width - SLANT, y + height],
    [x + SLANT, y + height],
  ]
    .map(([a, b]) => `${figure(a as number)},${figure(b as number)}`)
    .join(" ");
}

/** Words beside a line, their lowest line on its base line. */
function labelPiece({ at, lines }: Label): string {
  return lines
    .map((own, i) =>
      text({ x: at.x, y: at.y - (lines.length - 1 - i) * LABEL_LINE }, own, TYPE.note, {
        "font-style": "italic",
      }),
    )
    .join("");
}

function connectorPiece({ at, words }: Connector): string {
  return (
    circle(at, CIRCLE, { fill: "#fff", ...INK }) +
    text({ x: at.x, y: at.y + TYPE.note * 0.36 }, words, words.length > 3 ? TYPE.note * 0.92 : TYPE.note, {
      "text-anchor": "middle",
    })
  );
}

type Say = (id: WaysWord, args?: Readonly<Record<string, string>>) => string;

/** Where a drawing goes on from another, and where it goes on in the next. */
function turnings(page: WaysPage, index: number, count: number, say: Say): readonly string[] {
  const first = page.shapes[0];
  const x = first ? first.x + first.width / 2 : WIDE / 2;
  const at = (y: number, id: WaysWord, n: number): string =>
    text({ x, y }, say(id, { n: `${n}`, of: `${count}` }), TYPE.note, {
      "text-anchor": "middle",
      "font-style": "italic",
    });
  return [
    page.from ? at(4.4, "drawing.from", index) : "",
    page.on ? at(page.height - 1.4, "drawing.on", index + 2) : "",
  ];
}

/** A row in words. */
function told(row: WaysRow, say: Say): string {
  const before = (row.kind === "end" && row.before) || "";
  const own = sentences(before, row.head, ...row.lines, (row.kind === "run" && row.foot) || "");
  if (row.kind !== "question") return own;
  return sentences(own, ...answersTold(row, say));
}

function answersTold({ branches, straight }: WaysQuestion, say: Say): readonly string[] {
  const answers = branches.map(({ label, rows, leads }) =>
    say("drawing.answer", {
      answer: label,
      what: sentences(
        ...rows.map((row) => told(row, say)),
        leads.kind === "on" ? say("drawing.rejoins") : "",
      ),
    }),
  );
  return straight === null
    ? answers
    : [...answers, say("drawing.answer", { answer: straight, what: say("drawing.straight") })];
}
