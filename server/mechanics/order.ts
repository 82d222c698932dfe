/**
 * The order in which the bolts of a circle are tightened, so that the part is drawn down evenly: crosswise, a star for an odd count.
 * Holes are numbered round the circle from 1; an order is their numbers one after the other.
 */

/** No flange has more; a larger count is refused rather than worked out. */
const mostHoles = 1000;

/**
 * The crosswise order for so many holes on a circle. Of an even count every bolt is followed by the one opposite, and the pairs follow
 * one another as the bolts of half the count would (1, 7, 4, 10, 2, 8, 5, 11 …); of an odd count each step is the whole number next
 * under half, which makes the star of five (1, 3, 5, 2, 4). For 4 to 24 bolts that gives the star patterns of flange practice
 * (ASME PCC-1, cross-pattern tightening).
 *
 * @returns null for a count that is no whole number from 1 to 1000
 */
export function crosswise(count: number): readonly number[] | null {
  return isCount(count) ? spread(count).map((index) => index + 1) : null;
}

/** The numbers from 0 to under the count, each as far across from the last as the rule above has it. */
function spread(count: number): number[] {
  if (count % 2 === 0) return spread(count / 2).flatMap((one) => [one, one + count / 2]);
  const step = Math.max(1, (count - 1) / 2);
  return Array.from({ length: count }, (_, index) => (index * step) % count);
}

/** Whether so many holes can be. */
export function isCount(count: number): boolean {
  return Number.isInteger(count) && count >= 1 && count <= mostHoles;
}

/** A hole's place, in any unit of length; x to the right, y up or down. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/**
 * Whether a given order is crosswise. It is when every bolt lies more than a quarter turn from the one before it; only after two
 * opposite bolts may the next pair begin anywhere (of an odd count, where no two are quite opposite, anywhere but beside the last). So no
 * bolt is tightened on the side that has just been drawn down unless the far side has been drawn down too, which is what the
 * crosswise order is for. Going round the circle fails at its second bolt; the star patterns of flange practice, the wheel star,
 * crosses of four, triangles and opposite pairs going round all pass. The definition is this project's own.
 *
 * @param holes how many there are, evenly spaced; or where they are
 * @returns null where that cannot be told: the order does not name each hole once, or a hole lies in the middle
 */
export function isCrosswise(order: readonly number[], holes: number | readonly Point[]): boolean | null {
  const angles = anglesOf(holes);
  if (angles === null || !isWholeOrder(order, angles.length)) return null;
  const between = (a = 0, b = 0): number => apart(angles[a - 1] ?? 0, angles[b - 1] ?? 0);
  const spacing = (2 * Math.PI) / angles.length;
  const odd = angles.length % 2 === 1;
  return order.every((hole, index) => {
    if (index === 0) return true;
    const step = between(order[index - 1], hole);
    if (step > Math.PI / 2 + slack) return true;
    const pairDone =
      index > 1 && between(order[index - 2], order[index - 1]) >= Math.PI - spacing / 2 - slack;
    return pairDone && (!odd || step > 1.5 * spacing);
  });
}

/** Far under any angle between two holes. */
const slack = 1e-6;

/** Where the holes are as seen from their middle, in radians; null where one lies there or a figure is none. */
function anglesOf(holes: number | readonly Point[]): number[] | null {
  if (typeof holes === "number") {
    return isCount(holes) ? Array.from({ length: holes }, (_, index) => (2 * Math.PI * index) / holes) : null;
  }
  const middle = middleOf(holes);
  if (middle === null) return null;
  const size = Math.max(...holes.map((hole) => distance(hole, middle)));
  if (holes.some((hole) => distance(hole, middle) <= size * 1e-3)) return null;
  return holes.map(({ x, y }) => Math.atan2(y - middle.y, x - middle.x));
}

/** The smaller angle between two directions. */
function apart(a: number, b: number): number {
  const turned = Math.abs(a - b) % (2 * Math.PI);
  return Math.min(turned, 2 * Math.PI - turned);
}

/** The middle of the holes; null for none, for too many, and for figures that are not finite. */
export function middleOf(holes: readonly Point[]): Point | null {
  if (!isCount(holes.length)) return null;
  const mean = (pick: (hole: Point) => number): number =>
    holes.reduce((sum, hole) => sum + pick(hole) / holes.length, 0);
  const middle = { x: mean((h) => h.x), y: mean((h) => h.y) };
  const reach = holes.reduce((most, hole) => most + distance(hole, middle), 0);
  return Number.isFinite(reach) ? middle : null;
}

export const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** What is wrong with an order, hole by hole. */
export interface OrderFaults {
  /** Holes there are that the order leaves out. */
  readonly skipped: readonly number[];
  /** Holes the order names more than once. */
  readonly repeated: readonly number[];
  /** Numbers the order names that are no holes. */
  readonly unknown: readonly number[];
}

/**
 * Holes an order skips, repeats or makes up.
 *
 * @param holes how many there are, numbered from 1; or their numbers
 * @returns null for a count that is no whole number from 1 to 1000
 */
export function orderFaults(order: readonly number[], holes: number | readonly number[]): OrderFaults | null {
  if (typeof holes === "number" && !isCount(holes)) return null;
  const all = typeof holes === "number" ? Array.from({ length: holes }, (_, index) => index + 1) : holes;
  const [there, said] = [new Set(all), new Set(order)];
  return {
    skipped: [...there].filter((hole) => !said.has(hole)),
    repeated: [...said].filter((hole) => order.indexOf(hole) !== order.lastIndexOf(hole)),
    unknown: [...said].filter((hole) => !there.has(hole)),
  };
}

/** Whether an order names every hole from 1 to the count once. */
export function isWholeOrder(order: readonly number[], count: number): boolean {
  const faults = orderFaults(order, count);
  return faults !== null && order.length === count && faults.skipped.length === 0;
}
