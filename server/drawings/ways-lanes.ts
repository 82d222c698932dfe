/**
 * The lanes at the right of a drawing of the ways: ways that leave a shape there go up or down to where they come in
 * again. All that come in at one place share a lane; lanes that would meet lie beside each other, the shorter one inside.
 */
import type { Point } from "../mechanics/belts";

/** A line from place to place, with an arrow at its end where it leads into something. */
export interface Line {
  readonly points: readonly Point[];
  readonly arrow: boolean;
}

/** A way that goes on in another drawing: a circle with the number of the step it goes on at. */
export interface Connector {
  readonly at: Point;
  readonly words: string;
}

/** A way that leaves a shape at its right, and where it is to come in. */
export interface Exit {
  readonly from: Point;
  readonly to: string;
  /** The number of the step it leads to, for where that is in another drawing. */
  readonly number: string;
}

export interface Lanes {
  readonly lines: readonly Line[];
  readonly connectors: readonly Connector[];
  /** How much room they take beside the shapes. */
  readonly room: number;
}

interface Lane {
  readonly join: Point;
  readonly exits: readonly Exit[];
  readonly top: number;
  readonly bottom: number;
}

const APART = 2.6;
const FIRST = 3;
/** The radius of a connector, and how far it is from the shapes. */
export const CIRCLE = 3;
const OFF = 1.6;

/** Lays the ways from exits to where they come in, from an x on; those that come in nowhere here end in a circle. */
export function laneLines(exits: readonly Exit[], joins: ReadonlyMap<string, Point>, from: number): Lanes {
  const lanes = lanesOf(exits, joins);
  const away = exits.filter(({ to }) => !joins.has(to));
  const places: Lane[][] = [];
  for (const lane of [...lanes].sort((a, b) => a.bottom - a.top - (b.bottom - b.top) || a.top - b.top)) {
    const free = places.find((taken) =>
      taken.every((other) => other.bottom < lane.top - 0.5 || lane.bottom < other.top - 0.5),
    );
    if (free) free.push(lane);
    else places.push([lane]);
  }
  const circles = away.length > 0 ? OFF + 2 * CIRCLE : 0;
  const first = from + circles + FIRST;
  return {
    lines: [
      ...places.flatMap((taken, place) => taken.flatMap((lane) => linesOf(lane, first + place * APART))),
      ...away.map(({ from: at }) => ({ points: [at, { x: from + OFF, y: at.y }], arrow: true })),
    ],
    connectors: away.map(({ from: at, number }) => ({
      at: { x: from + OFF + CIRCLE, y: at.y },
      words: number,
    })),
    room: circles + (places.length > 0 ? FIRST + (places.length - 1) * APART : 0) + 0.5,
  };
}

function lanesOf(exits: readonly Exit[], joins: ReadonlyMap<string, Point>): readonly Lane[] {
  return [...new Set(exits.map(({ to }) => to))].flatMap((to) => {
    const join = joins.get(to);
    if (!join) return [];
    const own = exits.filter((exit) => exit.to === to);
    const ys = [join.y, ...own.map((exit) => exit.from.y)];
    return [{ join, exits: own, top: Math.min(...ys), bottom: Math.max(...ys) }];
  });
}

/** Above and below where a lane comes in, the line of the farthest way is whole; those between come onto it. */
function linesOf({ join, exits }: Lane, x: number): readonly Line[] {
  return [exits.filter(({ from }) => from.y <= join.y), exits.filter(({ from }) => from.y > join.y)].flatMap(
    (side) =>
      [...side]
        .sort((a, b) => Math.abs(b.from.y - join.y) - Math.abs(a.from.y - join.y))
        .map(({ from }, index) => ({
          points:
            index === 0
              ? [from, { x, y: from.y }, { x, y: join.y }, { x: join.x, y: join.y }]
              : [from, { x, y: from.y }],
          arrow: index === 0,
        })),
  );
}
