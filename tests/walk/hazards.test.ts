/** Hazards of the house, and clocks that several lines and steps share. */
import { describe, expect, test } from "vitest";
import { faultsIn, walkThrough } from "./support";

const MACHINE = `torquil 1

machine winch "Winch" {
  consumable sealant "Sealant"  open-time 10 min
  part cover "Gear cover"
  part drum "Drum"
  fastener bolts "Bolts"  secures cover  tighten 22 N·m
}
`;

const texts = (lines: string): Record<string, string> => ({
  "job.torquil": `torquil 1\n\nuse "winch.torquil"\n\nprocedure job "Job" {\n  on winch\n${lines}}\n`,
  "winch.torquil": MACHINE,
});

describe("hazards of the house", () => {
  const house = [
    { name: "dust", title: "Lining dust", least: "warning", verbs: ["clean"], things: ["DRUM"] },
  ] as const;
  const untold = (lines: string): string[] =>
    walkThrough(texts(`  step "S" {\n${lines}  }\n`))
      .tellings(house)
      .untold.map((u) => `${u.hazard.hazard} ${u.thing.name}`);

  test("arise by verb and word, and a caution covers them", () => {
    expect(untold("    clean drum\n    clean cover\n")).toEqual(["dust drum"]);
    expect(untold("    remove drum\n    fit drum\n")).toEqual([]);
    const caution = '    warning dust {\n      "Dust."\n      can "Hurt."\n      so "Wear a mask."\n    }\n';
    expect(untold(`${caution}    clean drum\n`)).toEqual([]);
  });

  test("are asked for anew when they change", () => {
    const walk = walkThrough(texts('  step "S" {\n    clean drum\n  }\n'));
    expect(walk.tellings([]).untold).toEqual([]);
    expect(walk.tellings(house).untold).toHaveLength(1);
    expect(walk.tellings([]).untold).toEqual([]);
  });
});

describe("clocks", () => {
  const seal = "    remove drum\n    seal drum  with sealant\n";

  test("run on for every line that must follow within the time, and a fault is said once", () => {
    const job = (wait: string): string =>
      `  step "S" {\n${seal}    remove bolts, cover\n    wait 6 min\n    fit cover  within 10 min of sealant\n    fit drum\n${wait}    fit bolts  within 10 min of sealant\n    tighten bolts  within 10 min of sealant\n  }\n`;
    expect(faultsIn(texts(job("")))).toEqual([]);
    expect(faultsIn(texts(job("    wait 6 min\n")))).toEqual([
      "open-time-passed sealant 10 min @ fit bolts  within 10 min of sealant",
    ]);
  });

  test("a wait that counts from a step counts only what is not over yet", () => {
    const job = (wait: string): string =>
      `  step sealing "Seal" {\n${seal}    wait 4 min\n  }\n  step "Close" {\n    wait 5 min\n    wait ${wait} after sealing\n    fit drum\n  }\n`;
    expect(faultsIn(texts(job("6 min")))).toEqual([]);
    expect(faultsIn(texts(job("7 min")))).toEqual(["open-time-passed sealant 10 min @ fit drum"]);
  });

  test("only what is written takes time: a wait until something, or for about a time, may be short", () => {
    const job = (wait: string): string => `  step "S" {\n${seal}    wait ${wait}\n    fit drum\n  }\n`;
    expect(faultsIn(texts(job('until "it is cold"')))).toEqual([]);
    expect(faultsIn(texts(job("at most 20 min")))).toEqual([]);
    expect(faultsIn(texts(job("10 min")))).toEqual([]);
    expect(faultsIn(texts(job("5 to 20 min")))).toEqual([]);
    expect(faultsIn(texts(job("10.5 to 20 min")))).toEqual(["open-time-passed sealant 10 min @ fit drum"]);
  });
});
