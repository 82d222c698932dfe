/**
 * The path of a belt or chain, to scale: pulleys numbered in the order of the path, sides, the way it travels, marks, and
 * where it is seen from.
 */
import type { BeltKind, BeltPath, Layout, Point, Running } from "../mechanics/belts";
import { type DrawingWord, drawingWord } from "../phrases/drawings";
import type { Language } from "../phrases/sheet";
import {
  BADGE,
  badge,
  beltPiece,
  type Disc,
  markPiece,
  pulleyPiece,
  tensionerPiece,
  travelPiece,
  turnPiece,
} from "./belt-pieces";
import { type LabelLine, labelPiece, linesOf, sizeOf } from "./label-piece";
import { type Box, type Placed, placeLabels } from "./labels";
import { notesBelow, PAPER, sentences } from "./page";
import { scaleFor, scaleWords } from "./scale";
import { type Drawing, drawing, TYPE } from "./svg";

/** A mark on one of the pulleys. */
export interface BeltMark {
  /** By its place in the layout. */
  readonly pulley: number;
  readonly title: string;
  /** Where on the rim it is seen when it is in line: radians, anticlockwise from the x axis; null where nobody says. */
  readonly angle: number | null;
}

/** All that a drawing of a belt shows. */
export interface BeltPicture {
  readonly title: string;
  readonly kind: BeltKind;
  readonly layout: Layout;
  readonly path: BeltPath;
  /** Null where no driving shaft says a direction. */
  readonly running: Running | null;
  /** What the pulleys are called, in the layout's order. */
  readonly names: readonly string[];
  readonly marks: readonly BeltMark[];
  /** Where it is seen from, in the writer's words. */
  readonly view: string;
  readonly language: Language;
}

/** The room a drawing of a belt itself has; labels stand beside it. */
const ROOM = { width: 96, height: 105 };
/** The widest label. */
const LABEL = 34;

/** Draws a belt. The figures must be a layout's that has a path. */
export function beltDrawing(picture: BeltPicture): Drawing {
  const { layout, path, running, language } = picture;
  const scale = scaleFor(layout.pulleys, ROOM);
  const origin = { x: (PAPER - scale.width) / 2, y: 14 };
  const place = (point: Point) => scale.place(point, origin);
  const discs: readonly Disc[] = layout.pulleys.map(({ centre, radius }) => ({
    centre: place(centre),
    radius: radius * scale.factor,
  }));
  const bottom = origin.y + scale.height + 14;
  const labels = labelsOf(picture, discs, place, bottom);
  const notes = notesOf(picture, scale.factor, labels);
  const foot = notesBelow(notes, bottom);
  const body = [
    ...discs.map((disc, index) => {
      const pulley = layout.pulleys[index];
      return pulley ? pulleyPiece(disc, pulley, path.wraps[index]?.touched ?? false) : "";
    }),
    beltPiece(path, discs, place, picture.kind),
    ...layout.pulleys.map(({ travel }, index) => {
      const [disc, wrap] = [discs[index], path.wraps[index]];
      if (!disc || !wrap?.touched || travel === 0) return "";
      const middle = wrap.from + ((wrap.round === "anticlockwise" ? 1 : -1) * wrap.angle) / 2;
      return tensionerPiece(disc, middle, travel * scale.factor);
    }),
    ...picture.marks.map(({ pulley, angle }) => {
      const disc = discs[pulley];
      return disc && angle !== null ? markPiece(disc, angle) : "";
    }),
    running ? travelPiece(path, running, place) : "",
    ...discs.map((disc, index) => turnPiece(disc, running?.turns[index], turnAt(picture, index))),
    ...layout.pulleys.map(({ side }, index) => {
      const disc = discs[index];
      return disc ? badge(disc.centre, `${index + 1}`, side === "back") : "";
    }),
    ...labels.map(({ placed, lines }) => (placed ? labelPiece(placed, lines) : "")),
    foot.svg,
  ];
  const title = drawingWord(language, "belt.title", { belt: picture.title });
  return drawing(PAPER, foot.bottom, title, describe(picture, title), body);
}

/** The arrow of turning lies at the top, or away from a mark on the rim. */
function turnAt({ marks }: BeltPicture, index: number): number {
  const mark = marks.find((m) => m.pulley === index && m.angle !== null);
  return mark?.angle == null ? Math.PI / 2 : mark.angle + Math.PI;
}

interface Label {
  readonly lines: readonly LabelLine[];
  readonly placed: Placed | null;
}

/** What is said of a pulley beside its name. */
function remarks({ layout, path, marks, language }: BeltPicture, index: number): readonly string[] {
  const pulley = layout.pulleys[index];
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  if (!pulley) return [];
  return [
    ...(pulley.teeth === null ? [] : [say("teeth", { n: `${pulley.teeth}` })]),
    ...(pulley.side === "back" ? [say("back-of-belt")] : []),
    ...(pulley.travel > 0 ? [say("tensioner")] : []),
    ...(path.wraps[index]?.touched ? [] : [say("not-touched")]),
    ...marks.filter((mark) => mark.pulley === index).map((mark) => say("mark", { mark: mark.title })),
  ];
}

/** The label of each pulley, its name and what is said of it, and where it goes. */
function labelsOf(
  picture: BeltPicture,
  discs: readonly Disc[],
  place: (point: Point) => Point,
  bottom: number,
): readonly Label[] {
  const lines = discs.map((_, index) => [
    ...linesOf(picture.names[index] ?? "", TYPE.name, LABEL),
    ...remarks(picture, index).flatMap((remark) => linesOf(remark, TYPE.note, LABEL)),
  ]);
  const frame: Box = {
    centre: { x: PAPER / 2, y: bottom / 2 },
    halfWidth: PAPER / 2 - 0.5,
    halfHeight: bottom / 2 - 0.5,
  };
  const wanted = discs.map(({ centre, radius }, index) => ({
    anchor: centre,
    reach: Math.max(radius, BADGE) + reachOf(picture, index),
    ...sizeOf(lines[index] ?? []),
  }));
  const placed = placeLabels(
    wanted,
    {
      circles: discs.map(({ centre, radius }) => ({ centre, radius: Math.max(radius, BADGE) })),
      lines: picture.path.spans.map(({ start, end }) => ({ start: place(start), end: place(end) })),
      boxes: [],
    },
    frame,
    middleOf(discs),
  );
  return lines.map((own, index) => ({ lines: own, placed: placed[index] ?? null }));
}

/** Marks and the tensioner's arrow stand out from the rim. */
function reachOf({ layout, marks }: BeltPicture, index: number): number {
  const marked = marks.some((mark) => mark.pulley === index && mark.angle !== null);
  return marked || (layout.pulleys[index]?.travel ?? 0) > 0 ? 3.4 : 0;
}

function middleOf(discs: readonly Disc[]): Point {
  const sum = discs.reduce((s, { centre }) => ({ x: s.x + centre.x, y: s.y + centre.y }), { x: 0, y: 0 });
  return { x: sum.x / discs.length, y: sum.y / discs.length };
}

/** What stands below: labels that found no place, where it is seen from, the scale, and what the signs mean. */
function notesOf(picture: BeltPicture, factor: number, labels: readonly Label[]): readonly string[] {
  const { layout, path, running, language } = picture;
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  const { way, n } = scaleWords(factor);
  const homeless = labels.flatMap(({ placed }, index) => (placed ? [] : [named(picture, index)]));
  const signs: readonly (readonly [boolean, DrawingWord])[] = [
    [running !== null, "belt.arrows"],
    [layout.pulleys.some((p) => p.side === "back"), "belt.grey"],
    [layout.pulleys.some((p) => p.travel > 0), "belt.travel"],
    [!path.sound, "belt.unsound"],
  ];
  return [
    ...homeless,
    [picture.view, say(way === "up" ? "scale.up" : "scale.down", { n: `${n}` })]
      .filter((w) => w !== "")
      .join(". "),
    ...signs.filter(([shown]) => shown).map(([, id]) => say(id)),
  ];
}

/** `2 Guide roller (back of belt)`. */
function named(picture: BeltPicture, index: number, more: readonly string[] = []): string {
  const notes = [...remarks(picture, index), ...more];
  const name = drawingWord(picture.language, "belt.pulley", {
    n: `${index + 1}`,
    name: picture.names[index] ?? "",
  });
  return notes.length === 0
    ? name
    : drawingWord(picture.language, "belt.note", { name, notes: notes.join(", ") });
}

function describe(picture: BeltPicture, title: string): string {
  const { path, running, language } = picture;
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  const pulleys = picture.names.map((_, index) => {
    const turns = running?.turns[index];
    return named(picture, index, turns ? [say("belt.turns", { round: say(`round.${turns}`) })] : []);
  });
  return sentences(
    title,
    picture.view,
    say("belt.order", { round: say(`round.${path.round}`), pulleys: pulleys.join("; ") }),
    path.sound ? "" : say("belt.unsound"),
  );
}
