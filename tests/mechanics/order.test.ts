/** Orders of tightening: the published star patterns, what counts as crosswise, and from the middle out. */
import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { crosswise, isCrosswise, isWholeOrder, orderFaults, type Point } from "../../server/mechanics/order";
import { fromMiddleOut, isFromMiddleOut, passesOf } from "../../server/mechanics/order-outwards";
import { starPatterns } from "./published";

const upTo = (count: number): number[] => Array.from({ length: count }, (_, index) => index + 1);
const counts = Array.from({ length: 60 }, (_, index) => index + 1);

describe("crosswise", () => {
  it.each(starPatterns.map((pattern) => [pattern.length, pattern] as const))(
    "with %d bolts is the star pattern of flange practice",
    (count, pattern) => {
      expect(crosswise(count)).toEqual(pattern);
    },
  );

  test("with five is the wheel star, with six opposite pairs", () => {
    expect(crosswise(5)).toEqual([1, 3, 5, 2, 4]);
    expect(crosswise(6)).toEqual([1, 4, 2, 5, 3, 6]);
  });

  it.each(counts)("%d bolts: each once, and crosswise by its own definition", (count) => {
    const order = crosswise(count) ?? [];
    expect([...order].sort((a, b) => a - b)).toEqual(upTo(count));
    expect(isCrosswise(order, count)).toBe(true);
  });

  it.each([0, -1, 1.5, Number.NaN, Number.POSITIVE_INFINITY, 1e308, 1001])(
    "none for a count of %d",
    (count) => {
      expect(crosswise(count)).toBeNull();
      expect(isCrosswise([1], count)).toBeNull();
      expect(orderFaults([1], count)).toBeNull();
    },
  );
});

describe("a given order is crosswise", () => {
  it.each([
    ["four, the other way", [1, 3, 4, 2]],
    ["five, the star turned", [3, 1, 4, 2, 5]],
    ["five, backwards", [1, 4, 2, 5, 3]],
    ["six, pairs the other way about", [1, 4, 6, 3, 5, 2]],
    ["six, pairs going round", [1, 4, 3, 6, 5, 2]],
    ["six, in triangles", [1, 3, 5, 2, 4, 6]],
    ["eight, pairs going round", [1, 5, 2, 6, 3, 7, 4, 8]],
    ["eight, by steps of three", [1, 4, 7, 2, 5, 8, 3, 6]],
    ["nine, in triangles", [1, 4, 7, 2, 5, 8, 3, 6, 9]],
    ["ten, the five-star twice", [1, 5, 9, 3, 7, 2, 6, 10, 4, 8]],
  ])("%s", (_, order) => {
    expect(isCrosswise(order, order.length)).toBe(true);
  });

  test("going round is not, in either direction, from any hole, by one or by two", () => {
    for (const count of counts.filter((one) => one >= 4)) {
      for (const start of [0, 1, count - 1]) {
        const round = upTo(count).map((_, index) => ((start + index) % count) + 1);
        expect(isCrosswise(round, count)).toBe(false);
        expect(isCrosswise([...round].reverse(), count)).toBe(false);
      }
    }
    expect(isCrosswise([1, 3, 5, 7, 9, 11, 2, 4, 6, 8, 10, 12], 12)).toBe(false);
  });

  test("one slip in a star is found", () => {
    expect(isCrosswise([1, 5, 7, 3, 2, 6, 4, 8], 8)).toBe(true);
    expect(isCrosswise([1, 5, 3, 2, 7, 6, 4, 8], 8)).toBe(false);
    expect(isCrosswise([1, 2, 3, 4, 5], 5)).toBe(false);
    expect(isCrosswise([1, 3, 4, 2, 5], 5)).toBe(false);
  });

  test("holes by their places are judged by where they are", () => {
    const circle = (count: number): Point[] =>
      upTo(count).map((hole) => ({
        x: 30 + 50 * Math.cos((7 * hole) / count),
        y: 50 * Math.sin((7 * hole) / count),
      }));
    const even = (count: number): Point[] =>
      upTo(count).map((hole) => ({
        x: 30 + 50 * Math.cos((2 * Math.PI * hole) / count),
        y: -50 * Math.sin((2 * Math.PI * hole) / count),
      }));
    for (const count of counts.filter((one) => one >= 4)) {
      expect(isCrosswise(crosswise(count) ?? [], even(count))).toBe(true);
      expect(isCrosswise(upTo(count), even(count))).toBe(false);
    }
    expect(isCrosswise(upTo(6), circle(6))).toBe(false);
    const corners = [
      { x: 0, y: 0 },
      { x: 60, y: 0 },
      { x: 60, y: 40 },
      { x: 0, y: 40 },
    ];
    expect(isCrosswise([1, 3, 2, 4], corners)).toBe(true);
    expect(isCrosswise([1, 2, 3, 4], corners)).toBe(false);
  });

  test("it cannot be told where a hole lies in the middle, or the order is not whole", () => {
    const withMiddle = [
      { x: -1, y: 0 },
      { x: 1, y: 0 },
      { x: 0, y: 0 },
    ];
    expect(isCrosswise([1, 2, 3], withMiddle)).toBeNull();
    expect(isCrosswise([1, 3, 2], 4)).toBeNull();
    expect(isCrosswise([1, 3, 2, 2], 4)).toBeNull();
  });
});

describe("faults of an order", () => {
  test("what is skipped, repeated and made up", () => {
    expect(orderFaults([2, 5, 1, 6, 3, 4], 6)).toEqual({ skipped: [], repeated: [], unknown: [] });
    expect(orderFaults([2, 5, 1, 5, 9], 6)).toEqual({ skipped: [3, 4, 6], repeated: [5], unknown: [9] });
    expect(orderFaults([1, 3], [1, 3, 7])).toEqual({ skipped: [7], repeated: [], unknown: [] });
  });
});

/** A head of so many columns and rows, numbered row by row. */
const grid = (columns: number, rows: number, dx = 90, dy = 80): Point[] =>
  Array.from({ length: columns * rows }, (_, index) => ({
    x: (index % columns) * dx,
    y: Math.floor(index / columns) * dy,
  }));

describe("from the middle out", () => {
  test("on a head of two rows of five, as engine manuals have it: the middle pair, then corner to corner outwards", () => {
    expect(fromMiddleOut(grid(5, 2))).toEqual([3, 8, 2, 9, 7, 4, 6, 5, 1, 10]);
  });

  test("in a row, to and fro", () => {
    expect(fromMiddleOut(grid(5, 1))).toEqual([3, 2, 4, 1, 5]);
    expect(fromMiddleOut(grid(4, 1))).toEqual([2, 3, 1, 4]);
  });

  test("what it gives is from the middle out, names each hole once, and does not care where the part stands or how large it is", () => {
    const shapes = fc.record({
      columns: fc.integer({ min: 1, max: 8 }),
      rows: fc.integer({ min: 1, max: 4 }),
      dx: fc.double({ min: 1, max: 200, noNaN: true }),
      dy: fc.double({ min: 1, max: 200, noNaN: true }),
      x: fc.double({ min: -1000, max: 1000, noNaN: true }),
    });
    fc.assert(
      fc.property(shapes, ({ columns, rows, dx, dy, x }) => {
        const places = grid(columns, rows, dx, dy).map((place) => ({ ...place, x: place.x + x }));
        const order = fromMiddleOut(places) ?? [];
        expect(isWholeOrder(order, places.length)).toBe(true);
        expect(isFromMiddleOut(order, places)).toBe(true);
      }),
    );
  });

  it.each([
    [5, 2, upTo(10)],
    [5, 2, [1, 10, 5, 6, 4, 7, 2, 9, 3, 8]],
    [4, 1, [1, 2, 3, 4]],
    [3, 3, [1, 9, 3, 7, 5, 2, 8, 4, 6]],
  ])("%d by %d in the order %j is not", (columns, rows, order) => {
    expect(isFromMiddleOut(order, grid(columns, rows))).toBe(false);
  });

  test("a square spiral along the rows passes", () => {
    expect(isFromMiddleOut([5, 6, 9, 8, 7, 4, 1, 2, 3], grid(3, 3, 80, 80))).toBe(true);
  });

  test("places that are none give none", () => {
    expect(fromMiddleOut([])).toBeNull();
    expect(fromMiddleOut([{ x: Number.NaN, y: 0 }])).toBeNull();
    expect(
      fromMiddleOut([
        { x: 1e308, y: 0 },
        { x: -1e308, y: 1e308 },
      ]),
    ).toBeNull();
    expect(isFromMiddleOut([1, 1], grid(2, 1))).toBeNull();
  });

  test("places that coincide are still named once each", () => {
    const places = [
      { x: 1, y: 1 },
      { x: 1, y: 1 },
      { x: 1, y: 1 },
    ];
    expect([...(fromMiddleOut(places) ?? [])].sort()).toEqual([1, 2, 3]);
  });
});

test("stages are passes: all bolts to one before any to the next", () => {
  expect(passesOf([1, 3, 2], 2)).toEqual([
    { stage: 1, order: [1, 3, 2] },
    { stage: 2, order: [1, 3, 2] },
  ]);
  expect(passesOf([1], Number.NaN)).toEqual([]);
});
