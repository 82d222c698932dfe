/**
 * The pieces a drawing of a belt is made of: pulleys, the belt itself, arrows and marks. Millimetres on the paper, y down;
 * angles are kept as in the view, anticlockwise, and turned here.
 */
import type { BeltKind, BeltPath, Point, Pulley, Round, Running } from "../mechanics/belts";
import { arrowhead, circle, element, figure, line, TYPE, text } from "./svg";

/** A pulley on the paper. */
export interface Disc {
  readonly centre: Point;
  readonly radius: number;
}

/** The place on a disc at an angle of the view. */
export const onDisc = ({ centre, radius }: Disc, angle: number): Point => ({
  x: centre.x + radius * Math.cos(angle),
  y: centre.y - radius * Math.sin(angle),
});

/** How thick the belt is drawn. */
export const BELT = 0.9;
/** Half the width of the badge that a number stands on. */
export const BADGE = 2.6;

/**
 * A pulley: its rim under the belt, its teeth where it has some, a double ring on grey where the belt's back touches,
 * dots where nothing touches.
 */
export function pulleyPiece(disc: Disc, pulley: Pulley, touched: boolean): string {
  const rim = Math.max(0.4, disc.radius - BELT / 2);
  const back = pulley.side === "back";
  const pieces = [
    circle(disc.centre, rim, {
      fill: back ? "#ddd" : "#fff",
      stroke: "#000",
      "stroke-width": 0.3,
      ...(touched ? {} : { "stroke-dasharray": "0.8 0.8" }),
    }),
  ];
  if (back && rim > 2)
    pieces.push(circle(disc.centre, rim - 1, { fill: "none", stroke: "#000", "stroke-width": 0.3 }));
  if (!back && pulley.teeth !== null) pieces.push(teethPiece(disc.centre, rim - 0.5, pulley.teeth));
  return pieces.join("");
}

/** Teeth are dashes of half the pitch; finer ones than can be seen are left out. */
function teethPiece(centre: Point, radius: number, teeth: number): string {
  const half = (Math.PI * radius) / teeth;
  if (!(half >= 0.3) || radius < 2) return "";
  return circle(centre, radius, {
    fill: "none",
    stroke: "#000",
    "stroke-width": 0.9,
    "stroke-dasharray": `${half.toFixed(4)} ${half.toFixed(4)}`,
  });
}

/** A number in the order of the path or run, on a badge; a pulley on the belt's back has a grey one. */
export function badge(at: Point, words: string, grey = false): string {
  return (
    circle(at, BADGE, { fill: grey ? "#ddd" : "#fff", stroke: "#000", "stroke-width": 0.25 }) +
    text({ x: at.x, y: at.y + TYPE.number * 0.36 }, words, TYPE.number, {
      "text-anchor": "middle",
      "font-weight": "bold",
    })
  );
}

/** The belt: one closed line where it is sound; span by span, the faulty ones dashed, where it is not. */
export function beltPiece(
  path: BeltPath,
  discs: readonly Disc[],
  place: (point: Point) => Point,
  kind: BeltKind,
): string {
  const look = {
    fill: "none",
    stroke: "#000",
    "stroke-width": BELT,
    ...(kind === "chain" ? { "stroke-dasharray": "1.6 0.7" } : {}),
  };
  const faulty = new Set([...(path.sound ? [] : path.crossings.flat()), ...path.cuts.map((cut) => cut.span)]);
  const spans = path.spans.map(({ start, end }, index) =>
    line(place(start), place(end), faulty.has(index) ? { ...look, "stroke-dasharray": "2.4 1.6" } : look),
  );
  const arcs = path.wraps.map((wrap, index) => {
    const disc = discs[index];
    if (!wrap.touched || !disc || wrap.angle === 0) return "";
    return element("path", { d: arc(disc, wrap.from, wrap.angle, wrap.round), ...look });
  });
  return [...spans, ...arcs].join("");
}

/** An arc of a disc from an angle, so far round. In the view's sense; the paper's y is turned, and with it the flag. */
function arc(disc: Disc, from: number, angle: number, round: Round): string {
  const way = round === "anticlockwise" ? 1 : -1;
  const [start, end] = [onDisc(disc, from), onDisc(disc, from + way * angle)];
  const flags = `${angle > Math.PI ? 1 : 0} ${way === 1 ? 0 : 1}`;
  const [r, sx, sy, ex, ey] = [disc.radius, start.x, start.y, end.x, end.y].map(figure);
  return `M${sx} ${sy}A${r} ${r} 0 ${flags} ${ex} ${ey}`;
}

/** An arrow in the middle of each span long enough, the way the belt travels. */
export function travelPiece(path: BeltPath, running: Running, place: (point: Point) => Point): string {
  return path.spans
    .map(({ start, end }) => {
      const [a, b] = running.travel === "forwards" ? [place(start), place(end)] : [place(end), place(start)];
      const [dx, dy] = [b.x - a.x, b.y - a.y];
      const length = Math.hypot(dx, dy);
      if (length < 7) return "";
      const share = 0.5 + 1.8 / length;
      return arrowhead({ x: a.x + dx * share, y: a.y + dy * share }, Math.atan2(dy, dx), 3.6);
    })
    .join("");
}

/**
 * An arrow within a pulley, the way it turns; none where there is no room for it beside the number.
 *
 * @param middle where the arrow's middle lies: radians, anticlockwise from the x axis
 */
export function turnPiece(disc: Disc, turns: Round | null | undefined, middle: number): string {
  const radius = Math.min(disc.radius - 3, BADGE + 3);
  if (!turns || radius < BADGE + 1.2) return "";
  const way = turns === "anticlockwise" ? 1 : -1;
  const ring = { centre: disc.centre, radius };
  const [from, angle] = [middle - way * 0.9, 1.6];
  const tip = from + way * (angle + 0.35);
  const at = onDisc(ring, tip);
  // Along the ring, a little inwards, so that the head lies on the curve.
  const points = Math.atan2(-Math.cos(tip) * way, -Math.sin(tip) * way) - way * 0.18;
  return (
    element("path", { d: arc(ring, from, angle, turns), fill: "none", stroke: "#000", "stroke-width": 0.4 }) +
    arrowhead(at, points, 2)
  );
}

/** The travel of a tensioner: through its middle, along the bisector of its wrap, to scale but longer than it is wide. */
export function tensionerEnds({ centre, radius }: Disc, bisector: number, travel: number): [Point, Point] {
  const half = Math.max(travel / 2, radius + 3);
  return [onDisc({ centre, radius: half }, bisector), onDisc({ centre, radius: -half }, bisector)];
}

/** The travel of a tensioner as a double arrow. */
export function tensionerPiece(disc: Disc, bisector: number, travel: number): string {
  const [a, b] = tensionerEnds(disc, bisector, travel);
  const angle = Math.atan2(a.y - b.y, a.x - b.x);
  return (
    line(a, b, { stroke: "#000", "stroke-width": 0.3, "stroke-dasharray": "1.2 0.6" }) +
    arrowhead(a, angle, 2) +
    arrowhead(b, angle + Math.PI, 2)
  );
}

const MARK = 2.4;

/** A mark on a pulley's rim: a stroke across it, and a triangle that points at it from outside. */
export function markPiece(disc: Disc, angle: number): string {
  const at = (off: number) => onDisc({ centre: disc.centre, radius: disc.radius + off }, angle);
  return (
    line(at(-3), at(0.4), { stroke: "#000", "stroke-width": 0.7 }) +
    arrowhead(at(0.9), angle * -1 + Math.PI, MARK)
  );
}

/** The room that the triangle of a mark takes. */
export function markSpot({ centre, radius }: Disc, angle: number): Disc {
  return { centre: onDisc({ centre, radius: radius + 0.9 + MARK / 2 }, angle), radius: MARK / 2 };
}
