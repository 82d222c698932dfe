/** Comparison by meaning: what is said of each kind of change, that nothing is left out, and that changes done give the new form. */
import { writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { CONSTRUCTS } from "../../grammar";
import { CLAUSES } from "../../grammar/constructs/clauses";
import { applyChanges, CHANGE_KINDS, compareProjects, normalForm } from "../../server/compare";
import { hasRank, rankRow } from "../../server/compare/ranks";
import { cleanExamples } from "../support/examples";
import { projectOf } from "../support/project";
import { seeded } from "../support/random";
import { FLAGSHIP } from "./flagship";
import { MEANT } from "./meant";
import { mutated } from "./mutations";
import { REVISIONS } from "./revisions";
import { saidBetween } from "./said";

const side = (
  texts: Readonly<Record<string, string>>,
  values: Readonly<Record<string, string>> = { paper: "a4" },
) => ({
  project: projectOf(texts),
  settings: { file: "torquil.json", values, text: null },
});

/** `UPDATE=1` writes what is said now, to be read and compared with what was meant. */
if (process.env.UPDATE) {
  const said = Object.entries(REVISIONS).map(([name, texts]) => [name, saidBetween(FLAGSHIP, texts)]);
  const head =
    "/** What is said of each revision of the flagship: rank, headline, and what stands under it. Nothing else. */\n";
  const text = JSON.stringify(Object.fromEntries(said), null, 2);
  writeFileSync(
    new URL("./meant.ts", import.meta.url),
    `${head}export const MEANT: Readonly<Record<string, readonly string[]>> = ${text};\n`,
  );
}

describe("a revision of the flagship for each kind of change", () => {
  it.each(Object.keys(REVISIONS))("%s", (name) => {
    expect(saidBetween(FLAGSHIP, REVISIONS[name] ?? {})).toEqual(MEANT[name]);
  });

  it("every revision is a change, and the meant ones are those that are tried", () => {
    expect(Object.keys(MEANT)).toEqual(Object.keys(REVISIONS));
    for (const lines of Object.values(MEANT)) expect(lines.length).toBeGreaterThan(0);
  });
});

it("nothing has changed between a project and itself", () => {
  const all = Object.fromEntries(cleanExamples().map(({ path, text }) => [path, text]));
  expect(compareProjects(side(all), side(all)).changes).toEqual([]);
});

it("another layout of a whole file is one change of layout, and nothing else", () => {
  for (const { path, text } of cleanExamples()) {
    const wide = text.replace(/^( *)(?=\S)/gm, "$1$1").replace(/ {2}(?=\S)/g, "   ");
    const { changes } = compareProjects(side({ [path]: text }), side({ [path]: wide }));
    expect(changes.map(({ rank, kind }) => `${rank} ${kind}`)).toEqual(["layout laid-out"]);
  }
});

describe("changes done to the old form give the new one", () => {
  for (let seed = 1; seed <= 30; seed++)
    it(`after random changes, seed ${seed}`, () => {
      const random = seeded(seed);
      const before = seed % 3 === 0 ? mutated(FLAGSHIP, random, 3) : FLAGSHIP;
      const after = mutated(before, random, 1 + (seed % 12));
      const [old, fresh] = [side(before), side(after, { paper: "letter", "severities.tool-unused": "off" })];
      const { changes } = compareProjects(old, fresh);
      expect(applyChanges(normalForm(old), changes)).toEqual(normalForm(fresh));
      for (const change of changes) {
        expect(CHANGE_KINDS).toContain(change.kind);
        expect(change.places.before ?? change.places.after).not.toBeNull();
      }
      // And back again.
      expect(applyChanges(normalForm(fresh), compareProjects(fresh, old).changes)).toEqual(normalForm(old));
    });
});

it("whatever meaning has changed, something is said of it", () => {
  for (let seed = 100; seed < 112; seed++) {
    const after = mutated(FLAGSHIP, seeded(seed), 1);
    const [old, fresh] = [side(FLAGSHIP), side(after)];
    const isOther = JSON.stringify(normalForm(old)) !== JSON.stringify(normalForm(fresh));
    const said = compareProjects(old, fresh).changes;
    if (isOther) expect(said.length).toBeGreaterThan(0);
    else for (const { kind } of said) expect(kind).toBe("laid-out");
  }
});

it("the table of ranks has a row for everything that can be written, and for nothing else", () => {
  for (const { id } of CONSTRUCTS) expect([id, hasRank(id)]).toEqual([id, true]);
  for (const { id } of CLAUSES) expect([id, hasRank(`+${id}`)]).toEqual([`${id}`, true]);
  expect(rankRow("check")).toEqual({ changed: "content", added: "content", removed: "safety" });
});

describe("settings", () => {
  const said = (before: Record<string, string>, after: Record<string, string>) =>
    compareProjects(side(FLAGSHIP, before), side(FLAGSHIP, after), {
      severities: { "tool-unused": "warning" },
    }).changes.map(({ rank, kind, what }) => `${rank} ${kind} ${what}`);
  it("a lowered severity is of safety, a raised one of content, seen from the usual one", () => {
    expect(said({}, { "severities.tool-unused": "off" })).toEqual(["safety severity severities.tool-unused"]);
    expect(said({}, { "severities.tool-unused": "error" })).toEqual([
      "content severity severities.tool-unused",
    ]);
    expect(said({ "severities.tool-unused": "error" }, {})).toEqual([
      "safety severity severities.tool-unused",
    ]);
  });
  it("what is no longer looked at or asked about is of safety", () => {
    expect(said({}, { "skip.old": "old" })).toEqual(["safety setting skip.old"]);
    expect(said({ "hazards.dust": "{}" }, {})).toEqual(["safety setting hazards.dust"]);
    expect(said({ paper: "a4" }, { paper: "letter" })).toEqual(["content setting paper"]);
  });
});

it("a machine's change touches the procedures that follow one that names it, by their own step numbers", () => {
  const machine =
    'machine m "M" {\n  part lid "Lid"\n  fastener bolt "Lid bolt" {\n    secures lid\n    tighten 10 N·m\n  }\n}\n';
  const open =
    'use "m.torquil"\nprocedure open "Open it" {\n  on m\n  step "Off" {\n    remove bolt, lid\n  }\n}\n';
  const whole =
    'use "m.torquil"\nuse "open.torquil"\nprocedure whole "All" {\n  on m\n  step "First" {\n    wait 1 min\n  }\n  follow open\n  step "Again" {\n    fit lid\n  }\n}\n';
  const before = { "m.torquil": machine, "open.torquil": open, "whole.torquil": whole };
  const after = { ...before, "m.torquil": machine.replace("10 N·m", "12 N·m") };
  const touched = compareProjects(side(before), side(after)).changes.map(({ touches }) =>
    touches.map(({ procedure, steps }) => [procedure.title, steps.map(({ number }) => number)]),
  );
  expect(touched).toEqual([
    [
      ["Open it", [1]],
      ["All", [2]],
    ],
  ]);
  const followed = { ...before, "open.torquil": open.replace("remove bolt, lid", "remove bolt, lid  keep") };
  const [change] = compareProjects(side(before), side(followed)).changes;
  expect(
    change?.touches.map(({ procedure, steps }) => [procedure.name, steps.map(({ number }) => number)]),
  ).toEqual([["whole", [2]]]);
});

it("two procedures of one file, split over two files, are a change of layout only", () => {
  const one = 'procedure a "A" {\n  step "X" {\n    wait 1 min\n  }\n}\n';
  const two = 'procedure b "B" {\n  step "Y" {\n    wait 2 min\n  }\n}\n';
  const { changes } = compareProjects(
    side({ "a.torquil": `torquil 1\n${one}${two}` }),
    side({ "a.torquil": `torquil 1\n${one}`, "b.torquil": `torquil 1\n${two}` }),
  );
  expect(changes.map(({ rank, kind }) => `${rank} ${kind}`)).toEqual(["layout file-added"]);
});

it("a name that now means another thing is told, though no line of it has changed", () => {
  const machine = 'machine m "M" {\n  consumable oil "Oil of the machine"\n  consumable fat "Fat"\n}\n';
  const job = (own: string): string =>
    `use "m.torquil"\nprocedure p "P" {\n  on m\n  consumable ${own} "Own"\n  step "S" {\n    wait 1 min  with oil\n  }\n}\n`;
  const { changes } = compareProjects(
    side({ "m.torquil": machine, "p.torquil": job("fat-2") }),
    side({ "m.torquil": machine, "p.torquil": job("oil") }),
  );
  expect(changes.find(({ kind }) => kind === "use")).toMatchObject({
    rank: "safety",
    does: [{ id: "means-another", names: ["oil"] }],
  });
});
