/**
 * The order in which the fasteners of a group are turned: as the writer gives it, or worked out where a method and the places of the
 * holes are said. Sheet, drawings and rules take it from here.
 */
import type { FastenerFacts, OrderMethod } from "../facts";
import { crosswise, distance, isCrosswise, isWholeOrder, middleOf, type Point } from "../mechanics/order";
import { fromMiddleOut, isFromMiddleOut } from "../mechanics/order-outwards";

/** A hole by its number, and where it lies in the view: metres, x to the right, y up. */
export interface PlacedHole {
  readonly number: number;
  readonly at: Point;
}

/** What an act, a stage or a fastener says of the order. */
export interface OrderSaid {
  readonly method: OrderMethod;
  readonly order: readonly number[];
}

/** The numbers of a group's holes: those of its layout, else from 1 to its count. Null where neither is said. */
export function holesOf({ numbered, count, countAt }: FastenerFacts): readonly number[] | null {
  if (numbered.length > 0) return [...new Set(numbered)];
  return countAt && count > 0 && count <= 1000
    ? Array.from({ length: count }, (_, index) => index + 1)
    : null;
}

/** Where all the holes lie, in the order of their list; null unless the centre of each is said. */
export function placesOf(facts: FastenerFacts): readonly PlacedHole[] | null {
  const holes = holesOf(facts);
  const places = new Map(
    facts.centres.map(({ hole, centre: [x, y] }) => [hole, pointOf(x.nominal?.si, y.nominal?.si)]),
  );
  const found = (holes ?? []).flatMap((number) => {
    const at = places.get(number);
    return at ? [{ number, at }] : [];
  });
  return holes !== null && found.length === holes.length && found.length > 0 ? found : null;
}

const pointOf = (x: number | undefined, y: number | undefined): Point | null =>
  x === undefined || y === undefined ? null : { x, y };

/**
 * The holes' numbers in the order they are turned: the order given, else what the method comes to; empty where that is not decided. A
 * circle's holes are numbered round it in the order of their list; a row's along it. A grid needs the places of its holes.
 */
export function orderOf(facts: FastenerFacts, said: OrderSaid = facts): readonly number[] {
  if (said.order.length > 0) return said.order;
  const holes = holesOf(facts);
  if (holes === null || holes.length < 2 || said.method === null) return [];
  const found = said.method === "crosswise" ? acrossOf(facts, holes) : outwardsOf(facts, holes, said.method);
  return found ?? [];
}

function acrossOf(facts: FastenerFacts, holes: readonly number[]): readonly number[] | null {
  const places = placesOf(facts);
  const round = places
    ? isRound(places)
      ? byAngle(places)
      : null
    : facts.layout === "circle"
      ? holes
      : null;
  return (round && crosswise(round.length)?.map((turn) => round[turn - 1] ?? 0)) ?? null;
}

/** Holes whose distances from their middle differ by no more than this share lie on a circle, or on something like one. */
const ROUND = 0.25;

/** Whether crosswise means something: in a long grid it is said of ways that differ from shop to shop. */
function isRound(places: readonly PlacedHole[]): boolean {
  const middle = middleOf(places.map(({ at }) => at));
  if (middle === null) return false;
  const out = places.map(({ at }) => distance(at, middle));
  return Math.min(...out) >= Math.max(...out) * (1 - ROUND) && Math.max(...out) > 0;
}

/** The holes as they lie round their middle, clockwise from the first. */
function byAngle(places: readonly PlacedHole[]): readonly number[] | null {
  const middle = middleOf(places.map(({ at }) => at));
  const first = places[0];
  if (middle === null || first === undefined) return null;
  const angle = ({ at }: PlacedHole): number => Math.atan2(at.y - middle.y, at.x - middle.x);
  const fromFirst = (hole: PlacedHole): number =>
    hole === first ? 0 : (angle(first) - angle(hole) + 2 * Math.PI) % (2 * Math.PI);
  return [...places].sort((a, b) => fromFirst(a) - fromFirst(b)).map(({ number }) => number);
}

function outwardsOf(
  facts: FastenerFacts,
  holes: readonly number[],
  method: OrderMethod,
): readonly number[] | null {
  const points = pointsOf(facts, holes);
  const out = points && fromMiddleOut(points)?.map((turn) => holes[turn - 1] ?? 0);
  return out && method === "from-ends" ? [...out].reverse() : (out ?? null);
}

/** Where the holes lie: as is said, or along a row, one apart. */
function pointsOf(facts: FastenerFacts, holes: readonly number[]): readonly Point[] | null {
  const places = placesOf(facts)?.map(({ at }) => at);
  return places ?? (facts.layout === "row" ? holes.map((_, index) => ({ x: index, y: 0 })) : null);
}

/** Whether an order given keeps to the method said with it; null where that cannot be told. */
export function keeps(facts: FastenerFacts, { method, order }: OrderSaid): boolean | null {
  const holes = holesOf(facts);
  if (holes === null || method === null) return null;
  const turns = order.map((hole) => holes.indexOf(hole) + 1);
  if (!isWholeOrder(turns, holes.length)) return null;
  if (method === "crosswise") {
    const places = placesOf(facts);
    const onCircle = facts.layout === "circle" ? holes.length : null;
    const round = places === null ? onCircle : isRound(places) ? places.map(({ at }) => at) : null;
    return round === null ? null : isCrosswise(turns, round);
  }
  const points = pointsOf(facts, holes);
  const outwards = method === "from-ends" ? [...turns].reverse() : turns;
  return points && isFromMiddleOut(outwards, points);
}
