/** Widths across flats, against published charts. */
import { expect, it, test } from "vitest";
import { allThreads } from "../../server/mechanics/threads";
import { widthAcrossFlats, widthsAcrossFlats } from "../../server/mechanics/widths";
import { thread } from "./bolts";

// A spanner chart after ISO 4014, ISO 4017 and ASME B18.2.1.
it.each([
  ["M3", "5.5"],
  ["M4", "7"],
  ["M5", "8"],
  ["M6", "10"],
  ["M8", "13"],
  ["M8 x 1", "13"],
  ["M10", "16"],
  ["M12", "18"],
  ["M14", "21"],
  ["M16", "24"],
  ["M18", "27"],
  ["M20", "30"],
  ["M22", "34"],
  ["M24", "36"],
  ["M30", "46"],
  ["M36", "55"],
  ["M42", "65"],
  ["1/4-20", "7/16"],
  ["5/16-18", "1/2"],
  ["3/8-16", "9/16"],
  ["7/16-14", "5/8"],
  ["1/2-13", "3/4"],
  ["9/16-12", "13/16"],
  ["5/8-11", "15/16"],
  ["3/4-10", "1-1/8"],
  ["7/8-9", "1-5/16"],
  ["1-8", "1-1/2"],
])("%s takes %s", (size, marked) => {
  const width = widthAcrossFlats(thread(size));
  expect(width?.marked).toBe(marked);
  expect(width?.unit).toBe(size.startsWith("M") ? "mm" : "in");
});

// ISO 272:1982 changed 17, 19, 22 and 32; the small hexagon of older Japanese vehicles is in a maker's service manual.
it.each([
  ["M8", ["13", "12"]],
  ["M10", ["16", "17", "14"]],
  ["M12", ["18", "19", "17"]],
  ["M14", ["21", "22", "19"]],
  ["M22", ["34", "32"]],
  ["M16", ["24"]],
])("%s is also met with %j", (size, marked) => {
  expect(widthsAcrossFlats(thread(size)).map((width) => width.marked)).toEqual(marked);
});

test("where no standard gives a hexagon there is none", () => {
  expect(widthsAcrossFlats(thread("#10-24"))).toEqual([]);
  expect(widthAcrossFlats(thread("M9"))).toBeUndefined();
});

test("a hexagon is wider than its thread, and no narrower than that of the next smaller thread", () => {
  let before = 0;
  for (const one of allThreads.filter((t) => t.system === "metric" && t.series === "coarse")) {
    const across = widthAcrossFlats(one)?.across ?? before;
    expect(across).toBeGreaterThanOrEqual(before);
    if (across !== before) expect(across / one.diameter).toBeGreaterThan(1.4);
    before = across;
  }
});
