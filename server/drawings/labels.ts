/**
 * Where labels go: beside what they name, over nothing else. Millimetres on the paper, y down.
 */
import type { Point } from "../mechanics/belts";

/** A rectangle by its middle and half its width and height. */
export interface Box {
  readonly centre: Point;
  readonly halfWidth: number;
  readonly halfHeight: number;
}

/** What labels keep clear of. */
export interface Obstacles {
  readonly circles: readonly { readonly centre: Point; readonly radius: number }[];
  readonly lines: readonly { readonly start: Point; readonly end: Point }[];
  readonly boxes: readonly Box[];
}

/** A label that wants a place: beside a circle. */
export interface Wanted {
  readonly anchor: Point;
  /** The radius it stands clear of. */
  readonly reach: number;
  readonly width: number;
  readonly height: number;
}

/** A place found; a leader is drawn to it where it stands further off. */
export interface Placed {
  readonly box: Box;
  /** Of what it names: its lines end there, begin there, or are set about the middle. */
  readonly side: "left" | "right" | "middle";
  readonly leader: { readonly start: Point; readonly end: Point } | null;
}

/** Nearest first: how far a label may stand off. */
const DISTANCES = [1.6, 3, 6, 10, 15, 21];
/** Directions tried, evenly round. */
const DIRECTIONS = 32;
/** Off by more than this it gets a leader. */
const LEADER = 4;
/** Between a label and anything else. */
const CLEAR = 1;

/**
 * Finds places for labels one after the other, each clear of the obstacles, of the labels before it and of the frame's
 * edge; null for one that finds none.
 *
 * @param middle what labels turn away from, where they can
 */
export function placeLabels(
  labels: readonly Wanted[],
  obstacles: Obstacles,
  frame: Box,
  middle: Point,
): readonly (Placed | null)[] {
  const boxes = [...obstacles.boxes];
  const lines = [...obstacles.lines];
  return labels.map((label) => {
    const placed = placeOne(label, { circles: obstacles.circles, lines, boxes }, frame, middle);
    if (placed) boxes.push(placed.box);
    if (placed?.leader) lines.push(placed.leader);
    return placed;
  });
}

function placeOne(label: Wanted, obstacles: Obstacles, frame: Box, middle: Point): Placed | null {
  const { anchor, reach } = label;
  const outwards = Math.atan2(anchor.y - middle.y, anchor.x - middle.x);
  for (const distance of DISTANCES)
    for (let step = 0; step < DIRECTIONS; step++) {
      // Straight outwards, then a little to either side, and so on round.
      const off = (step % 2 === 0 ? 1 : -1) * Math.ceil(step / 2) * ((2 * Math.PI) / DIRECTIONS);
      const way = { x: Math.cos(outwards + off), y: Math.sin(outwards + off) };
      const box = boxTowards(label, way, reach + distance);
      const edge = { x: anchor.x + way.x * reach, y: anchor.y + way.y * reach };
      const end = { x: anchor.x + way.x * (reach + distance), y: anchor.y + way.y * (reach + distance) };
      const leader = distance > LEADER ? { start: edge, end } : null;
      if (inFrame(box, frame) && isClear(box, obstacles) && (!leader || leads(leader, obstacles, label)))
        return { box, side: way.x < -0.6 ? "left" : way.x > 0.6 ? "right" : "middle", leader };
    }
  return null;
}

/** The box that touches the point `distance` away with the edge or corner that faces the anchor. */
function boxTowards({ anchor, width, height }: Wanted, way: Point, distance: number): Box {
  const stretch = 1 / Math.max(Math.abs(way.x), Math.abs(way.y));
  return {
    centre: {
      x: anchor.x + way.x * distance + (way.x * stretch * width) / 2,
      y: anchor.y + way.y * distance + (way.y * stretch * height) / 2,
    },
    halfWidth: width / 2,
    halfHeight: height / 2,
  };
}

const inFrame = (box: Box, frame: Box): boolean =>
  Math.abs(box.centre.x - frame.centre.x) + box.halfWidth <= frame.halfWidth &&
  Math.abs(box.centre.y - frame.centre.y) + box.halfHeight <= frame.halfHeight;

/** Whether a box keeps clear of everything. */
export function isClear(box: Box, { circles, lines, boxes }: Obstacles): boolean {
  return (
    circles.every(({ centre, radius }) => distanceToBox(centre, box) >= radius + CLEAR) &&
    boxes.every((other) => apart(box, other)) &&
    lines.every(({ start, end }) => !meets(box, start, end))
  );
}

const apart = (a: Box, b: Box): boolean =>
  Math.abs(a.centre.x - b.centre.x) >= a.halfWidth + b.halfWidth + CLEAR ||
  Math.abs(a.centre.y - b.centre.y) >= a.halfHeight + b.halfHeight + CLEAR;

/** A leader runs over no label and no pulley but its own. */
function leads({ start, end }: { start: Point; end: Point }, obstacles: Obstacles, label: Wanted): boolean {
  const over = (box: Box) => meets(box, start, end);
  return (
    !obstacles.boxes.some(over) &&
    obstacles.circles.every(
      ({ centre, radius }) =>
        (centre.x === label.anchor.x && centre.y === label.anchor.y) ||
        !over({ centre, halfWidth: radius, halfHeight: radius }),
    )
  );
}

function distanceToBox(point: Point, { centre, halfWidth, halfHeight }: Box): number {
  const dx = Math.max(0, Math.abs(point.x - centre.x) - halfWidth);
  const dy = Math.max(0, Math.abs(point.y - centre.y) - halfHeight);
  return Math.hypot(dx, dy);
}

/** Whether a line comes nearer to a box than it should: the line is clipped to it side by side (Liang and Barsky). */
function meets({ centre, halfWidth, halfHeight }: Box, start: Point, end: Point): boolean {
  let [from, to] = [0, 1];
  const [dx, dy] = [end.x - start.x, end.y - start.y];
  const sides: readonly (readonly [number, number])[] = [
    [-dx, start.x - (centre.x - halfWidth - CLEAR)],
    [dx, centre.x + halfWidth + CLEAR - start.x],
    [-dy, start.y - (centre.y - halfHeight - CLEAR)],
    [dy, centre.y + halfHeight + CLEAR - start.y],
  ];
  for (const [step, room] of sides) {
    if (step === 0 && room < 0) return false;
    if (step < 0) from = Math.max(from, room / step);
    if (step > 0) to = Math.min(to, room / step);
  }
  return from <= to;
}
