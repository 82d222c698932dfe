/** Runs through clips, and orders that hands follow. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { closedCourse, openCourse } from "../../server/mechanics/course";
import { runThrough, slackOf } from "../../server/mechanics/runs";

const at = (...figures: number[]) =>
  Array.from({ length: figures.length / 2 }, (_, i) => ({
    x: figures[2 * i] as number,
    y: figures[2 * i + 1] as number,
  }));

describe("a run", () => {
  it("is as long as its straight pieces, and says what is left of a hose", () => {
    const { run } = runThrough(at(0, 0, 30, 40, 30, 140));
    expect(run?.length).toBe(150);
    if (!run) throw new Error("no run");
    expect(slackOf(run, 180, 20)).toEqual({ left: 30, enough: true });
    expect(slackOf(run, 180, 40)?.enough).toBe(false);
    expect(slackOf(run, 120)?.left).toBe(-30);
    expect([slackOf(run, Number.NaN), slackOf(run, 0), slackOf(run, 100, -1)]).toEqual([null, null, null]);
  });

  it("bends on the circle through three places", () => {
    for (const radius of [10, 75, 400]) {
      const on = (degrees: number) => [
        radius * Math.cos((degrees * Math.PI) / 180),
        radius * Math.sin((degrees * Math.PI) / 180),
      ];
      const { run } = runThrough(at(...on(0), ...on(40), ...on(100)));
      expect(run?.bends[0]?.through).toBeCloseTo(radius, 9);
    }
  });

  it("rounds a square corner by the length of its shorter leg, half of it where another bend follows", () => {
    const { run } = runThrough(at(0, 0, 100, 0, 100, 60, 160, 60));
    expect(run?.bends.map((bend) => bend.rounded)).toEqual([expect.closeTo(30, 9), expect.closeTo(30, 9)]);
    const single = runThrough(at(0, 0, 100, 0, 100, 60)).run;
    expect(single?.bends[0]?.rounded).toBeCloseTo(60, 9);
    expect(single?.bends[0]?.gentlest).toBeCloseTo(60, 9);
    expect(single?.bends[0]?.through).toBeCloseTo(Math.hypot(100, 60) / 2, 9);
    const straight = runThrough(at(0, 0, 50, 0, 90, 0)).run?.bends[0];
    expect([straight?.angle, straight?.gentlest]).toEqual([0, Infinity]);
    const back = runThrough(at(0, 0, 50, 0, 10, 0)).run?.bends[0];
    expect(back?.angle).toBeCloseTo(Math.PI);
    expect(back?.gentlest).toBeCloseTo(0);
  });

  it("that meets itself is told by its pieces", () => {
    expect(runThrough(at(0, 0, 100, 0, 100, 100, 50, -50)).run?.crossings).toEqual([[0, 2]]);
    expect(runThrough(at(0, 0, 100, 0, 100, 100, 50, 50)).run?.crossings).toEqual([]);
  });

  it("through nonsense is a problem or finite, never an error", () => {
    const figure = fc.oneof(
      fc.constantFrom(0, 1, 1e308, Number.NaN, Infinity, 1e-320),
      fc.integer({ min: -5, max: 5 }),
    );
    fc.assert(
      fc.property(fc.array(fc.record({ x: figure, y: figure }), { maxLength: 6 }), (places) => {
        const { run, problems } = runThrough(places);
        expect(run === null).toBe(problems.length > 0);
        if (!run) return;
        expect(Number.isFinite(run.length)).toBe(true);
        for (const bend of run.bends) expect(bend.gentlest >= 0 && bend.angle >= 0).toBe(true);
      }),
      { seed: 3, numRuns: 500 },
    );
    expect(runThrough(at(1, 1)).problems).toEqual([{ kind: "too-few", count: 1 }]);
    expect(runThrough(at(1, 1, 1, 1)).problems).toEqual([{ kind: "coincident", places: [0, 1] }]);
  });
});

describe("the order of the hands", () => {
  const path = ["crank", "roller", "pump", "tensioner", "fan"];

  it("may begin anywhere, and go either way where none is asked for", () => {
    expect(closedCourse(["pump", "tensioner", "fan", "crank", "roller"], path)).toEqual({
      kind: "fits",
      turned: false,
      start: 2,
    });
    expect(closedCourse(["roller", "crank", "fan", "tensioner", "pump"], path)).toEqual({
      kind: "fits",
      turned: true,
      start: 1,
    });
    expect(closedCourse([...path].reverse(), path, "along")).toEqual({ kind: "other-way" });
    expect(closedCourse([...path].reverse(), path, "against").kind).toBe("fits");
  });

  it("names the pair that is swapped", () => {
    expect(closedCourse(["crank", "pump", "roller", "tensioner", "fan"], path, "along")).toEqual({
      kind: "swapped",
      pair: ["pump", "roller"],
    });
    expect(closedCourse(["crank", "roller", "pump", "fan", "tensioner"], path)).toEqual({
      kind: "swapped",
      pair: ["fan", "tensioner"],
    });
    expect(closedCourse(["crank", "pump", "fan", "roller", "tensioner"], path)).toEqual({ kind: "mixed" });
  });

  it("names what is left out, repeated or unknown", () => {
    expect(closedCourse(["crank", "crank", "pump", "idler", "fan"], path)).toEqual({
      kind: "incomplete",
      missing: ["roller", "tensioner"],
      repeated: ["crank"],
      strange: ["idler"],
    });
  });

  it("of an open run begins at an end", () => {
    const clips = ["a", "b", "c", "d"];
    expect(openCourse(["a", "b", "c", "d"], clips)).toEqual({ kind: "fits", turned: false, start: 0 });
    expect(openCourse(["d", "c", "b", "a"], clips)).toEqual({ kind: "fits", turned: true, start: 3 });
    expect(openCourse(["b", "c", "d", "a"], clips, "along")).toEqual({ kind: "mixed" });
    expect(openCourse(["a", "c", "b", "d"], clips)).toEqual({ kind: "swapped", pair: ["c", "b"] });
    expect(openCourse([], [])).toMatchObject({ kind: "fits" });
  });
});
