/**
 * How things stand in the examples, walked by hand. What is expected here was written down from the texts, as a mechanic
 * with a pencil reads them, before the program was asked; where the two differed, it was settled who was wrong.
 *
 * A place is a printed number, `end`, or `~` and words of a line (`~~`: the last such line); what stands is told before it. Each of its lines is a state
 * and the things in it; `new`: the old one is thrown away or to be renewed. `owed` lists what must be put right before the
 * end, `all` where that is everything told; without it nothing is. `again` lists what was touched and is as it should be:
 * it is compared where it is written. A thing that stands otherwise on some ways has a line of its own.
 */
import { expect, test } from "vitest";
import { type StateTold, stepNamed, tellState } from "../../server/features";
import type { Procedure } from "../../server/model";
import { examplesIn } from "../support/examples";
import { projectOf } from "../support/project";
import { PLACES } from "./by-hand";

const texts = Object.fromEntries(
  examplesIn("examples")
    .filter(({ path }) => !path.startsWith("examples/faulty/"))
    .map(({ path, text }) => [path, text]),
);
const project = projectOf(texts);
const procedures = [...project.files.values()].flatMap((file) => file.procedures);

/** A place as `stepNamed` is asked for it: a line by its number. The first line that holds the words is meant, or the last. */
function asked(procedure: Procedure, at: string): string {
  if (!at.startsWith("~")) return at;
  const lines = (texts[procedure.thing.file] ?? "").split("\n");
  const isIt = (one: string): boolean => one.includes(at.replace(/^~+/, ""));
  const line = at.startsWith("~~") ? lines.findLastIndex(isIt) : lines.findIndex(isIt);
  if (line < 0) throw new Error(`not in the text: ${at}`);
  return `line ${line + 1}`;
}

const inOrder = (names: readonly string[]): string => [...names].sort().join(" ");
const inShort = (state: string): string => state.replace(", thrown away, a new one goes in", " new");

const on = (way: readonly string[]): string => (way.length > 0 ? way.join(", then ") : "otherwise");

/** `all`, `all but` a few, or the names, of everything that is told. */
function owedInShort(owed: readonly string[], all: readonly string[]): string {
  const rest = all.filter((name) => !owed.includes(name));
  if (rest.length === 0) return "all";
  return rest.length < owed.length ? `all but ${inOrder(rest)}` : inOrder(owed);
}

/** What is told, as the places are written. */
function written(told: StateTold, withAgain: boolean): Record<string, string> {
  const lines: Record<string, string[]> = {};
  const differing: Record<string, string> = {};
  for (const { name, stands } of told.groups.flatMap((group) => group.things)) {
    const [first] = stands;
    if (stands.length === 1 && first) {
      lines[inShort(first.state)] = [...(lines[inShort(first.state)] ?? []), name];
      continue;
    }
    differing[name] = stands.map(({ state, way }) => `${inShort(state)} (${on(way)})`).join(" | ");
  }
  const all = told.groups.flatMap((group) => group.things.map(({ name }) => name));
  const owed = [...new Set(told.owed.map(({ name }) => name))];
  const shafts = told.turning.map(({ shafts, marks, together, way }) => {
    const stands = shafts.length === 0 ? ["not known"] : shafts.map(({ name, angle }) => `${name} ${angle}`);
    const seen = marks.map(({ name, off }) => `${name} ${off === "0" ? "in line" : off}`);
    const whole = [...stands, ...seen, ...(together.length > 0 ? ["together"] : [])].join(", ");
    return told.turning.length > 1 ? `${whole} (${on(way)})` : whole;
  });
  return {
    ...Object.fromEntries(Object.entries(lines).map(([state, names]) => [state, inOrder(names)])),
    ...differing,
    ...(owed.length > 0 ? { owed: owedInShort(owed, all) } : {}),
    ...(shafts.length > 0 ? { shafts: shafts.join(" | ") } : {}),
    ...(withAgain ? { again: inOrder(titlesToNames(told)) } : {}),
  };
}

/** Names of what is settled, which is told by its title. */
function titlesToNames({ procedure, settled }: StateTold): string[] {
  const own = procedures.find((one) => one.thing.name === procedure);
  const things = [...(own?.machine?.things ?? []), ...(own?.things ?? [])];
  return settled.map((title) => things.find((thing) => thing.title === title)?.name ?? title);
}

/** The lines of a place, with the names of a state in one order. */
function read(lines: string): Record<string, string> {
  return Object.fromEntries(
    lines
      .trim()
      .split("\n")
      .filter((line) => line.trim() !== "")
      .map((line) => {
        const [, state = "", names = ""] = /^([^:]+): (.*)$/.exec(line.trim()) ?? [];
        const isList = !/[|(,]/.test(names) && state !== "shafts";
        return [state, isList ? inOrder(names.split(" ")) : names];
      }),
  );
}

test("every example is walked, at five places at least", () => {
  expect(Object.keys(PLACES).sort()).toEqual(procedures.map(({ thing }) => thing.name).sort());
  for (const places of Object.values(PLACES)) expect(Object.keys(places).length).toBeGreaterThanOrEqual(5);
});

for (const [name, places] of Object.entries(PLACES)) {
  test.each(Object.entries(places))(`${name}, before %s`, (at, lines) => {
    const procedure = procedures.find(({ thing }) => thing.name === name);
    if (!procedure) throw new Error(`no procedure ${name}`);
    const step = stepNamed(procedure, asked(procedure, at));
    if ("problem" in step) throw new Error(step.problem);
    const expected = read(lines);
    const told = tellState(procedure, step.point, step.at);
    expect(told.reached).toBe(true);
    expect(written(told, "again" in expected)).toEqual(expected);
  });
}
