/** Shafts by exact fractions, held to plain counting: ratios, marks, and when things come round again. */
import { describe, expect, it } from "vitest";
import {
  decimalFraction,
  type Fraction,
  fraction,
  partOfTurn,
  plus,
  ratioIn,
  ratioOf,
  textOf,
  times,
} from "../../server/mechanics/fractions";
import { nearestIn, progression, shared } from "../../server/mechanics/progressions";
import {
  beltLinks,
  gearTrain,
  type InLine,
  type Link,
  lost,
  type Mark,
  mayStand,
  putAt,
  ratioBetween,
  roundAgain,
  standingOf,
  toothRatio,
  turned,
  whenInLine,
} from "../../server/mechanics/shafts";
import { below, type Random, seeded } from "../support/random";

const f = (text: string): Fraction => {
  const [over = "0", under = "1"] = text.split("/");
  return fraction(BigInt(over), BigInt(under)) as Fraction;
};
const link = (from: string, to: string, ratio: string): Link => ({ from, to, ratio: f(ratio) });
const said = (found: Fraction | null) => found && textOf(found);
const atZero = (...shafts: string[]) => new Map(shafts.map((shaft) => [shaft, f("0")]));
const when = (found: InLine) =>
  found.kind === "in-line" ? `${textOf(found.when.first)} every ${textOf(found.when.every)}` : found;

/** A crank of 24 teeth, a pump of 48; a governor geared 3 to 1 off the pump, against it. */
const engine = gearTrain([
  ...beltLinks([
    { shaft: "crank", teeth: 24, side: "inside" },
    { shaft: "pump", teeth: 48, side: "inside" },
  ]),
  { from: "pump", to: "governor", ratio: toothRatio(60, 20, false) as Fraction },
]);

describe("ratios", () => {
  it("follow the teeth through belts and gears, either way", () => {
    expect(said(ratioBetween(engine, "crank", "pump"))).toBe("1/2");
    expect(said(ratioBetween(engine, "governor", "crank"))).toBe("-2/3");
    expect(said(ratioBetween(engine, "alone", "alone"))).toBe("1");
    expect(ratioBetween(engine, "crank", "alone")).toBeNull();
  });

  it("turn against each other on unlike sides of a double-sided belt", () => {
    const links = beltLinks([
      { shaft: "a", teeth: 20, side: "inside" },
      { shaft: "b", teeth: 30, side: "back" },
      { shaft: "none", teeth: 0, side: "back" },
    ]);
    expect(links.map((l) => [l.to, textOf(l.ratio)])).toEqual([["b", "-2/3"]]);
  });

  it("that contradict each other are told, with what the others make of it", () => {
    const ring = gearTrain([link("a", "b", "1/2"), link("b", "c", "3"), link("a", "c", "5/3")]);
    expect(ring.contradictions.map(({ link, said: s, found }) => [link, textOf(s), textOf(found)])).toEqual([
      [2, "5/3", "3/2"],
    ]);
    expect(
      gearTrain([link("a", "b", "1/2"), link("c", "b", "1"), link("a", "c", "1/2")]).contradictions,
    ).toEqual([]);
  });

  it("joined late, two trains keep their ratios", () => {
    const train = gearTrain([link("a", "b", "1/2"), link("c", "d", "3/5"), link("d", "b", "2")]);
    expect(said(ratioBetween(train, "a", "c"))).toBe("5/12");
    expect(said(ratioBetween(train, "c", "a"))).toBe("12/5");
  });
});

describe("marks", () => {
  const marks: Mark[] = [
    { shaft: "crank", at: f("0") },
    { shaft: "pump", at: f("0") },
  ];

  it("of a shaft at half speed show every second turn only", () => {
    const start = atZero("crank", "pump");
    expect(when(whenInLine(engine, start, marks, "crank"))).toBe("0 every 2");
    const once = turned(engine, start, "crank", f("1"));
    expect(marks.map((mark) => said(standingOf(once, mark)))).toEqual(["0", "1/2"]);
    expect(when(whenInLine(engine, once, marks, "crank"))).toBe("1 every 2");
    expect(when(whenInLine(engine, once, marks, "pump"))).toBe("1/2 every 1");
  });

  it("that never line up are told, and so are shafts that stand apart or nobody knows where", () => {
    const wrong = putAt(atZero("crank", "pump"), "pump", f("1/3"));
    expect(whenInLine(engine, wrong, marks, "crank")).toEqual({ kind: "never", marks: [0, 1] });
    const off = gearTrain([]);
    expect(whenInLine(off, wrong, marks, "crank")).toEqual({ kind: "apart", mark: 1 });
    expect(when(whenInLine(off, atZero("crank", "pump"), marks, "crank"))).toBe("0 every 1");
    expect(whenInLine(engine, lost(engine, wrong, "governor"), marks, "crank")).toEqual({
      kind: "unknown",
      mark: 0,
    });
    expect(standingOf(new Map(), marks[0] as Mark)).toBeNull();
  });

  it("the nearest turns that would do", () => {
    const row = progression(f("1"), f("2"));
    const near = nearestIn(row, f("6"));
    expect([near.before, near.after, near.nearest].map(textOf)).toEqual(["5", "7", "7"]);
    expect(textOf(nearestIn(row, f("-7/2")).nearest)).toBe("-3");
    expect(textOf(nearestIn(row, f("5")).nearest)).toBe("5");
  });

  it("with one shaft lined up, one at half speed stands at one of two angles", () => {
    const crankInLine = progression(f("0"), f("1"));
    expect(mayStand(crankInLine, f("1/2")).map(textOf)).toEqual(["0", "1/2"]);
    expect(mayStand(progression(f("0"), f("2")), f("1/2")).map(textOf)).toEqual(["0"]);
    expect(mayStand(crankInLine, f("-2/3"), f("1/6")).map(textOf)).toEqual(["1/6", "1/2", "5/6"]);
  });

  const someFraction = (random: Random, unders: number) =>
    fraction(BigInt(below(random, 40) - 12), BigInt(1 + below(random, unders))) as Fraction;

  it("agree with turning the driver step by step, over random trains", () => {
    const random = seeded(21);
    const seen = { "in-line": 0, never: 0 };
    for (let run = 0; run < 400; run++) {
      const teeth = Array.from({ length: 3 }, () => 1 + below(random, 6));
      const train = gearTrain([
        { from: "a", to: "b", ratio: ratioOf(teeth[0] as number, teeth[1] as number) as Fraction },
        { from: "b", to: "c", ratio: toothRatio(teeth[1] as number, teeth[2] as number, false) as Fraction },
      ]);
      const shafts = ["a", "b", "c"];
      const standing = new Map(shafts.map((shaft) => [shaft, partOfTurn(someFraction(random, 4))]));
      const marked: Mark[] = shafts.map((shaft) => ({ shaft, at: partOfTurn(someFraction(random, 3)) }));
      const found = whenInLine(train, standing, marked, "a");
      if (found.kind !== "in-line" && found.kind !== "never") throw new Error(found.kind);
      seen[found.kind]++;
      // Angles are twelfths of a turn and ratios have at most 6 below, so that every moment is one of 720 a turn of "a".
      const rows = marked.map(({ shaft, at }) => {
        const { over, under } = ratioBetween(train, "a", shaft) as Fraction;
        const past = times(plus(standing.get(shaft) as Fraction, times(at, f("-1"))), f("12"));
        return [Number(past.over * 60n * under), Number(over), 720 * Number(under)] as const;
      });
      let counted = -1;
      for (let tick = 0; tick < 720 * 60 && counted < 0; tick++)
        if (rows.every(([past, step, whole]) => (past + tick * step) % whole === 0)) counted = tick;
      expect(found.kind === "in-line" ? said(times(found.when.first, f("720"))) : "-1").toBe(`${counted}`);
    }
    expect(Math.min(seen["in-line"], seen.never)).toBeGreaterThan(25);
  });

  it("rows meet where plain counting meets", () => {
    const random = seeded(4);
    for (let run = 0; run < 500; run++) {
      const [a, b] = [1 + below(random, 30), 1 + below(random, 30)];
      const [p, q] = [below(random, a), below(random, b)];
      const found = shared(progression(f(`${p}/7`), f(`${a}/7`)), progression(f(`${q}/7`), f(`${b}/7`)));
      let counted = -1;
      for (let moment = 0; moment < a * b && counted < 0; moment++)
        if (moment % a === p && moment % b === q) counted = moment;
      expect(said(found && times(found.first, f("7")))).toBe(counted < 0 ? null : `${counted}`);
    }
  });
});

describe("round again", () => {
  it("a belt of 106 teeth over 24 and 48 comes round after 53 turns of the pump", () => {
    expect(roundAgain(106, [24, 48])).toEqual({ beltTurns: 24n, sprocketTurns: [106n, 53n] });
    expect(roundAgain(100, [20])).toEqual({ beltTurns: 1n, sprocketTurns: [5n] });
  });

  it("of counts that are none is none", () => {
    expect([roundAgain(0, [20]), roundAgain(100, [20.5]), roundAgain(Number.NaN, [])]).toEqual([
      null,
      null,
      null,
    ]);
  });
});

describe("fractions", () => {
  it("of decimals are as written, and of nonsense none", () => {
    expect(
      ["22.5", "-0.1", "−30", "1e3", "", "NaN", "1/2"].map((text) => said(decimalFraction(text))),
    ).toEqual(["45/2", "-1/10", "-30", null, null, null, null]);
    expect(
      ["1/2", "4/8", "0.5", "1.5/2", "3/0", "1/2/3", "/2", ""].map((text) => said(ratioIn(text))),
    ).toEqual(["1/2", "1/2", "1/2", "3/4", null, null, null, null]);
    expect([ratioOf(1, 0), ratioOf(Number.NaN, 2), ratioOf(1e308, 2), fraction(1n, 0n)]).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });
});
