/**
 * The run of a hose, cable or wire through its clips, to scale, the clips numbered in its order.
 */
import type { Point, Segment } from "../mechanics/belts";
import { type DrawingWord, drawingWord } from "../phrases/drawings";
import type { Language } from "../phrases/sheet";
import { BADGE, badge } from "./belt-pieces";
import { labelPiece, linesOf, sizeOf } from "./label-piece";
import { placeLabels } from "./labels";
import { notesBelow, PAPER, sentences } from "./page";
import { scaleFor, scaleWords } from "./scale";
import { circle, type Drawing, drawing, element, figure, TYPE } from "./svg";

/** A clip that a line runs through, or an end of it. */
export interface RunPlace {
  readonly name: string;
  readonly at: Point;
  /** An end has no number: what counts is the order of the clips. */
  readonly end: boolean;
}

/** All that a drawing of a run shows. */
export interface RunPicture {
  readonly title: string;
  /** What it goes through in the order of the run, and where that lies in the view: millimetres, x to the right, y up. */
  readonly places: readonly RunPlace[];
  /** Where it begins and ends, bend, length and slack, in the sheet's words. */
  readonly notes: readonly string[];
  readonly view: string;
  readonly language: Language;
}

const ROOM = { width: 90, height: 80 };
const LABEL = 29;
/** Half the width of the spot that an end is. */
const END = 1.5;

/** Draws a run. Null for fewer than two places, or where one is not a figure. */
export function runDrawing(picture: RunPicture): Drawing | null {
  const { title, places, view, language } = picture;
  if (places.length < 2 || !places.every(({ at }) => Math.abs(at.x) <= 1e8 && Math.abs(at.y) <= 1e8))
    return null;
  const scale = scaleFor(
    places.map(({ at }) => ({ centre: at, radius: 0 })),
    ROOM,
  );
  const origin = { x: (PAPER - scale.width) / 2, y: 12 };
  const bottom = origin.y + scale.height + 12;
  const spots = places.map(({ at }) => scale.place(at, origin));
  const curve = curveThrough(spots);
  const numbers = numbersOf(places);
  const { svg: labels, homeless } = labelled(picture, spots, curve.pieces, bottom);
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  const { way, n } = scaleWords(scale.factor);
  const seen = sentences(view, say(way === "up" ? "scale.up" : "scale.down", { n: `${n}` }));
  const foot = notesBelow(
    [...homeless, sentences(...picture.notes), sentences(seen, say("run.note"))].filter((own) => own !== ""),
    bottom,
  );
  const look = { d: curve.d, fill: "none", stroke: "#000", "stroke-linecap": "round" };
  const body = [
    // A tube: white within black.
    element("path", { ...look, "stroke-width": 1.8 }),
    element("path", { ...look, stroke: "#fff", "stroke-width": 1 }),
    ...spots.map((at, index) =>
      places[index]?.end ? circle(at, END, { fill: "#000" }) : badge(at, numbers[index] ?? ""),
    ),
    labels,
    foot.svg,
  ];
  const heading = say("run.title", { line: title });
  const clips = places.flatMap(({ name, end }, index) => (end ? [] : [numbered(picture, index, name)]));
  const description = sentences(
    heading,
    view,
    say("run.clips", { clips: clips.join("; ") }),
    ...picture.notes,
  );
  return drawing(PAPER, foot.bottom, heading, description, body);
}

/** The clips' numbers in the order of the run; an end has none. */
function numbersOf(places: readonly RunPlace[]): readonly string[] {
  let given = 0;
  return places.map(({ end }) => {
    if (!end) given += 1;
    return end ? "" : `${given}`;
  });
}

function numbered({ places, language }: RunPicture, index: number, name: string): string {
  const n = numbersOf(places)[index] ?? "";
  return n === "" ? name : drawingWord(language, "belt.pulley", { n, name });
}

/** The names beside their places; those that found no room come back, to be written below. */
function labelled(
  picture: RunPicture,
  spots: readonly Point[],
  pieces: readonly Segment[],
  bottom: number,
): { readonly svg: string; readonly homeless: readonly string[] } {
  const lines = picture.places.map(({ name }) => linesOf(name, TYPE.name, LABEL));
  const reach = (index: number): number => (picture.places[index]?.end ? END : BADGE);
  const middle = { x: PAPER / 2, y: bottom / 2 };
  const labels = placeLabels(
    spots.map((anchor, index) => ({ anchor, reach: reach(index), ...sizeOf(lines[index] ?? []) })),
    { circles: spots.map((centre, index) => ({ centre, radius: reach(index) })), lines: pieces, boxes: [] },
    { centre: middle, halfWidth: PAPER / 2 - 0.5, halfHeight: bottom / 2 - 0.5 },
    middle,
  );
  return {
    svg: labels.map((placed, index) => (placed ? labelPiece(placed, lines[index] ?? []) : "")).join("\n"),
    homeless: picture.places.flatMap(({ name }, index) =>
      labels[index] ? [] : [numbered(picture, index, name)],
    ),
  };
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
