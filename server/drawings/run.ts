/**
 * The run of a hose, cable or wire through its clips, to scale, the clips numbered in its order.
 */
import type { Point } from "../mechanics/belts";
import { type DrawingWord, drawingWord } from "../phrases/drawings";
import type { Language } from "../phrases/sheet";
import { BADGE, badge } from "./belt-pieces";
import { labelPiece, linesOf, sizeOf } from "./label-piece";
import { placeLabels } from "./labels";
import { notesBelow, PAPER, sentences } from "./page";
import { scaleFor, scaleWords } from "./scale";
import { type Drawing, drawing, element, figure, TYPE } from "./svg";

/** All that a drawing of a run shows. */
export interface RunPicture {
  readonly title: string;
  /** Clips in the order of the run, and where they lie in the view: millimetres, x to the right, y up. */
  readonly clips: readonly { readonly name: string; readonly at: Point }[];
  readonly view: string;
  readonly language: Language;
}

const ROOM = { width: 104, height: 90 };
const LABEL = 32;

/** Draws a run. Null for fewer than two clips, or where a place is not a figure. */
export function runDrawing({ title, clips, view, language }: RunPicture): Drawing | null {
  if (clips.length < 2 || !clips.every(({ at }) => Math.abs(at.x) <= 1e8 && Math.abs(at.y) <= 1e8))
    return null;
  const scale = scaleFor(
    clips.map(({ at }) => ({ centre: at, radius: 0 })),
    ROOM,
  );
  const origin = { x: (PAPER - scale.width) / 2, y: 14 };
  const places = clips.map(({ at }) => scale.place(at, origin));
  const bottom = origin.y + scale.height + 14;
  const lines = clips.map(({ name }) => linesOf(name, TYPE.name, LABEL));
  const curve = curveThrough(places);
  const labels = placeLabels(
    places.map((anchor, index) => ({
      anchor,
      reach: BADGE,
      ...sizeOf(lines[index] ?? []),
    })),
    { circles: places.map((centre) => ({ centre, radius: BADGE })), lines: curve.pieces, boxes: [] },
    {
      centre: { x: PAPER / 2, y: bottom / 2 },
      halfWidth: PAPER / 2 - 0.5,
      halfHeight: bottom / 2 - 0.5,
    },
    { x: PAPER / 2, y: origin.y + scale.height / 2 },
  );
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  const numbered = clips.map(({ name }, index) => say("belt.pulley", { n: `${index + 1}`, name }));
  const { way, n } = scaleWords(scale.factor);
  const seen = sentences(view, say(way === "up" ? "scale.up" : "scale.down", { n: `${n}` }));
  const homeless = numbered.filter((_, index) => !labels[index]);
  const foot = notesBelow([...homeless, seen, say("run.note")], bottom);
  const look = { d: curve.d, fill: "none", stroke: "#000", "stroke-linecap": "round" };
  const body = [
    // A tube: white within black.
    element("path", { ...look, "stroke-width": 1.8 }),
    element("path", { ...look, stroke: "#fff", "stroke-width": 1 }),
    ...places.map((at, index) => badge(at, `${index + 1}`)),
    ...labels.map((placed, index) => (placed ? labelPiece(placed, lines[index] ?? []) : "")),
    foot.svg,
  ];
  const heading = say("run.title", { line: title });
  const description = sentences(heading, view, say("run.clips", { clips: numbered.join("; ") }));
  return drawing(PAPER, foot.bottom, heading, description, body);
}

/**
 * A smooth line through places (Catmull and Rom's spline, as cubic curves with a sixth of the way between the neighbours
 * as handles), and straight pieces along it for labels to keep clear of.
 */
function curveThrough(places: readonly Point[]) {
  const at = (index: number) => places[Math.min(places.length - 1, Math.max(0, index))] as Point;
  const pieces: { start: Point; end: Point }[] = [];
  let d = `M${figure(at(0).x)} ${figure(at(0).y)}`;
  for (let index = 0; index + 1 < places.length; index++) {
    const [before, a, b, after] = [at(index - 1), at(index), at(index + 1), at(index + 2)];
    const first = { x: a.x + (b.x - before.x) / 6, y: a.y + (b.y - before.y) / 6 };
    const second = { x: b.x - (after.x - a.x) / 6, y: b.y - (after.y - a.y) / 6 };
    d += `C${[first, second, b].map((p) => `${figure(p.x)} ${figure(p.y)}`).join(" ")}`;
    const on = (t: number) => {
      const [s, u] = [1 - t, t];
      const mix = (k: "x" | "y") =>
        s * s * s * a[k] + 3 * s * s * u * first[k] + 3 * s * u * u * second[k] + u * u * u * b[k];
      return { x: mix("x"), y: mix("y") };
    };
    for (let part = 0; part < 6; part++) pieces.push({ start: on(part / 6), end: on((part + 1) / 6) });
  }
  return { d, pieces };
}
