/**
 * The refit of clean procedures that were cut short, and of random ones: where it says that all is written, the checker
 * finds nothing that is owed, and nothing that it did not find before.
 */
import { expect, test } from "vitest";
import { seeded } from "../support/random";
import { MACHINE, makeProgram } from "../walk/programs";
import { cleanFiles, cutsOf } from "./cuts";
import { type Refitted, refitted } from "./refit-support";

/** Every how many cuts one is tried; 1 for all. */
const EVERY = Number(process.env.TORQUIL_CUTS ?? 14);
const PROGRAMS = Number(process.env.TORQUIL_PROGRAMS ?? 200);
const SEED = Number(process.env.TORQUIL_SEED ?? 20_260_419);

/** Cuts that are not put right in full, and why. */
const NOT_WRITTEN: Readonly<Record<string, RegExp>> = {};

test(`one in ${EVERY} of the cuts through clean procedures is put right, and checks clean`, () => {
  const bad: string[] = [];
  let tried = 0;
  let owing = 0;
  let at = 0;
  for (const { path, texts } of cleanFiles()) {
    for (const cut of cutsOf(path, texts)) {
      if (at++ % EVERY !== 0) continue;
      const { owed, wrong, problems, usual } = refitted(cut.texts, cut.path);
      tried++;
      if (owed.length > 0) owing++;
      const why = NOT_WRITTEN[cut.where];
      if (why ? !problems.some((p) => why.test(p)) : problems.length > 0)
        bad.push(`${cut.where}: ${problems}`);
      if (!why && wrong.length > 0) bad.push(`${cut.where}: ${wrong}`);
      if (!usual) bad.push(`${cut.where}: not in its usual form`);
    }
  }
  expect(bad).toEqual([]);
  expect(tried).toBeGreaterThan(40);
  expect(owing).toBeGreaterThan(tried / 2);
});

/** A random procedure with what its refit may need: a kit, and tools. */
function equipped(text: string): string {
  const names = ["a", "b", "c", "d", "drum", "tank", "bolts", "nut"];
  const kit = names.map((name) => `    item ${name} 9`);
  const tools = ['  tool wrench "Torque wrench"  5 to 50 N·m', '  tool gauge "Angle gauge"'];
  const head = ['  kit "K" {', ...kit, "  }", ...tools, "  temporary pin"].join("\n");
  return text.replace("  temporary pin", () => head);
}

test(`${PROGRAMS} random procedures: what is said to be written is right`, () => {
  const random = seeded(SEED);
  const counts = { nothing: 0, whole: 0, told: 0 };
  for (let i = 0; i < PROGRAMS; i++) {
    const texts = {
      "job.torquil": equipped(makeProgram(random, 2 + (i % 4)).text),
      "winch.torquil": MACHINE,
    };
    const done: Refitted = refitted(texts, "job.torquil");
    const { owed, wrong, problems, added } = done;
    if (problems.length > 0) counts.told++;
    else {
      expect(wrong, `${texts["job.torquil"]}\n${added}`).toEqual([]);
      if (added === "") counts.nothing++;
      else counts.whole++;
      if (owed.length > 0) expect(added, texts["job.torquil"]).not.toBe("");
    }
  }
  expect(counts.whole).toBeGreaterThan(PROGRAMS / 3);
  expect(counts.told).toBeGreaterThan(PROGRAMS / 20);
});
