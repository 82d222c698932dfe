/**
 * The order in which a group of bolts is tightened, on the pattern of its holes.
 */
import { distanceToSegment, type Point } from "../mechanics/belts/plane";
import { type DrawingWord, drawingWord } from "../phrases/drawings";
import type { Language } from "../phrases/sheet";
import { notesBelow, PAPER, sentences } from "./page";
import { scaleFor, scaleWords } from "./scale";
import { arrowhead, circle, type Drawing, drawing, line, TYPE, text } from "./svg";

/** A hole, by its number, and where it lies in the view: millimetres, x to the right, y up. */
export interface Hole {
  readonly number: number;
  readonly at: Point;
}

/** All that a drawing of a tightening order shows. */
export interface BoltsPicture {
  readonly title: string;
  readonly holes: readonly Hole[];
  /** The holes' numbers in the order they are tightened; empty where only the holes are to be shown. */
  readonly order: readonly number[];
  /** The places are only how they lie to one another, not measured. */
  readonly schematic: boolean;
  /** On a circle, which is drawn through them. */
  readonly onCircle: boolean;
  /** What is done at this stage, in the sheet's words; may be empty. */
  readonly stage: string;
  readonly view: string;
  readonly language: Language;
}

/** The room the holes' middles have, and the most a scale may pull them apart. */
const ROOM = { width: 120, height: 84 };
const APART = 26;
const RADIUS = 4.4;

/** Where holes lie on a circle, from the top, clockwise; how far from the middle does not matter. */
export function circlePlaces(numbers: readonly number[]): readonly Hole[] {
  return numbers.map((number, index) => {
    const angle = Math.PI / 2 - (2 * Math.PI * index) / numbers.length;
    return { number, at: { x: 100 * Math.cos(angle), y: 100 * Math.sin(angle) } };
  });
}

/** Where holes lie in a row, from the left. */
export function rowPlaces(numbers: readonly number[]): readonly Hole[] {
  return numbers.map((number, index) => ({ number, at: { x: 100 * index, y: 0 } }));
}

/** Draws the holes. Null where there are none, or where a place is not a figure. */
export function boltsDrawing(picture: BoltsPicture): Drawing | null {
  const { holes, order, language } = picture;
  if (holes.length === 0 || !holes.every(({ at }) => measured(at))) return null;
  const scale = scaleFor(
    holes.map(({ at }) => ({ centre: at, radius: 0 })),
    roomFor(holes),
  );
  const origin = { x: (PAPER - scale.width) / 2, y: 12 };
  const places = new Map(holes.map(({ number, at }) => [number, scale.place(at, origin)]));
  const bottom = origin.y + scale.height + 12;
  const foot = notesBelow(notesOf(picture, scale.factor), bottom);
  const body = [
    picture.onCircle ? holeCircle([...places.values()]) : "",
    ...stepsOf(order, places),
    ...holes.map((hole) =>
      holePiece(hole, places.get(hole.number) ?? hole.at, order, [...places.values()], picture.onCircle),
    ),
    foot.svg,
  ];
  const title = drawingWord(language, order.length > 0 ? "bolts.title" : "bolts.title.holes", {
    fastener: picture.title,
  });
  return drawing(PAPER, foot.bottom, title, describe(picture, title), body);
}

const measured = ({ x, y }: Point): boolean => Math.abs(x) <= 1e8 && Math.abs(y) <= 1e8;

/** Few holes near together are not blown up to the whole of the paper. */
function roomFor(holes: readonly Hole[]): { width: number; height: number } {
  const columns = new Set(holes.map(({ at }) => Math.round(at.x))).size;
  const rows = new Set(holes.map(({ at }) => Math.round(at.y))).size;
  return {
    width: Math.min(ROOM.width, Math.max(1, columns - 1) * APART),
    height: Math.min(ROOM.height, Math.max(1, rows - 1) * APART),
  };
}

function holeCircle(places: readonly Point[]): string {
  const middle = middleOf(places);
  const first = places[0] ?? middle;
  return circle(middle, Math.hypot(first.x - middle.x, first.y - middle.y), {
    fill: "none",
    stroke: "#000",
    "stroke-width": 0.25,
    "stroke-dasharray": "3 1 0.6 1",
  });
}

const middleOf = (places: readonly Point[]): Point => ({
  x: places.reduce((sum, p) => sum + p.x, 0) / places.length,
  y: places.reduce((sum, p) => sum + p.y, 0) / places.length,
});

/** More steps than these are a tangle. */
const MOST_STEPS = 11;

/** Thin arrows from each hole to the next; none at all where one would run over a third hole and be misread. */
function stepsOf(order: readonly number[], places: ReadonlyMap<number, Point>): readonly string[] {
  const way = order.flatMap((number) => places.get(number) ?? []);
  const steps = way.slice(1).map((end, index) => ({ start: way[index] ?? end, end }));
  const clear = steps.every(({ start, end }) =>
    way.every(
      (hole) => hole === start || hole === end || distanceToSegment(hole, { start, end }) > RADIUS + 0.5,
    ),
  );
  return clear && steps.length <= MOST_STEPS ? steps.map(({ start, end }) => step(start, end)) : [];
}

/** A thin arrow from one hole to the next; none where they are too near. */
function step(from: Point, to: Point): string {
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  const tip = { x: to.x - (RADIUS + 0.4) * Math.cos(angle), y: to.y - (RADIUS + 0.4) * Math.sin(angle) };
  if (Math.hypot(to.x - from.x, to.y - from.y) < 2 * RADIUS + 2.5) return "";
  return line(from, tip, { stroke: "#777", "stroke-width": 0.25 }) + arrowhead(tip, angle, 1.9);
}

/** A hole: the number of its turn in the circle, the first in a double ring; its own number outside, where it differs. */
function holePiece(
  { number }: Hole,
  at: Point,
  order: readonly number[],
  places: readonly Point[],
  onCircle: boolean,
): string {
  const turn = order.indexOf(number) + 1;
  const words = order.length > 0 ? (turn > 0 ? `${turn}` : "–") : `${number}`;
  const rim = circle(at, RADIUS, { fill: "#fff", stroke: "#000", "stroke-width": 0.4 });
  const first =
    turn === 1 ? circle(at, RADIUS - 0.8, { fill: "none", stroke: "#000", "stroke-width": 0.25 }) : "";
  const own = { x: at.x, y: at.y + TYPE.number * 0.36 };
  const size = words.length > 2 ? TYPE.note : TYPE.number + 0.4;
  return (
    rim +
    first +
    text(own, words, size, { "text-anchor": "middle", "font-weight": "bold" }) +
    (showsHoles(order) ? outside(at, `${number}`, places, onCircle) : "")
  );
}

/** Whether the holes' own numbers say more than the order's. */
const showsHoles = (order: readonly number[]): boolean => order.some((number, index) => number !== index + 1);

/** A hole's own number on the free side: outwards on a circle, else above it, or below it in the lower half. */
function outside(at: Point, words: string, places: readonly Point[], onCircle: boolean): string {
  const middle = middleOf(places);
  const [dx, dy] = [at.x - middle.x, at.y - middle.y];
  const length = Math.hypot(dx, dy);
  const way = onCircle && length > 0.5 ? { x: dx / length, y: dy / length } : { x: 0, y: dy > 0.5 ? 1 : -1 };
  const off = RADIUS + 2.4;
  const where = { x: at.x + way.x * off, y: at.y + way.y * off + TYPE.note * 0.36 };
  return text(where, words, TYPE.note, { "text-anchor": "middle" });
}

function notesOf(
  { order, schematic, stage, view, language }: BoltsPicture,
  factor: number,
): readonly string[] {
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  const { way, n } = scaleWords(factor);
  const scale = schematic ? say("scale.none") : say(way === "up" ? "scale.up" : "scale.down", { n: `${n}` });
  const numbers = order.length === 0 ? "bolts.holes" : showsHoles(order) ? "bolts.numbers" : "bolts.same";
  return [stage, sentences(view, scale), say(numbers)].filter((w) => w !== "");
}

function describe({ order, stage, view, language }: BoltsPicture, title: string): string {
  const said = order.length === 0 ? "" : drawingWord(language, "bolts.order", { holes: order.join(", ") });
  return sentences(title, view, stage, said);
}
