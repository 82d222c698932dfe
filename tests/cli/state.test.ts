/** `torquil state`: how everything stands at a step, on every way that comes there. */
import { expect, test } from "vitest";
import { inProcess } from "./in-process";

const MACHINE = `torquil 1

machine winch "Hand winch" {
  fluid oil "Gear oil"  2 L
  part cover "Gear cover"
  part wheel "Gear wheel"  behind cover
  fastener bolts "Cover bolts" {
    secures cover
    dry
    stage snug 10 N·m
    stage final 22 N·m
  }
}
`;
const JOB = `torquil 1

use "winch.torquil"

procedure look "Look at the wheel" {
  on winch
  tool wrench "Torque wrench"  5 to 50 N·m
  symptom leak "Oil drips"
  temporary wedge "Wedge"  into wheel
  step open "Open" {
    remove bolts, cover
    insert wedge
    when leak {
      drain oil
    }
  }
  step half "Half way" {
    pull wedge
    fit cover
    fit bolts  by hand
    tighten bolts  to snug  with wrench
  }
  step shut "Shut" {
    tighten bolts  to final  with wrench
    when leak {
      fill oil
    }
  }
}
`;
const FILES = { "/home/winch.torquil": MACHINE, "/home/look.torquil": JOB };
const state = (...args: readonly string[]) => inProcess(["state", "look.torquil", ...args], FILES);

test("before a step: what is off, in, drained on some ways only, and owed", async () => {
  const { code, out } = await state("--at", "half");
  expect(code).toBe(0);
  expect(out).toContain("Before 2, “Half way” of “Look at the wheel”");
  expect(out).toContain("Cover bolts: out");
  expect(out).toContain("Gear cover: off");
  expect(out).toMatch(/Wedge: .*in/);
  expect(out).toMatch(/Gear oil\n(?:.*\n)*? +drained {2}\[when “Oil drips”\]/);
  expect(out).toMatch(/owed[\s\S]*fill “Gear oil”, on some ways/);
  expect(out).toMatch(/owed[\s\S]*pull “Wedge”/);
});

test("a fastener at a stage, and at the end nothing is owed", async () => {
  expect((await state("--at", "3")).out).toMatch(/Cover bolts: .*snug/);
  const end = await state();
  expect(end.code).toBe(0);
  expect(end.out).not.toMatch(/owed/);
  expect((await state("--at", "end")).out).toBe(end.out);
});

test("the same by number, by name, by title and by line; as JSON for programs", async () => {
  const byName = (await state("--at", "half")).out;
  const line = JOB.split("\n").findIndex((text) => text.includes("step half")) + 1;
  for (const at of ["2", "Half way", `line ${line}`]) expect((await state("--at", at)).out, at).toBe(byName);
  const told = JSON.parse((await state("--at", "half", "--format", "json")).out);
  expect(told).toMatchObject({ version: 1, number: 2 });
  const cover = told.groups
    .flatMap((group: { things: { name: string }[] }) => group.things)
    .find((thing: { name: string }) => thing.name === "cover");
  expect(cover.stands).toHaveLength(1);
});

test("a step that is not there, and a procedure that cannot be followed, are told in words", async () => {
  const none = await state("--at", "halb");
  expect(none.code).toBe(2);
  expect(none.err).toContain("has no step or check “halb”. Did you mean half?");
  expect((await state("--at", "9")).err).toContain("its steps and checks go from 1 to 3");
  const broken = await inProcess(["state", "look.torquil"], {
    ...FILES,
    "/home/look.torquil": JOB.replace("pull wedge", "pull wegde"),
  });
  expect(broken.code).toBe(1);
  expect(broken.err + broken.out).toMatch(/look\.torquil:\d+/);
});
