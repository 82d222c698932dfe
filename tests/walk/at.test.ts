/** How things stand at a point: each state with its way and the line that brought it about, on the smallest job that shows it. */
import { describe, expect, test } from "vitest";
import {
  type Difference,
  isInLine,
  pointBefore,
  type Stand,
  type StateAt,
  standsAt,
  stateAt,
  type Walk,
} from "../../server/walk";
import { walkThrough } from "./support";

const MACHINE = `torquil 1

machine winch "Winch" {
  set side "Side" of left, right
  variant mk-1 "Mark 1"  serial 1 to 99
  variant mk-2 "Mark 2"  serial 100 to 200
  fluid oil "Oil"  2 L
  tap tap "Tap"
  connector plug "Plug"
  part cover "Cover"
  part seal "Seal"  behind cover  renew every time
  part shield "Shield"  only on mk-2
  part gearbox "Gearbox"  carries cam
  part cam "Cam"
  part drum "Drum"
  fastener bolts "Bolts" {
    secures gearbox
    dry
    stage snug 20 N·m
    stage final 44 N·m
  }
  fastener nut "Nut"  secures drum  renew every time  tighten 22 N·m
  shaft motor "Motor shaft"  turns anticlockwise
  shaft screw "Screw"  belt-off free
  part motor-pulley "Motor pulley"
  part screw-pulley "Screw pulley"
  belt belt "Belt" {
    toothed
    pulley motor-pulley  teeth 20  on motor
    pulley screw-pulley  teeth 40  on screw
  }
  mark motor-mark "Motor dot"  on motor  at 0°
  mark screw-mark "Screw dot"  on screw  at 0°
}
`;
const HEAD = `torquil 1

use "winch.torquil"

procedure job "Job" {
  on winch
  temporary pin "Pin"  into gearbox
  symptom rattle "Rattle"
  symptom leak "Leak"
`;

interface Job {
  readonly text: string;
  readonly walk: Walk;
}

/** A job on the winch of which these are the lines, and others behind it. */
function job(lines: string, others = "", head = HEAD): Job {
  const text = `${head}${lines}}\n${others}`;
  return { text, walk: walkThrough({ "job.torquil": text, "winch.torquil": MACHINE }) };
}

const step = (lines: string): string => `  step "Step" {\n    ${lines.split("; ").join("\n    ")}\n  }\n`;
const check = (outcomes: string): string =>
  `  check play "Play" {\n    limit 0.1 to 0.2 mm\n    ${outcomes.split("; ").join("\n    ")}\n  }\n`;
/** A step to ask at, behind what was done. */
const HERE = `  step here "Here" {\n    wait 5 min\n  }\n`;

const lineOf = ({ text }: Job, words: string): number => {
  const line = text.split("\n").findIndex((one) => one.includes(words));
  if (line < 0) throw new Error(`not in the text: ${words}`);
  return line;
};
const pointOf = (of: Job, words: string): number =>
  pointBefore(of.walk.graph, "job.torquil", lineOf(of, words));
const at = (of: Job, words = "step here"): StateAt => stateAt(of.walk, pointOf(of, words));

const word = ({ kind, stage, owed }: Difference): string =>
  `${kind}${stage ? ` ${stage}` : ""}${owed ? "" : " (stays)"}`;

/** Each state as `what < the line that brought it about: way`, what is as it should be last. */
function said(of: Job, stands: readonly Stand[]): string[] {
  const texts = of.text.split("\n");
  const told = stands.map(({ differences, since, way }) => {
    const spot = of.walk.graph.points[since]?.spot;
    const from = spot ? ` < ${texts[spot.through?.line ?? spot.line]?.trim()}` : "";
    const what = differences.map(word).join(" + ") || NORMAL;
    return `${what}${differences.length > 0 ? from : ""}${way.length > 0 ? `: ${way.join(", then ")}` : ""}`;
  });
  const isNormal = (text: string): boolean => text.startsWith(NORMAL);
  return [...told.filter((text) => !isNormal(text)).sort(), ...told.filter(isNormal)];
}
const NORMAL = "as it should be";

/** What differs before a line, by name. */
function things(of: Job, words = "step here"): Record<string, string[]> {
  return Object.fromEntries(at(of, words).things.map(({ thing, stands }) => [thing.name, said(of, stands)]));
}

describe("what is not as it should be", () => {
  test.each([
    ["off", "remove cover", { cover: ["off < remove cover"] }],
    ["open", "open tap", { tap: ["open < open tap"] }],
    ["drained", "drain oil", { oil: ["drained < drain oil"] }],
    ["disconnected", "disconnect plug", { plug: ["disconnected < disconnect plug"] }],
    ["isolated", "isolate plug", { plug: ["isolated < isolate plug"] }],
    ["held", "support drum", { drum: ["supported < support drum"] }],
    ["raised", "raise drum", { drum: ["raised < raise drum"] }],
    ["put in", "insert pin", { pin: ["in < insert pin"] }],
    ["running", "start winch", { winch: ["running < start winch"] }],
    ["out", "remove bolts", { bolts: ["out < remove bolts"] }],
    ["by hand", "remove bolts; fit bolts  by hand", { bolts: ["by hand < fit bolts  by hand"] }],
    ["placed", "remove bolts; fit bolts", { bolts: ["placed < fit bolts"] }],
    ["loose", "loosen bolts by 1/2 turn", { bolts: ["loose < loosen bolts by 1/2 turn"] }],
    [
      "at a stage",
      "loosen bolts; tighten bolts  to snug",
      { bolts: ["at a stage snug < tighten bolts  to snug"] },
    ],
    ["tight again", "remove bolts; fit bolts  by hand; tighten bolts", {}],
    ["thrown away", "remove cover; remove seal", { seal: ["off + thrown-away < remove seal"] }],
    ["kept", "remove cover  discard", { cover: ["off + thrown-away < remove cover  discard"] }],
    [
      "off with what carries it",
      "remove bolts; remove gearbox",
      { gearbox: ["off < remove gearbox"], cam: ["carried (stays) < remove gearbox"] },
    ],
    [
      "an old one where a new one belongs",
      "remove nut; fit old nut; tighten nut",
      { nut: ["old < fit old nut"] },
    ],
    ["as it was again", "remove cover; fit cover; open tap; close tap", {}],
  ])("%s", (_what, lines, meant) => {
    expect(things(job(step(lines) + HERE))).toMatchObject(meant);
    if (Object.keys(meant).length === 0) expect(things(job(step(lines) + HERE))).toEqual({});
  });

  test("what was touched and is as it should be is told apart from what was not", () => {
    const { settled } = at(job(step("remove cover; fit cover; insert pin; pull pin") + HERE));
    expect(settled.map(({ name }) => name)).toEqual(["cover", "pin"]);
  });

  test("one thing may be asked for alone", () => {
    const one = job(step("remove cover; open tap") + HERE);
    const cover = at(one).things.find(({ thing }) => thing.name === "cover")?.thing;
    if (!cover) throw new Error("the cover is not told");
    expect(said(one, standsAt(one.walk, cover, pointOf(one, "step here")))).toEqual(["off < remove cover"]);
    expect(said(one, standsAt(one.walk, cover, pointOf(one, "remove cover")))).toEqual(["as it should be"]);
  });

  test("from the start, with no line that brought it about; and what may stay so is not owed", () => {
    const lines = "  starts with {\n    off cover\n  }\n  ends with {\n    off cover\n    off shield\n  }\n";
    const one = job(lines + step("when mk-2 {; remove shield; }") + HERE);
    expect(things(one)).toEqual({
      cover: ["off (stays)"],
      shield: ["absent (stays): when not “Mark 2”", "off (stays) < remove shield: when “Mark 2”"],
    });
  });
});

describe("points", () => {
  const one = job(
    `  section "Open" {\n  step first "First" {\n    remove cover, seal\n    when rattle {\n      drain oil\n    }\n    wait 5 min\n  }\n  }\n${HERE}`,
  );

  test("a head means what comes first in it, a line what stands before it", () => {
    expect(pointOf(one, "step first")).toBe(pointOf(one, "remove cover"));
    expect(things(one, "step first")).toEqual({});
    expect(things(one, "when rattle")).toMatchObject({ cover: ["off < remove cover, seal"] });
    expect(things(one, "drain oil")).not.toHaveProperty("oil");
    expect(things(one, "wait 5 min")).toMatchObject({
      oil: ["drained < drain oil: when “Rattle”", "as it should be: when not “Rattle”"],
    });
  });

  test("a line with several things means the first of them", () => {
    expect(things(one, "remove cover")).toEqual({});
  });

  test("a line outside the work, and of another file, is none", () => {
    expect(pointBefore(one.walk.graph, "job.torquil", 0)).toBe(-1);
    expect(pointBefore(one.walk.graph, "winch.torquil", 4)).toBe(-1);
  });
});

describe("several ways", () => {
  test("each state with its shortest way", () => {
    const one = job(step("when rattle {; when leak {; remove cover; }; }") + HERE);
    expect(things(one)).toEqual({
      cover: ["off < remove cover: when “Rattle”, then when “Leak”", "as it should be: when not “Rattle”"],
    });
  });

  test("what belongs together under conditions is the same on every way", () => {
    const off = "when rattle {; remove cover; }";
    expect(things(job(step(off) + step("when rattle {; fit cover; }") + HERE))).toEqual({});
    expect(things(job(step(`${off}; otherwise {; remove cover; }`) + HERE))).toEqual({
      cover: ["off < remove cover"],
    });
  });

  test("within a condition only its own ways count", () => {
    const one = job(step("when rattle {; remove cover; }") + step("when rattle {; open tap; close tap; }"));
    expect(things(one, "close tap")).toEqual({ cover: ["off < remove cover"], tap: ["open < open tap"] });
  });

  test("an outcome, and a later condition on it", () => {
    const one = job(
      `${check("if over {; remove cover; }")}${step("when play over {; wait 5 min; }")}${HERE}`,
    );
    expect(things(one, "wait 5 min")).toEqual({ cover: ["off < remove cover"] });
    expect(things(one)).toEqual({
      cover: ["off < remove cover: “Play” is over", "as it should be: “Play” is not over"],
    });
  });

  test("a repeat brings back what was done further down", () => {
    const one = job(
      `  step first "First" {\n    wait 5 min\n  }\n${check("if over {; open tap; repeat from first at most 2 times; }; if still over {; close tap; }")}${HERE}`,
    );
    expect(things(one, "step first")).toEqual({
      tap: ["open < open tap: “Play” is over", "as it should be"],
    });
    expect(things(one, "close tap")).toMatchObject({ tap: ["open < open tap"] });
    expect(Object.keys(things(one))).toEqual(["tap"]);
  });

  test("what ended the job is not told behind it", () => {
    const one = job(`${step('remove cover; when rattle {; open tap; end job "No."; }; fit cover')}${HERE}`);
    expect(things(one)).toEqual({});
    expect(things(one, "end job")).toEqual({ cover: ["off < remove cover"], tap: ["open < open tap"] });
  });

  test("a line that no way comes to has no states", () => {
    const one = job(
      `${check('if met {; end job "Yes."; }; if not met {; end job "No."; }')}${step("remove cover")}${HERE}`,
    );
    expect(at(one)).toMatchObject({ reached: false, things: [], settled: [], turning: [] });
    expect(at(one, "check play").reached).toBe(true);
  });

  test("what is only on some machines is absent on the others", () => {
    const one = job(step("when mk-2 {; remove shield; }") + HERE);
    expect(things(one)).toEqual({
      shield: ["absent (stays): when not “Mark 2”", "off < remove shield: when “Mark 2”"],
    });
  });
});

describe("a procedure that is followed", () => {
  const OTHER = `
procedure open-up "Open up" {
  on winch
  temporary peg "Peg"  into drum
  step opened "Opened" {
    remove cover
    insert peg
    drain oil
  }
}
`;
  const one = job(`  follow open-up\n${step("fit cover")}${HERE}`, OTHER);

  test("what it left so is told, with the line that follows it", () => {
    expect(things(one)).toEqual({ peg: ["in < follow open-up"], oil: ["drained < follow open-up"] });
    expect(things(one, "follow open-up")).toEqual({});
  });

  test("its own lines are asked for through the line that follows it", () => {
    const { graph } = one.walk;
    const inside = (words: string): number => {
      const lines = one.text.split("\n");
      const line = lines.findIndex((text, i) => i > lineOf(one, "procedure open-up") && text.includes(words));
      return pointBefore(graph, "job.torquil", line, lineOf(one, "follow open-up"));
    };
    const peg = stateAt(one.walk, inside("drain oil")).things.map(({ thing }) => thing.name);
    expect(peg.sort()).toEqual(["cover", "peg"]);
    expect(stateAt(one.walk, inside("step opened")).things).toEqual([]);
  });
});

describe("what turns", () => {
  const turning = (of: Job) =>
    at(of).turning.map(({ shafts, marks, together, way }) => ({
      shafts: shafts.map(({ shaft, angle }) => `${shaft.name} ${angle}`),
      marks: marks.map(({ mark, off }) => `${mark.name} ${isInLine(off) ? "in line" : off}`),
      together: together.map((group) => group.map(({ name }) => name)),
      way,
    }));
  const both = [["motor", "screw"]];

  test("nothing is told where nothing of it was touched, and no angle before marks were lined up", () => {
    expect(turning(job(step("remove cover") + HERE))).toEqual([]);
    expect(turning(job(step("turn motor 1/4 turn") + HERE))).toEqual([
      { shafts: [], marks: [], together: both, way: [] },
    ]);
  });

  test("with the belt on they turn by the teeth, in exact parts of a turn", () => {
    const one = job(step("align motor-mark, screw-mark; turn motor 1/4 turn anticlockwise") + HERE);
    expect(turning(one)).toEqual([
      {
        shafts: ["motor 1/4", "screw 1/8"],
        marks: ["motor-mark 1/4", "screw-mark 1/8"],
        together: both,
        way: [],
      },
    ]);
    const on = job(step("align motor-mark, screw-mark; turn motor 2 turns anticlockwise") + HERE);
    expect(turning(on)[0]?.marks).toEqual(["motor-mark in line", "screw-mark in line"]);
  });

  test("with the belt off apart, and lost where it is turned until something shows", () => {
    const one = job(step("align motor-mark, screw-mark; remove belt; turn screw 1/8 turn") + HERE);
    expect(turning(one)).toEqual([
      {
        shafts: ["motor 0", "screw 1/8"],
        marks: ["motor-mark in line", "screw-mark 1/8"],
        together: [],
        way: [],
      },
    ]);
    const lost = job(
      step('align motor-mark, screw-mark; remove belt; turn screw until "it stops" clockwise') + HERE,
    );
    expect(turning(lost)[0]).toMatchObject({ shafts: ["motor 0"], marks: ["motor-mark in line"] });
  });

  test("marks that were found out of line are not said to stand in line", () => {
    const one = job(
      `${step("align motor-mark, screw-mark")}
  check marks "Marks" {
    marks motor-mark, screw-mark
    if not met {
      go on
    }
  }
${HERE}`,
    );
    const found = turning(one).sort((a, b) => a.way.join().localeCompare(b.way.join()));
    expect(found.map(({ marks, way }) => [marks, way])).toEqual([
      [["motor-mark in line", "screw-mark in line"], ["“Marks” is met"]],
      [[], ["“Marks” is not met"]],
    ]);
  });

  test("on several ways, each with its own", () => {
    const one = job(
      step("align motor-mark, screw-mark; when rattle {; turn motor 1 turn anticlockwise; }") + HERE,
    );
    const found = turning(one).sort((a, b) => a.way.join().localeCompare(b.way.join()));
    expect(found.map(({ marks, way }) => [marks[1], way])).toEqual([
      ["screw-mark 1/2", ["when “Rattle”"]],
      ["screw-mark in line", ["when not “Rattle”"]],
    ]);
  });
});
