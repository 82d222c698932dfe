/** `torquil ways`: how many ways, the shortest and the longest, and what each check and condition decides. */
import { expect, test } from "vitest";
import { inProcess } from "./in-process";

const MACHINE = `torquil 1

machine winch "Hand winch" {
  option brake "Drum brake"
  part cover "Gear cover"
}
`;

/** Six ways: with the brake or without, the play met at once, after one return, or not at all. */
const JOB = `torquil 1

use "winch.torquil"

procedure look "Look at the drum" {
  on winch
  tool gauge "Feeler gauge"
  step open "Open" {
    remove cover
  }
  when brake {
    step block "Block the brake" {
      "Push the lever home."
    }
  }
  check play "Play of the drum" {
    limit at most 0.2 mm  with gauge
    if over {
      clean cover
      check again  at most 1 time
    }
    if still over {
      fit cover
      end job "The drum is worn."
    }
  }
  step shut "Shut" {
    fit cover
  }
}
`;
const FILES = { "/home/winch.torquil": MACHINE, "/home/look.torquil": JOB };
const ways = (args: readonly string[] = [], files: Readonly<Record<string, string>> = FILES) =>
  inProcess(["ways", "look.torquil", ...args], files);

test("how many, the shortest, the longest, the soonest to end, and each place with its answers", async () => {
  const { code, out, err } = await ways();
  expect([code, err]).toEqual([0, ""]);
  // Each of 2 answers about the brake, times 3: at once, after a return, and the early end.
  expect(out).toContain(
    "6 ways lead from the start to an end: 4 to the end of the work, 2 end the job early.",
  );
  expect(out).toContain("Shortest way to the end of the work: 3 steps\n  straight on everywhere");
  // Open, block, play, play again, shut.
  expect(out).toContain(
    "Longest way to the end of the work: 5 steps\n  Is this fitted: Drum brake? Yes\n  3 Play of the drum: Over the limit",
  );
  // Open, play, play again.
  expect(out).toContain(
    "Soonest to end the job early: 3 steps\n  3 Play of the drum: Over the limit\n  3 Play of the drum: Still over the limit",
  );
  expect(out).toContain(
    "  Is this fitted: Drum brake?\n    Yes (3 ways): step 2; goes on with step 3\n    No (3 ways): goes on with step 3",
  );
  expect(out).toContain("    Over the limit (4 ways): Clean Gear cover; checks again, at most once");
  expect(out).toContain("    Still over the limit (2 ways): Fit Gear cover; ends the job: The drum is worn.");
  expect(out).toContain("    Within the limit (4 ways): goes on with step 4");
});

test("the same as JSON, with figures as digits", async () => {
  const told = JSON.parse((await ways(["--format", "json"])).out);
  expect(told).toMatchObject({
    version: 1,
    procedure: "look",
    count: { ways: "6", whole: "4", early: "2" },
    shortest: { steps: 3, decisions: [] },
    longest: { steps: 5 },
    problem: null,
  });
  expect(told.places).toHaveLength(2);
  expect(told.places[0].answers[0]).toMatchObject({
    answer: "Yes",
    steps: [2],
    leads: { kind: "on", to: 3, times: null },
    ways: "3",
  });
  expect(told.places[1]).toMatchObject({ kind: "check", number: 3, place: { file: "look.torquil" } });
  expect(told.places[1].answers[0].leads).toMatchObject({ kind: "check-again", to: 3, times: 1 });
});

test("a procedure that nothing parts has one way", async () => {
  const plain = JOB.replace(/ {2}when brake[\s\S]*?\n {2}\}\n/, "").replace(
    / {4}if over[\s\S]*?(?= {2}\}\n {2}step shut)/,
    "",
  );
  const { code, out } = await ways([], { ...FILES, "/home/look.torquil": plain });
  expect(code).toBe(0);
  expect(out).toBe(
    "Look at the drum\n\nThere is one way through it: nothing parts the ways.\n\nEvery way to the end of the work: 3 steps\n  straight on everywhere\n",
  );
});

test("what is left out by a jump is said, and an answer that no way takes", async () => {
  const jumping = JOB.replace("check again  at most 1 time", "go to shut")
    .replace(/ {4}if still over[\s\S]*?\n {4}\}\n/, "")
    .replace("  step shut", '  step wipe "Wipe" {\n    clean cover\n  }\n  step shut');
  const jump = await ways([], { ...FILES, "/home/look.torquil": jumping });
  expect(jump.out).toContain("goes to step 5, leaving out step 4");
  const impossible = JOB.replace(
    "  step shut",
    '  when brake {\n    when brake {\n      step grease "Grease" {\n        clean cover\n      }\n    }\n  }\n  step shut',
  );
  const none = await ways([], { ...FILES, "/home/look.torquil": impossible });
  expect(none.out).toContain("No (no way): goes on with step 5");
  expect(none.out).toContain("(only after: Is this fitted: Drum brake? Yes)");
});

test("ways without number are refused aloud, with the places still told", async () => {
  const endless = JOB.replace("check again  at most 1 time", "check again");
  const { code, out, err } = await ways([], { ...FILES, "/home/look.torquil": endless });
  expect(code).toBe(1);
  expect(err).toBe(
    "The ways cannot be counted: step 3 goes back without a bound, so there is no end of them. Say “at most … times” there.\n",
  );
  expect(out).toContain("    Over the limit: Clean Gear cover; checks again, without a bound");
  expect(out).not.toContain("ways)");
});

test("too much to be remembered is refused aloud, and what of it is named", async () => {
  const conditions = Array.from({ length: 30 }, (_, k) => `  symptom s${k} "Symptom ${k}"\n`).join("");
  const asked = (act: string): string =>
    Array.from(
      { length: 30 },
      (_, k) => `  when s${k} {\n    step "${act} ${k}" {\n      clean cover\n    }\n  }\n`,
    ).join("");
  const many = JOB.replace("  step open", `${conditions}  step open`).replace(
    "  step shut",
    `${asked("A")}${asked("B")}  step shut`,
  );
  const { code, out, err } = await ways([], { ...FILES, "/home/look.torquil": many });
  expect(code).toBe(1);
  expect(err).toMatch(
    /^There are too many ways to count them: at line \d+ it still matters how \d+ conditions and checks before were answered \(“Has this been noticed: Symptom \d+\?”, .* and \d+ more\)\. Ask fewer of them again later, or allow fewer returns\.\n$/,
  );
  expect(out).toContain("Where the ways part");
});

test("wrong use, and a procedure that cannot be followed, are told in words", async () => {
  expect((await inProcess(["ways"], FILES)).err).toContain("Name the file of a procedure.");
  expect((await ways(["--procedure", "lock"])).err).toContain("Did you mean look?");
  const broken = await ways([], {
    ...FILES,
    "/home/look.torquil": JOB.replace("clean cover", "clean cuver"),
  });
  expect(broken.code).toBe(1);
  expect(broken.err).toContain("is not followed");
  const help = await inProcess(["ways", "--help"], FILES);
  expect(help.out).toContain("torquil ways FILE");
  expect(help.out).toContain("Exit code");
});
