/** Ways through conditions, outcomes, returns, sets and procedures that are followed, each on the smallest job that shows it. */
import { describe, expect, test } from "vitest";
import { faultsIn, walkThrough } from "./support";

const MACHINE = `torquil 1

machine winch "Winch" {
  set side "Side" of left, right
  variant mk-1 "Mark 1"  serial 1 to 99
  variant mk-2 "Mark 2"  serial 100 to 200
  option hood-fitted "Hood"
  one-of size "Size" {
    choice small "Small"
    choice large "Large"
  }
  part cover "Cover"
  part hood "Hood"  only on hood-fitted
  part shield "Shield"  only on mk-2
  part drum "Drum" {
    behind cover, hood, shield
  }
  part gearbox "Gearbox"  carries shaft
  part shaft "Shaft"  carries cam
  part cam "Cam"
  part plate "Plate"  behind cam
}
`;

/** The faults of a job on the winch whose lines are these. */
function faults(lines: string, extra = ""): string[] {
  const text = `torquil 1

use "winch.torquil"

procedure job "Job" {
  on winch
${lines}
}
${extra}`;
  return faultsIn({ "job.torquil": text, "winch.torquil": MACHINE });
}

const step = (lines: string): string => `  step "Step" {\n    ${lines.split("; ").join("\n    ")}\n  }\n`;
const RATTLE = `  symptom rattle "Rattle"\n  symptom leak "Leak"\n`;

describe("conditions", () => {
  test("off under one and back under it is clean; under another it is not, and the way is said", () => {
    const off = step("when rattle {; remove cover; }");
    expect(faults(RATTLE + off + step("when rattle {; fit cover; }"))).toEqual([]);
    expect(faults(RATTLE + off + step("when leak {; fit cover; }"))).toEqual([
      "part-fitted-twice cover off @ fit cover: when not “Rattle”",
      "part-left-off cover off @ remove cover: when “Rattle”, then when not “Leak”",
    ]);
    expect(faults(RATTLE + step("remove cover; when rattle {; }; otherwise {; fit cover; }"))).toEqual([
      "part-left-off cover off @ remove cover: when “Rattle”",
    ]);
  });

  test("nested", () => {
    const off = step("when rattle {; when leak {; remove cover; }; }");
    expect(faults(RATTLE + off + step("when leak {; when rattle {; fit cover; }; }"))).toEqual([]);
    expect(faults(RATTLE + off + step("when leak {; fit cover; }"))).toEqual([
      "part-fitted-twice cover off @ fit cover: when not “Rattle”",
    ]);
    expect(faults(RATTLE + off)).toEqual([
      "part-left-off cover off @ remove cover: when “Rattle”, then when “Leak”",
    ]);
  });

  test("ended early, what is owed on that way is not owed", () => {
    const body = `${RATTLE}${step('remove cover; when rattle {; end job "No."; }')}`;
    expect(faults(body + step("when rattle {; wait 5 min; }; otherwise {; fit cover; }"))).toEqual([]);
    expect(faults(body + step("when rattle {; fit cover; }"))).toEqual([
      "part-left-off cover off @ remove cover",
    ]);
  });

  test("one answer of several", () => {
    const off = step("remove cover; when small {; fit cover; }");
    expect(faults(off + step("when large {; fit cover; }"))).toEqual([]);
    expect(faults(off)).toEqual(["part-left-off cover off @ remove cover: when not “Small”"]);
  });

  test("what only some machines have is in the way on those alone", () => {
    const drum = step("remove drum; fit drum");
    const around = (lines: string, back: string): string =>
      step(`remove cover; ${lines}`) + drum + step(`${back}; fit cover`);
    const all = around(
      "when hood-fitted {; remove hood; }; when mk-2 {; remove shield; }",
      "when mk-2 {; fit shield; }; when hood-fitted {; fit hood; }",
    );
    expect(faults(all)).toEqual([]);
    expect(faults(around("when hood-fitted {; remove hood; }", "when hood-fitted {; fit hood; }"))).toEqual([
      "blocked-by shield @ remove drum",
    ]);
    const onlyMk1 = `  on winch  serial 1 to 99\n`;
    const text = `torquil 1\n\nuse "winch.torquil"\n\nprocedure job "Job" {\n${onlyMk1}${around("remove hood", "fit hood")}}\n`;
    expect(faultsIn({ "job.torquil": text, "winch.torquil": MACHINE })).toEqual([]);
  });
});

describe("checks", () => {
  const check = (outcomes: string): string =>
    `  check play "Play" {\n    limit 0.1 to 0.2 mm\n    ${outcomes.split("; ").join("\n    ")}\n  }\n`;

  test("a later condition takes the latest outcome", () => {
    const off = check("if over {; remove cover; }");
    expect(faults(off + step("when play over {; fit cover; }"))).toEqual([]);
    expect(faults(off + step("when play not met {; fit cover; }"))).toEqual([
      "part-fitted-twice cover off @ fit cover: “Play” is not over",
    ]);
    expect(faults(off + step("when play under {; fit cover; }"))).toEqual([
      "part-fitted-twice cover off @ fit cover",
      "part-left-off cover off @ remove cover: “Play” is over",
    ]);
    expect(faults(check("if not met {; remove cover; }") + step("when play over {; fit cover; }"))).toEqual([
      "part-left-off cover off @ remove cover: “Play” is not met, then “Play” is not over",
    ]);
  });

  test("a return is taken so often and no more, and then its “if still” is", () => {
    const twice = (still: string): string =>
      check(
        `if over {; remove cover; fit cover; check again at most 2 times; }; if still over {; ${still}; }`,
      );
    expect(faults(twice("remove cover"))).toEqual([
      "part-left-off cover off @ remove cover: “Play” is still over",
    ]);
    expect(faults(`${twice("remove cover; fit cover")}`)).toEqual([]);
  });

  test("what an outcome undoes before it goes back is undone; what it does not is found", () => {
    const job = (undo: string): string =>
      `  step first "First" {\n    remove cover\n    remove drum\n    fit drum\n    fit cover\n  }\n${check(
        `if over {; remove cover; ${undo}repeat from first at most 1 time; }; if still over {; end job "No."; }`,
      )}${step("when mk-2 {; wait 5 min; }")}`;
    const mk1 = (lines: string): string[] => {
      const text = `torquil 1\n\nuse "winch.torquil"\n\nprocedure job "Job" {\n  on winch  serial 1 to 99\n  starts with {\n    off hood\n  }\n  ends with {\n    off hood\n  }\n${lines}}\n`;
      return faultsIn({ "job.torquil": text, "winch.torquil": MACHINE });
    };
    expect(mk1(job("fit cover; "))).toEqual([]);
    expect(mk1(job(""))).toEqual(["repeat-skips-undo cover off @ remove cover: “Play” is over"]);
    expect(mk1(check("if over {; remove cover; }"))).toEqual([
      "part-left-off cover off @ remove cover: “Play” is over",
    ]);
  });

  test("a jump forward leaves out what it passes", () => {
    const jump = check("if over {; go to done; }");
    expect(
      faults(`${step("remove cover")}${jump}${step("fit cover")}  step done "Done" {\n    wait 5 min\n  }`),
    ).toEqual(["part-left-off cover off @ remove cover: “Play” is over"]);
    expect(
      faults(`${step("remove cover")}${jump}${step("wait 5 min")}  step done "Done" {\n    fit cover\n  }`),
    ).toEqual([]);
  });

  test("when every outcome ends the job, nothing after it is held against the writer", () => {
    const both = check('if met {; end job "Yes."; }; if not met {; end job "No."; }');
    expect(faults(`${both}${step("remove cover")}`)).toEqual([]);
  });
});

describe("sets, assemblies and other procedures", () => {
  test("what is done for each of a set is done once for all", () => {
    expect(faults(step("for each side {; remove cover; fit cover; }"))).toEqual([]);
    expect(faults(step("for each side {; remove cover; }"))).toEqual([
      "part-left-off cover off @ remove cover",
    ]);
  });

  test("what an assembly carries is off with it, through assemblies that carry assemblies", () => {
    expect(faults(step("remove gearbox; remove plate; fit plate; fit gearbox"))).toEqual([]);
    expect(faults(step("remove plate; fit plate"))).toEqual(["blocked-by cam @ remove plate"]);
    expect(faults(step("remove gearbox; remove cam; fit gearbox"))).toEqual([
      "part-left-off cam off @ remove cam",
    ]);
  });

  const OTHER = `
procedure open-up "Open up" {
  on winch
  temporary peg "Peg"  into drum
  step first "First" {
    remove cover
    insert peg
  }
  check look "Look" {
    observe "Is it dry?"
    if no {
      end job "Dry it."
    }
  }
}
`;

  test("a procedure that is followed is done there, its ends are ends, and what it leaves open is owed", () => {
    expect(faults(`  follow open-up\n${step("fit cover")}`, OTHER)).toEqual([
      "temporary-left-in peg inserted @ follow open-up",
    ]);
    expect(faults("  follow open-up\n", OTHER)).toEqual([
      "part-left-off cover off @ follow open-up",
      "temporary-left-in peg inserted @ follow open-up",
    ]);
    expect(
      faults(
        `  follow open-up\n${step("hand-back cover; hand-back drum")}`,
        OTHER.replace(/ {4}insert.*\n/, ""),
      ),
    ).toEqual([]);
  });

  test("a procedure that follows itself is not followed without end", () => {
    const text = `torquil 1\n\nmachine m "M" {\n  part a "A"\n}\n\nprocedure job "Job" {\n  on m\n  step "S" {\n    remove a\n    fit a\n  }\n  follow job\n}\n`;
    expect(walkThrough({ "job.torquil": text }).graph.points.filter((p) => p.kind === "act")).toHaveLength(2);
  });
});
