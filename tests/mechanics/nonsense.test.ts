/** Nonsense gets a refusal, never an exception, and never a figure that is not one. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { angleStage } from "../../server/mechanics/angle";
import { classOf, isClass } from "../../server/mechanics/classes-read";
import { crosswise, isCrosswise, orderFaults } from "../../server/mechanics/order";
import { fromMiddleOut, isFromMiddleOut } from "../../server/mechanics/order-outwards";
import { settingShare } from "../../server/mechanics/setting";
import { allThreads } from "../../server/mechanics/threads";
import { isThread, threadOf } from "../../server/mechanics/threads-read";
import { boltOf, preloadOf, tighteningFor } from "../../server/mechanics/tightening";
import { slippedDecimal } from "../../server/mechanics/tightening-slips";
import { fitOf } from "../../server/mechanics/wrench";
import { boltClass } from "./bolts";

const odd = fc.oneof(
  fc.double(),
  fc.constantFrom(
    0,
    -0,
    -1,
    Number.NaN,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    1e308,
    -1e308,
    5e-324,
  ),
  fc.double({ min: 0, max: 1000, noNaN: true }),
);
const oddRange = fc.record({ low: odd, high: odd });
const anyBolt = fc
  .record({
    thread: fc.constantFrom(...allThreads),
    boltClass: fc.constantFrom(null, ...["4.6", "8.8", "12.9", "A2-70", "grade 8"].map(boltClass)),
    state: fc.constantFrom(null, "dry", "oiled", "paste", "locked", "as-supplied" as const),
    head: fc.constantFrom(null, "hexagon", "socket", "flange" as const),
  })
  .map(boltOf);

/** Every number anywhere in an answer. */
function figuresIn(answer: unknown): number[] {
  if (typeof answer === "number") return [answer];
  return answer !== null && typeof answer === "object" ? Object.values(answer).flatMap(figuresIn) : [];
}
const sound = (answer: unknown): void => {
  for (const figure of figuresIn(answer)) expect(Number.isFinite(figure)).toBe(true);
};
/** Ranges of an answer are the right way round and over nought. */
const ordered = (answer: unknown): void => {
  if (answer === null || typeof answer !== "object") return;
  if (
    "low" in answer &&
    "high" in answer &&
    typeof answer.low === "number" &&
    typeof answer.high === "number"
  ) {
    expect(answer.low).toBeGreaterThan(0);
    expect(answer.high).toBeGreaterThanOrEqual(answer.low);
  }
  for (const part of Object.values(answer)) ordered(part);
};

test("odd text", () => {
  const text = fc.oneof(
    fc.string(),
    fc.string({ unit: "binary" }),
    fc.stringMatching(/^[M#]?[\d./ ]{0,6}[-x×]?[\d.,/]{0,6}( ?UN[CF])?$/),
    fc.stringMatching(/^(grade |A|class )?\d{0,3}[.-]?\d{0,3}$/),
  );
  fc.assert(
    fc.property(text, (one) => {
      const [thread, boltClassRead] = [threadOf(one), classOf(one)];
      sound(thread);
      expect(isThread(thread) || typeof thread.problem === "string").toBe(true);
      expect(isClass(boltClassRead) || typeof boltClassRead.problem === "string").toBe(true);
      if (!isThread(thread)) for (const near of thread.near) expect(isThread(threadOf(near))).toBe(true);
      if (!isClass(boltClassRead))
        for (const near of boltClassRead.near) expect(isClass(classOf(near))).toBe(true);
    }),
    { numRuns: 2000 },
  );
});

test("a long text is refused at once", () => {
  const started = performance.now();
  for (const one of ["1".repeat(1e5), `M${" ".repeat(1e5)}x`, "left ".repeat(2e4), "1-".repeat(5e4)]) {
    expect(isThread(threadOf(one))).toBe(false);
    expect(isClass(classOf(one))).toBe(false);
  }
  expect(performance.now() - started).toBeLessThan(1000);
});

test("odd torques, angles, lengths and shares", () => {
  fc.assert(
    fc.property(anyBolt, oddRange, odd, odd, (bolt, torque, angle, grip) => {
      const answers = [
        preloadOf(bolt, torque),
        tighteningFor(bolt, angle),
        angleStage(bolt, { torque, angle, grip }),
        angleStage(bolt, { torque: { low: 20, high: 30 }, angle, grip: null }),
      ];
      for (const answer of answers) {
        sound(answer);
        ordered(answer);
      }
      sound(slippedDecimal({ thread: bolt.thread }, torque.low));
    }),
    { numRuns: 1000 },
  );
});

test("odd counts, orders, places and wrenches", () => {
  const places = fc.array(fc.record({ x: odd, y: odd }), { maxLength: 12 });
  const orders = fc.array(fc.oneof(odd, fc.integer({ min: -2, max: 14 })), { maxLength: 14 });
  fc.assert(
    fc.property(places, orders, odd, odd, odd, (points, order, a, b, c) => {
      sound(crosswise(a));
      sound(fromMiddleOut(points));
      sound(settingShare(a, b, c));
      for (const verdict of [
        isCrosswise(order, a),
        isCrosswise(order, points),
        isFromMiddleOut(order, points),
      ]) {
        expect([true, false, null]).toContain(verdict);
      }
      const faults = orderFaults(order, points.length);
      expect(faults === null).toBe(points.length === 0);
      expect([undefined, "within", "partly", "untrusted", "under", "over"]).toContain(
        fitOf({ bottom: a, top: b }, { low: c, high: c }),
      );
    }),
    { numRuns: 1000 },
  );
});
