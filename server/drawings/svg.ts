/**
 * Pieces of SVG, in millimetres on the paper, x to the right and y down. Figures have two decimals, so that the same
 * drawing is the same bytes everywhere; nothing has an id, so that drawings may stand together on one page.
 */
import type { Point } from "../mechanics/belts";

/** A drawing, whole: it can stand alone or in a page. */
export interface Drawing {
  readonly svg: string;
  /** In millimetres. */
  readonly width: number;
  readonly height: number;
  /** What it is, in a few words. */
  readonly title: string;
  /** All that it shows, in words: for whoever cannot see it. */
  readonly description: string;
}

/** Attributes by name; a number is written with two decimals at most. */
export type Attributes = Readonly<Record<string, string | number>>;

/** A figure with two decimals at most; one that is none becomes 0. */
export function figure(value: number): string {
  const rounded = Number.isFinite(value) ? Math.round(value * 100) / 100 : 0;
  return String(rounded === 0 ? 0 : rounded);
}

/** Text that may stand in SVG: XML's own signs written out, control characters left out. */
export function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, "")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

/** One element; `content` is SVG already. */
export function element(name: string, attributes: Attributes, content = ""): string {
  const written = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? figure(value) : escaped(value)}"`)
    .join("");
  return content === "" ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

export const circle = (centre: Point, radius: number, attributes: Attributes): string =>
  element("circle", { cx: centre.x, cy: centre.y, r: radius, ...attributes });

export const line = (start: Point, end: Point, attributes: Attributes): string =>
  element("line", { x1: start.x, y1: start.y, x2: end.x, y2: end.y, ...attributes });

/** A filled arrowhead with its tip at a point. @param angle where it points, radians, from the x axis, y down */
export function arrowhead(tip: Point, angle: number, length: number): string {
  const back = (side: number) => ({
    x: tip.x - length * Math.cos(angle) + side * length * 0.38 * Math.sin(angle),
    y: tip.y - length * Math.sin(angle) - side * length * 0.38 * Math.cos(angle),
  });
  const points = [tip, back(1), back(-1)].map(({ x, y }) => `${figure(x)},${figure(y)}`).join(" ");
  return element("polygon", { points, fill: "#000" });
}

/** The families that all text of a drawing has: those the PDF is set in, in the same order, then any a browser has. */
export const FONT = {
  "font-family":
    "Noto Sans, Noto Sans Math, Noto Sans JP, Noto Sans Symbols, Noto Sans Symbols 2, sans-serif",
  fill: "#000",
} as const;

/** Sizes of type, in millimetres. */
export const TYPE = { name: 3.1, note: 2.7, number: 3.4 } as const;

/** A line of text about or from a point on its base line. */
export function text(at: Point, words: string, size: number, attributes: Attributes = {}): string {
  return element("text", { x: at.x, y: at.y, "font-size": size, ...attributes }, escaped(words));
}

/** Puts a drawing together. `body` is SVG already. */
export function drawing(
  width: number,
  height: number,
  title: string,
  description: string,
  body: readonly string[],
): Drawing {
  const content = [
    element("title", {}, escaped(title)),
    element("desc", {}, escaped(description)),
    element("g", FONT, `\n${body.filter((piece) => piece !== "").join("\n")}\n`),
  ].join("\n");
  const svg = element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      role: "img",
      width: `${figure(width)}mm`,
      height: `${figure(height)}mm`,
      viewBox: `0 0 ${figure(width)} ${figure(height)}`,
    },
    `\n${content}\n`,
  );
  return { svg, width, height, title, description };
}
