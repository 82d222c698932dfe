/**
 * The path of a belt or chain, to scale: pulleys numbered in the order of laying on, sides, the way it travels, marks, and
 * where it is seen from.
 */
import type { Point } from "../mechanics/belts";
import { drawingWord } from "../phrases/drawings";
import {
  BADGE,
  BELT,
  badge,
  beltPiece,
  type Disc,
  markPiece,
  markSpot,
  pulleyPiece,
  tensionerEnds,
  tensionerPiece,
  travelPiece,
  turnPiece,
} from "./belt-pieces";
import { type BeltPicture, describe, notesOf, numberOf, remarks } from "./belt-words";
import { type LabelLine, labelPiece, linesOf, sizeOf } from "./label-piece";
import { type Box, type Obstacles, type Placed, placeLabels } from "./labels";
import { notesBelow, PAPER } from "./page";
import { type Scale, scaleFor } from "./scale";
import { type Drawing, drawing, TYPE } from "./svg";

export type { BeltMark, BeltPicture } from "./belt-words";

/**
 * The rooms that a drawing of a belt itself may have; labels stand beside it in the first and last, above and below it in the
 * second.
 */
const ROOMS = [
  { width: 84, height: 96 },
  { width: 122, height: 60 },
  { width: 70, height: 80 },
] as const;
/** The widest label. */
const LABEL = 31;
/** Above and below the belt, for labels. */
const MARGIN = 13;

/** A belt on the paper, at the scale of one of the rooms. */
interface Laid {
  readonly scale: Scale;
  readonly place: (point: Point) => Point;
  readonly discs: readonly Disc[];
  readonly bottom: number;
  readonly labels: readonly Label[];
}

interface Label {
  readonly lines: readonly LabelLine[];
  readonly placed: Placed | null;
}

/** Draws a belt. The figures must be a layout's that has a path. */
export function beltDrawing(picture: BeltPicture): Drawing {
  const { layout, path, running, marks, language } = picture;
  const { scale, place, discs, bottom, labels } = largest(picture);
  const unplaced = labels.flatMap(({ placed }, index) => (placed ? [] : [index]));
  const foot = notesBelow(notesOf(picture, scale.factor, unplaced), bottom);
  const body = [
    ...layout.pulleys.map((pulley, index) =>
      pulleyPiece(discs[index] as Disc, pulley, path.wraps[index]?.touched ?? false),
    ),
    beltPiece(path, discs, place, picture.kind),
    ...tensioners(picture, discs, scale.factor).map(({ disc, bisector, travel }) =>
      tensionerPiece(disc, bisector, travel),
    ),
    ...marks.map(({ pulley, angle }) => (angle === null ? "" : markPiece(discs[pulley] as Disc, angle))),
    running ? travelPiece(path, running, place) : "",
    ...discs.map((disc, index) => turnPiece(disc, running?.turns[index], turnAt(picture, index))),
    ...layout.pulleys.map(({ side }, index) =>
      badge((discs[index] as Disc).centre, numberOf(picture, index), side === "back"),
    ),
    ...labels.map(({ placed, lines }) => (placed ? labelPiece(placed, lines) : "")),
    foot.svg,
  ];
  const title = drawingWord(language, "belt.title", { belt: picture.title });
  return drawing(PAPER, foot.bottom, title, describe(picture, title), body);
}

/** Laid in the room where the fewest labels are left without a place, and there as large as can be. */
function largest(picture: BeltPicture): Laid {
  const missing = ({ labels }: Laid): number => labels.filter(({ placed }) => placed === null).length;
  return ROOMS.map((room) => laidIn(picture, room)).reduce((best, other) => {
    const fewer = missing(best) - missing(other);
    return fewer > 0 || (fewer === 0 && other.scale.factor > best.scale.factor) ? other : best;
  });
}

function laidIn(picture: BeltPicture, room: { readonly width: number; readonly height: number }): Laid {
  const scale = scaleFor(picture.layout.pulleys, room);
  const origin = { x: (PAPER - scale.width) / 2, y: MARGIN };
  const place = (point: Point) => scale.place(point, origin);
  const discs = picture.layout.pulleys.map(({ centre, radius }) => ({
    centre: place(centre),
    radius: radius * scale.factor,
  }));
  const bottom = origin.y + scale.height + MARGIN;
  const inTheWay = obstaclesOf(picture, discs, place, scale.factor);
  return { scale, place, discs, bottom, labels: labelsOf(picture, discs, inTheWay, bottom) };
}

/** The tensioners that the belt touches: the direction of their travel, and how far it goes on the paper. */
function tensioners(
  { layout, path }: BeltPicture,
  discs: readonly Disc[],
  factor: number,
): readonly { readonly disc: Disc; readonly bisector: number; readonly travel: number }[] {
  return layout.pulleys.flatMap(({ travel }, index) => {
    const [disc, wrap] = [discs[index], path.wraps[index]];
    if (!disc || !wrap?.touched || travel === 0) return [];
    const half = ((wrap.round === "anticlockwise" ? 1 : -1) * wrap.angle) / 2;
    return [{ disc, bisector: wrap.from + half, travel: travel * factor }];
  });
}

/** The arrow of turning lies at the top, or away from a mark on the rim. */
function turnAt({ marks }: BeltPicture, index: number): number {
  const mark = marks.find((m) => m.pulley === index && m.angle !== null);
  return mark?.angle == null ? Math.PI / 2 : mark.angle + Math.PI;
}

/** What labels keep clear of: pulleys, belt, marks and the travel of tensioners. */
function obstaclesOf(
  picture: BeltPicture,
  discs: readonly Disc[],
  place: (point: Point) => Point,
  factor: number,
): Obstacles {
  const rims = discs.map(({ centre, radius }) => ({ centre, radius: Math.max(radius + BELT / 2, BADGE) }));
  const marks = picture.marks.flatMap(({ pulley, angle }) =>
    angle === null ? [] : [markSpot(discs[pulley] as Disc, angle)],
  );
  const spans = picture.path.spans.map(({ start, end }) => ({ start: place(start), end: place(end) }));
  const travels = tensioners(picture, discs, factor).map(({ disc, bisector, travel }) => {
    const [start, end] = tensionerEnds(disc, bisector, travel);
    return { start, end };
  });
  return { circles: [...rims, ...marks], lines: [...spans, ...travels], boxes: [] };
}

/** The label of each pulley, its name and what is said of it, and where it goes. */
function labelsOf(
  picture: BeltPicture,
  discs: readonly Disc[],
  obstacles: Obstacles,
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
    reach: Math.max(radius + BELT / 2, BADGE),
    ...sizeOf(lines[index] ?? []),
  }));
  const placed = placeLabels(wanted, obstacles, frame, middleOf(discs));
  return lines.map((own, index) => ({ lines: own, placed: placed[index] ?? null }));
}

function middleOf(discs: readonly Disc[]): Point {
  const sum = discs.reduce((s, { centre }) => ({ x: s.x + centre.x, y: s.y + centre.y }), { x: 0, y: 0 });
  return { x: sum.x / discs.length, y: sum.y / discs.length };
}
