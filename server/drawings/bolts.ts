/**
 * The order in which a group of bolts is tightened, on the pattern of its holes.
 */
import type { Point } from "../mechanics/belts/plane";
import { type DrawingWord, drawingWord } from "../phrases/drawings";
import type { Language } from "../phrases/sheet";
import { type Hole, holeCircle, holePiece, nearest, patternOf, showsHoles, stepsOf } from "./holes";
import { notesBelow, PAPER, sentences } from "./page";
import { scaleFor, scaleWords } from "./scale";
import { stageList } from "./stages";
import { type Drawing, drawing } from "./svg";

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
  /** The hole that is drawn at the top although nobody says where it lies; null where that is said, or shown by the rest. */
  readonly first: number | null;
  readonly way: "tighten" | "loosen";
  /** The stages that are gone through in this order, in the sheet's words; may be none. */
  readonly stages: readonly string[];
  /** What else is to be known of the holes, in the sheet's words. */
  readonly notes: readonly string[];
  readonly view: string;
  readonly language: Language;
}

/** The room the holes' middles have, and the most that a scale may pull the two nearest apart. */
const ROOM = { width: 118, height: 70 };
const APART = 18;
const APART_ROUND = 30;
/** Round the holes' middles, for the holes and their numbers. */
const MARGIN = 11;
/** Between the holes and the stages beside them. */
const GAP = 18;

/** Draws the holes. Null where there are none, or where a place is not a figure. */
export function boltsDrawing(picture: BoltsPicture): Drawing | null {
  const { holes, order, language } = picture;
  if (holes.length === 0 || !holes.every(({ at }) => measured(at))) return null;
  const scale = scaleFor(
    holes.map(({ at }) => ({ centre: at, radius: 0 })),
    roomFor(holes, picture.onCircle),
  );
  const head =
    order.length > 0 ? drawingWord(language, picture.stages.length > 1 ? "bolts.stages" : "bolts.stage") : "";
  const beside = stageList(picture.stages, head);
  const isBeside = beside.width > 0 && scale.width + 2 * MARGIN + GAP + beside.width <= PAPER;
  const taken = isBeside ? scale.width + GAP + beside.width : scale.width;
  const tall = Math.max(scale.height, isBeside ? beside.height - MARGIN : 0);
  const origin = { x: (PAPER - taken) / 2, y: MARGIN + (tall - scale.height) / 2 };
  const places = new Map(holes.map(({ number, at }) => [number, scale.place(at, origin)]));
  const under = origin.y + scale.height + MARGIN;
  const stages = isBeside
    ? beside.svg({ x: origin.x + scale.width + GAP, y: MARGIN + (tall - beside.height) / 2 })
    : beside.svg({ x: 1, y: under });
  const bottom = isBeside ? tall + 2 * MARGIN : under + beside.height + (beside.height > 0 ? 1.5 : 0);
  const foot = notesBelow(notesOf(picture, scale.factor), bottom);
  const pattern = patternOf(places, picture.onCircle);
  const body = [
    holeCircle(pattern),
    ...stepsOf(order, pattern),
    ...holes.map(({ number }) => holePiece(number, order, pattern)),
    stages,
    foot.svg,
  ];
  const title = drawingWord(language, titleWord(picture), { fastener: picture.title });
  return drawing(PAPER, foot.bottom, title, describe(picture, title), body);
}

function titleWord({ order, way }: BoltsPicture): DrawingWord {
  if (order.length === 0) return "bolts.title.holes";
  return way === "loosen" ? "bolts.title.loosen" : "bolts.title";
}

const measured = ({ x, y }: Point): boolean => Math.abs(x) <= 1e8 && Math.abs(y) <= 1e8;

/** Few holes near together are not blown up to the whole of the paper. */
function roomFor(holes: readonly Hole[], onCircle: boolean): { width: number; height: number } {
  const places = holes.map(({ at }) => at);
  const least = nearest(places) ?? 1;
  const most = (along: (at: Point) => number, room: number): number => {
    const all = places.map(along);
    const whole = Math.max(...all) - Math.min(...all);
    return Math.max(1, Math.min(room, (whole * (onCircle ? APART_ROUND : APART)) / least));
  };
  return { width: most(({ x }) => x, ROOM.width), height: most(({ y }) => y, ROOM.height) };
}

function notesOf(
  { order, schematic, first, notes, view, language }: BoltsPicture,
  factor: number,
): readonly string[] {
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  const { way, n } = scaleWords(factor);
  const scale = schematic ? say("scale.none") : say(way === "up" ? "scale.up" : "scale.down", { n: `${n}` });
  const top = first === null ? [] : [say("bolts.top", { n: `${first}` })];
  const numbers = order.length === 0 ? "bolts.holes" : showsHoles(order) ? "bolts.numbers" : "bolts.same";
  return [sentences(view, scale, say(numbers)), sentences(...top, ...notes)].filter((w) => w !== "");
}

function describe({ order, stages, notes, view, language }: BoltsPicture, title: string): string {
  const said = order.length === 0 ? "" : drawingWord(language, "bolts.order", { holes: order.join(", ") });
  return sentences(title, view, said, stages.join("; "), ...notes);
}
