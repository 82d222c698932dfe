/** Ways counted, and the shortest and longest of them: against every way taken one after the other, and by hand. */
import { describe, expect, test } from "vitest";
import { graphOf } from "../../server/walk/graph";
import type { TestPoint } from "../../server/walk/points";
import { type Tally, tallyOf, type Way } from "../../server/walk/tally";
import { writeConditions, writeOneThing } from "../bench/conditions";
import { projectOf } from "../support/project";
import { seeded } from "../support/random";
import { waysTaking, waysThrough } from "./plain-ways";
import { MACHINE, makeProgram, WORLD } from "./programs";

const COUNT = Number(process.env.TORQUIL_PROGRAMS ?? 300);
const SEED = Number(process.env.TORQUIL_SEED ?? 20_260_418);
/** Programs with more ways than this are not taken way by way; their ways are still counted. */
const FEW = 1000n;

function tallyIn(texts: Readonly<Record<string, string>>): Tally {
  const procedure = projectOf(texts).files.get("job.torquil")?.procedures[0];
  if (!procedure || procedure.doubtful) throw new Error(`cannot be followed:\n${texts["job.torquil"]}`);
  const tally = tallyOf(graphOf(procedure));
  if (tally.kind !== "counted") throw new Error(`not counted: ${tally.kind}`);
  return tally;
}

const testsOf = ({ graph }: Tally): readonly number[] =>
  graph.controls.filter((at) => graph.points[at]?.kind === "test");

test(`${COUNT} random procedures have the ways that are found one after the other`, () => {
  const random = seeded(SEED);
  const seen = { returns: 0, early: 0, taken: 0 };
  let most = 0n;
  for (let i = 0; i < COUNT; i++) {
    const program = makeProgram(random, 3 + (i % 4));
    const { text } = program;
    const meant = waysThrough(program, WORLD);
    const tally = tallyIn({ "job.torquil": text, "winch.torquil": MACHINE });
    expect(tally.ways, text).toBe(meant.count);
    expect(tally.shortest?.steps, text).toBe(meant.complete?.least);
    expect(tally.longest?.steps, text).toBe(meant.complete?.most);
    expect(tally.soonest?.steps, text).toBe(meant.early?.least);
    if (meant.count > most) most = meant.count;
    if (program.instructions.some((x) => x.does === "back")) seen.returns++;
    if (meant.early) seen.early++;
    if (meant.count > FEW) continue;
    const taking = waysTaking(program, WORLD);
    testsOf(tally).forEach((at, n) => {
      for (const into of [true, false])
        expect(tally.through({ test: at, into }), `test ${n}\n${text}`).toBe(
          taking.get(`${n} ${into ? "in" : "past"}`) ?? 0n,
        );
      seen.taken++;
    });
  }
  expect(seen.returns).toBeGreaterThan(COUNT / 4);
  expect(seen.early).toBeGreaterThan(COUNT / 10);
  expect(seen.taken).toBeGreaterThan(COUNT);
  expect(most).toBeGreaterThan(FEW / 3n);
});

const WINCH = `torquil 1

machine winch "Winch" {
  variant mk-1 "Mark 1"  serial 1 to 99
  variant mk-2 "Mark 2"  serial 100 to 200
  one-of size "Size" {
    choice small "Small"
    choice medium "Medium"
    choice large "Large"
  }
  part cover "Cover"
}
`;

const job = (lines: string, extra = "", on = "on winch"): Record<string, string> => ({
  "winch.torquil": WINCH,
  "job.torquil": `torquil 1\n\nuse "winch.torquil"\n\nprocedure job "Job" {\n  ${on}\n  symptom rattle "Rattle"\n  symptom leak "Leak"\n${lines}\n}\n${extra}`,
});
const step = (title: string, lines = "wait 5 min"): string =>
  `  step "${title}" {\n    ${lines.split("; ").join("\n    ")}\n  }\n`;
const check = (name: string, outcomes: string): string =>
  `  check ${name} "${name}" {\n    limit 0.1 to 0.2 mm\n    ${outcomes.split("; ").join("\n    ")}\n  }\n`;

/** All ways, those to the end of the work, and the steps of the shortest, the longest and the soonest to end early. */
function figures(texts: Readonly<Record<string, string>>): unknown[] {
  const { ways, ends, graph, shortest, longest, soonest } = tallyIn(texts);
  const complete = ends.get(graph.points.length - 1) ?? 0n;
  return [ways, complete, shortest?.steps, longest?.steps, soonest?.steps];
}

/** The decisions of a way, in words. */
const said = ({ graph }: Tally, way: Way | null): string[] =>
  (way?.decisions ?? []).map(({ test: at, into }) => {
    const { yes, no } = graph.points[at] as TestPoint;
    return into ? yes : no;
  });

describe("by hand", () => {
  test("nothing is decided: one way", () => {
    // Two steps and a check that goes on whatever it comes to.
    expect(figures(job(step("A") + check("play", "record") + step("B")))).toEqual([1n, 1n, 3, 3, undefined]);
  });

  test("a step of words alone is a step", () => {
    expect(
      figures(
        job(`  step "A" {\n    "Look."\n  }\n  when rattle {\n    step "B" {\n      "Hear."\n    }\n  }\n`),
      ),
    ).toEqual([2n, 2n, 1, 2, undefined]);
  });

  test("a condition asked twice parts the ways once; another one parts them again", () => {
    const twice = (second: string) =>
      step("A", "when rattle {; wait 1 min; }") + step("B", `when ${second} {; wait 1 min; }`);
    expect(figures(job(twice("rattle")))).toEqual([2n, 2n, 2, 2, undefined]);
    expect(figures(job(twice("leak")))).toEqual([4n, 4n, 2, 2, undefined]);
  });

  test("nested: three ways, since the inner one is asked under the outer one alone", () => {
    const inner = "when rattle {; wait 1 min; when leak {; wait 2 min; }; }";
    expect(figures(job(step("A", inner)))).toEqual([3n, 3n, 1, 1, undefined]);
  });

  test("one of three answers, asked for two of them: three ways; asked for all three: three ways still", () => {
    const two = "when small {; wait 1 min; }; when large {; wait 2 min; }";
    expect(figures(job(step("A", two)))[0]).toBe(3n);
    expect(figures(job(step("A", `${two}; when medium {; wait 3 min; }`)))[0]).toBe(3n);
  });

  test("by variant: a machine has one; where the procedure is for one alone, nothing is decided", () => {
    const both = step("A", "when mk-1 {; wait 1 min; }") + step("B", "when mk-2 {; wait 1 min; }");
    // A serial number over 200 is of neither.
    expect(figures(job(both))[0]).toBe(3n);
    expect(figures(job(both, "", "on winch  serial 1 to 200"))[0]).toBe(2n);
    expect(figures(job(both, "", "on winch  serial 1 to 99"))[0]).toBe(1n);
  });

  test("check again: passed at once, after one return, after two, or not at all", () => {
    // The check is begun once, twice, three times on the ways that pass; the way that does not ends after the third.
    const again = check(
      "play",
      'if not met {; check again at most 2 times; }; if still not met {; end job "Worn."; }',
    );
    expect(figures(job(step("A") + again + step("B")))).toEqual([4n, 3n, 3, 5, 4]);
  });

  test("repeat from a step multiplies with what is decided on each pass", () => {
    // Each pass: leak check wet or dry, and play over or not. Passes go on while play is over, at most one return.
    // First pass: 2 answers, then play not over: 2 ways. Play over: back; second pass again 2 x (not over, still over) = 4.
    // So 2 + 2 x 4 = 10, of which 2 x 2 = 4 end early.
    const lines =
      `  step first "First" {\n    wait 1 min\n  }\n` +
      `  check wet "Wet" {\n    observe "Is it wet?"\n    if yes {\n      clean cover\n    }\n  }\n` +
      check("play", 'if over {; repeat from first at most 1 time; }; if still over {; end job "No."; }');
    // Three steps a pass: 3 at least; 6 with the return; the early end comes after 6.
    expect(figures(job(lines))).toEqual([10n, 6n, 3, 6, 6]);
    const tally = tallyIn(job(lines));
    // Wet is answered yes at least once: of the 2 ways without return 1; of the 8 others all but the 2 with no and no.
    const [wet] = testsOf(tally) as [number];
    expect(tally.through({ test: wet, into: true })).toBe(7n);
  });

  test("go to leaves out the steps between", () => {
    const lines = `${step("A")}${check("play", "if over {; go to last; }")}${step("B")}${step("C")}  step last "Last" {\n    wait 1 min\n  }\n`;
    // A, play, B, C, last; or A, play, last.
    expect(figures(job(lines))).toEqual([2n, 2n, 3, 5, undefined]);
  });

  test("ended early by one answer of each of two checks", () => {
    const ending = (name: string) => check(name, 'if over {; end job "No."; }');
    // Both pass: 1 way to the end; the first ends it: 1; the second does: 1.
    expect(figures(job(ending("a") + step("A") + ending("b")))).toEqual([3n, 1n, 3, 3, 1]);
  });

  test("a later condition on a check takes the outcome that it had", () => {
    const lines = check("play", "if over {; clean cover; }") + step("A", "when play over {; wait 1 min; }");
    expect(figures(job(lines))[0]).toBe(2n);
    // Not met is over or under: over, under and met are three ways.
    expect(figures(job(lines.replace("when play over", "when play not met")))[0]).toBe(3n);
  });

  test("a procedure that is followed multiplies, and its early end ends the job", () => {
    const other = `\nprocedure other "Other" {\n  on winch\n  step first "First" {\n    wait 1 min\n  }\n${check("look", 'if over {; clean cover; }; if under {; end job "No."; }')}}\n`;
    // Rattle or not, then over, met, or under, which ends it: 2 x 3 ways, 2 x 2 of them to the end.
    const lines = `${step("A", "when rattle {; wait 1 min; }")}  follow other\n${step("B")}`;
    expect(figures(job(lines, other))).toEqual([6n, 4n, 4, 4, 3]);
  });

  test("the longest way is told by what is decided on it, the shortest too", () => {
    const lines =
      step("A") +
      `  when rattle {\n${step("B")}  }\n  otherwise {\n${step("C")}${step("D")}  }\n` +
      check("play", "if over {; check again at most 1 time; }");
    const tally = tallyIn(job(lines));
    // A, B, play; or A, C, D, play, play.
    expect([tally.shortest?.steps, tally.longest?.steps]).toEqual([3, 5]);
    expect(said(tally, tally.shortest)).toEqual(["when “Rattle”", "“play” is not over"]);
    expect(said(tally, tally.longest)).toEqual(["when not “Rattle”", "“play” is over"]);
  });
});

describe("what cannot be counted is said", () => {
  test("a return that nothing bounds", () => {
    const texts = job(step("A") + check("play", "if over {; check again; }"));
    const procedure = projectOf(texts).files.get("job.torquil")?.procedures[0];
    if (!procedure) throw new Error("no procedure");
    expect(tallyOf(graphOf(procedure)).kind).toBe("endless");
  });

  test("forty conditions to be remembered at once", () => {
    const procedure = projectOf(writeOneThing()).files.get("job.torquil")?.procedures[0];
    if (!procedure) throw new Error("no procedure");
    const tally = tallyOf(graphOf(procedure), 100_000);
    expect(tally.kind).toBe("too-many");
    expect(tally.kind === "too-many" && tally.variables.length).toBeGreaterThan(10);
  });

  test("forty conditions, eight at once, are counted: each doubles the ways", () => {
    expect(tallyIn(writeConditions(400, false)).ways).toBe(2n ** 40n);
  });
});
