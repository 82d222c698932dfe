/** Layouts of belts for tests: made by hand, and by chance from a seed. */
import type { Layout, Pulley, Round } from "../../server/mechanics/belts";
import { below, type Random } from "../support/random";

/** A pulley that stays put, by its pitch diameter. */
export function pulley(x: number, y: number, diameter: number, more: Partial<Pulley> = {}): Pulley {
  return { centre: { x, y }, radius: diameter / 2, side: "inside", teeth: null, travel: 0, ...more };
}

export const round = (pulleys: readonly Pulley[], way: Round | null = "clockwise"): Layout => ({
  pulleys,
  round: way,
});

const between = (random: Random, low: number, high: number) => low + (high - low) * random();

/** Circles by chance, none of which runs into another. */
export function apart(random: Random, count: number): Pulley[] {
  const placed: Pulley[] = [];
  while (placed.length < count) {
    const next = pulley(between(random, 0, 600), between(random, 0, 600), between(random, 20, 140));
    const free = placed.every(
      (p) => Math.hypot(p.centre.x - next.centre.x, p.centre.y - next.centre.y) > p.radius + next.radius + 1,
    );
    if (free) placed.push(next);
  }
  return placed;
}

/** Pulleys inside and out, anticlockwise round the middle of the view; most such layouts hold a belt. */
export function ringOf(random: Random, count: number): Layout {
  for (;;) {
    const pulleys = Array.from({ length: count }, (_, index) => {
      const angle = (2 * Math.PI * (index + between(random, -0.3, 0.3))) / count;
      const back = index % 2 === 1 && below(random, 3) > 0;
      const away = back ? between(random, 90, 240) : between(random, 160, 300);
      return pulley(away * Math.cos(angle), away * Math.sin(angle), between(random, 25, 110), {
        side: back ? "back" : "inside",
      });
    });
    const free = pulleys.every((a, i) =>
      pulleys.every(
        (b, j) =>
          i <= j || Math.hypot(a.centre.x - b.centre.x, a.centre.y - b.centre.y) > a.radius + b.radius + 2,
      ),
    );
    if (free) return round(pulleys, "anticlockwise");
  }
}

/** The perimeter of the hull of circles by Cauchy's formula: the integral of the support function over all directions. */
export function hullPerimeter(pulleys: readonly Pulley[], steps = 2048): number {
  let sum = 0;
  for (let step = 0; step < steps; step++) {
    const angle = (2 * Math.PI * step) / steps;
    const [x, y] = [Math.cos(angle), Math.sin(angle)];
    let most = Number.NEGATIVE_INFINITY;
    for (const { centre, radius } of pulleys) most = Math.max(most, centre.x * x + centre.y * y + radius);
    sum += most;
  }
  return (sum * 2 * Math.PI) / steps;
}

/** A circle as the corners of a polygon, in the sense a belt walks it. */
function polygon({ centre, radius, side }: Pulley, corners: number) {
  const sense = side === "inside" ? 1 : -1;
  const angles = Array.from({ length: corners }, (_, step) => (sense * 2 * Math.PI * step) / corners);
  return {
    sense,
    x: Float64Array.from(angles, (angle) => centre.x + radius * Math.cos(angle)),
    y: Float64Array.from(angles, (angle) => centre.y + radius * Math.sin(angle)),
  };
}

type Polygon = ReturnType<typeof polygon>;

/** The corner of `of`, starting from one, that leaves no other on the wrong side of the line with the point (x, y). */
function touching(of: Polygon, from: number, x: number, y: number, way: 1 | -1): number {
  let found = from;
  for (let corner = 0; corner < of.x.length; corner++) {
    const [bx, by] = [of.x[found] as number, of.y[found] as number];
    const side = (bx - x) * ((of.y[corner] as number) - by) - (by - y) * ((of.x[corner] as number) - bx);
    if (side * of.sense * way < 0) found = corner;
  }
  return found;
}

/** A tight belt as sampling finds it: the length in all, the ends of each span, the share of a turn round each pulley. */
export interface Sampled {
  readonly length: number;
  /** The one from each pulley to the next. */
  readonly spans: readonly (readonly [x: number, y: number, toX: number, toY: number])[];
  readonly wraps: readonly number[];
}

/**
 * A tight belt, walked anticlockwise, by sampling: each pulley is a polygon, and each span the pair of
 * corners whose line has all corners of both on their own sides, found by trying corners one after the other. No tangent,
 * angle or arc is computed; it converges as the corners grow.
 */
export function sampled({ pulleys }: Layout, corners = 400): Sampled {
  const polygons = pulleys.map((p) => polygon(p, corners));
  const arrive: number[] = [];
  const leave: number[] = [];
  const spans = polygons.map((a, index) => {
    const to = (index + 1) % polygons.length;
    const b = polygons[to] as Polygon;
    let [p, q] = [0, 0];
    for (let tries = 0, moved = true; moved && tries < 50; tries++) {
      const [before, after] = [p, q];
      p = touching(a, p, b.x[q] as number, b.y[q] as number, -1);
      q = touching(b, q, a.x[p] as number, a.y[p] as number, 1);
      moved = p !== before || q !== after;
    }
    leave[index] = p;
    arrive[to] = q;
    return [a.x[p] as number, a.y[p] as number, b.x[q] as number, b.y[q] as number] as const;
  });
  const steps = pulleys.map((_, i) => ((leave[i] as number) - (arrive[i] as number) + corners) % corners);
  const straight = spans.reduce((sum, [x, y, toX, toY]) => sum + Math.hypot(toX - x, toY - y), 0);
  const chord = 2 * Math.sin(Math.PI / corners);
  const length = pulleys.reduce(
    (sum, { radius }, i) => sum + (steps[i] as number) * radius * chord,
    straight,
  );
  return { length, spans, wraps: steps.map((step) => step / corners) };
}

/** The length of a tight belt, walked anticlockwise, by sampling. */
export const sampledLength = (layout: Layout, corners = 400): number => sampled(layout, corners).length;
