/**
 * Belts as the judge reads and follows them: places, sizes and sides from the lines, and the tight path by sampling. It
 * shares no code with the checker.
 */
import type { Pulley } from "../../server/mechanics/belts";
import { type Sampled, sampled } from "../mechanics/belts-support";
import { bareLine } from "./nodes";

export interface Belt {
  readonly name: string;
  /** The lines of the head, of the way round, of the length or the number of teeth; -1 where it is not said. */
  readonly head: number;
  readonly path: number;
  readonly lengthAt: number;
  readonly round: "clockwise" | "anticlockwise" | null;
  readonly length: number | null;
  readonly pulleys: readonly BeltPulley[];
}

export interface BeltPulley extends Pulley {
  readonly name: string;
  readonly line: number;
  readonly shaft: string | null;
}

/** Every belt of which all figures are said, in the lines of a file. */
export function beltsIn(lines: readonly string[]): Belt[] {
  return lines.flatMap((line, head) => {
    const name = /^(?:belt|chain) ([\w-]+) "" \{$/.exec(bareLine(line))?.[1];
    const belt = name ? beltAt(lines, head, name) : null;
    return belt ? [belt] : [];
  });
}

function beltAt(lines: readonly string[], head: number, name: string): Belt | null {
  const isChain = bareLine(lines[head] as string).startsWith("chain");
  const inside: { at: number; text: string }[] = [];
  for (let at = head + 1; bareLine(lines[at] ?? "}") !== "}"; at++)
    inside.push({ at, text: bareLine(lines[at] as string).replace(/ +/g, " ") });
  const said = (pattern: RegExp): { at: number; match: RegExpExecArray } | null => {
    for (const { at, text } of inside) {
      const match = pattern.exec(text);
      if (match) return { at, match };
    }
    return null;
  };
  const pitch = Number(said(/^pitch ([\d.]+) mm/)?.match[1] ?? Number.NaN);
  const teeth = said(/^teeth (\d+)$/);
  const length = said(/^length ([\d.]+) mm/);
  const path = said(/^path ((?:anti)?clockwise)/);
  const pulleys = inside
    .filter(({ text }) => text.startsWith("pulley "))
    .map(({ at, text }) => pulleyOf(text, at, isChain, pitch));
  if (pulleys.length === 0 || pulleys.includes(null)) return null;
  return {
    name,
    head,
    path: path?.at ?? -1,
    lengthAt: teeth?.at ?? length?.at ?? -1,
    round: (path?.match[1] as Belt["round"]) ?? null,
    length: teeth ? Number(teeth.match[1]) * pitch : length ? Number(length.match[1]) : null,
    pulleys: pulleys as BeltPulley[],
  };
}

function pulleyOf(text: string, line: number, isChain: boolean, pitch: number): BeltPulley | null {
  const centre = / centre (-?[\d.]+) mm, (-?[\d.]+) mm/.exec(text);
  const teeth = Number(/ teeth (\d+)/.exec(text)?.[1] ?? Number.NaN);
  const byTeeth = isChain ? pitch / Math.sin(Math.PI / teeth) : (pitch * teeth) / Math.PI;
  const diameter = Number(/ diameter ([\d.]+) mm/.exec(text)?.[1] ?? byTeeth);
  if (!centre || Number.isNaN(diameter)) return null;
  return {
    name: text.split(" ")[1] as string,
    line,
    shaft: / on ([\w-]+)/.exec(text)?.[1] ?? null,
    centre: { x: Number(centre[1]), y: Number(centre[2]) },
    radius: diameter / 2,
    side: text.includes(" back of belt") ? "back" : "inside",
    teeth: Number.isNaN(teeth) ? null : teeth,
    travel: Number(/ travel ([\d.]+) mm/.exec(text)?.[1] ?? 0),
  };
}

/** Corners of a sampled pulley: a path is then right to one part in some ten thousand. */
const CORNERS = 160;

/** The tight path of a belt, walked as it says, or the other way. */
export function pathOf(belt: Pick<Belt, "pulleys" | "round">, otherWay = false): Sampled {
  const isReversed = (belt.round === "clockwise") !== otherWay;
  const pulleys = isReversed ? [...belt.pulleys].reverse() : belt.pulleys;
  const path = sampled({ pulleys, round: "anticlockwise" }, CORNERS);
  return isReversed ? { ...path, wraps: [...path.wraps].reverse() } : path;
}

/** Millimetres that decide: nearer than that, nothing is proved. */
const CLEAR = 1;
/** Wrapped further than this, a pulley is not wrapped but passed by. */
const PASSED_BY = 0.8;

/** What a path cannot be, by so much that no rounding explains it. */
export function faultIn(belt: Pick<Belt, "pulleys" | "round">, otherWay = false): Fault | null {
  const { pulleys } = belt;
  const isReversed = (belt.round === "clockwise") !== otherWay;
  const { spans, wraps } = pathOf(belt, otherWay);
  const order = isReversed ? [...pulleys].reverse() : pulleys;
  const crossing = spans.some((a, i) => spans.slice(i + 1).some((b) => cross(a, b)));
  const cut = spans.some((span, i) =>
    order.some(
      (pulley, at) =>
        at !== i && at !== (i + 1) % order.length && distanceTo(span, pulley) < pulley.radius - CLEAR,
    ),
  );
  const passed = wraps.flatMap((wrap, i) => (wrap > PASSED_BY ? [i] : []));
  if (passed.length > 0) return { kind: "passed by", pulleys: passed };
  return crossing || cut ? { kind: "crosses" } : null;
}

export type Fault =
  | { readonly kind: "crosses" }
  /** Pulleys by their place in the belt's lines. */
  | { readonly kind: "passed by"; readonly pulleys: readonly number[] };

type Span = Sampled["spans"][number];

/** Whether two spans cut each other, well within both. */
function cross([ax, ay, bx, by]: Span, [cx, cy, dx, dy]: Span): boolean {
  const ends = (px: number, py: number): number =>
    ((bx - ax) * (py - ay) - (by - ay) * (px - ax)) / Math.hypot(bx - ax, by - ay);
  const others = (px: number, py: number): number =>
    ((dx - cx) * (py - cy) - (dy - cy) * (px - cx)) / Math.hypot(dx - cx, dy - cy);
  const parted = (one: number, other: number): boolean =>
    one * other < 0 && Math.min(Math.abs(one), Math.abs(other)) > CLEAR;
  return parted(ends(cx, cy), ends(dx, dy)) && parted(others(ax, ay), others(bx, by));
}

function distanceTo([ax, ay, bx, by]: Span, { centre: { x, y } }: Pulley): number {
  const along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2);
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}

/** Whether two pulleys stand in each other. */
export const overlap = (a: Pulley, b: Pulley): boolean =>
  Math.hypot(a.centre.x - b.centre.x, a.centre.y - b.centre.y) < a.radius + b.radius - CLEAR;

/**
 * Longer or shorter than any path round the pulleys by more than a fiftieth: a tensioner moves half its travel either way
 * and takes in or gives at most twice that, whatever its wrap. 0 where that is not sure.
 */
export function tooLong({ length, pulleys, round }: Belt): -1 | 0 | 1 {
  if (length === null) return 0;
  const path = pathOf({ pulleys, round }).length;
  const gives = pulleys.reduce((sum, { travel }) => sum + travel, 0) + 0.021 * Math.max(length, path);
  if (Math.abs(length - path) <= gives) return 0;
  return length > path ? 1 : -1;
}
