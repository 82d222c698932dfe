/** How things stand before each line, against a plain enumeration of every way, on random procedures. */
import { expect, test } from "vitest";
import { ACTS, type ActRow, DEPARTURES, pointBefore, type Stand, stateAt } from "../../server/walk";
import { below, type Random, seeded } from "../support/random";
import { standings, type Table } from "./plainly";
import { type Instruction, MACHINE, makeProgram, type Program, WORLD } from "./programs";
import { walkThrough } from "./support";

const COUNT = Number(process.env.TORQUIL_PROGRAMS ?? 200);
const SEED = Number(process.env.TORQUIL_SEED ?? 20_260_418);
const TABLE: Table = { acts: ACTS, departures: DEPARTURES };

/** The enumeration's words for what the walk tells; those for what is no difference are left out. */
const WORDS: Readonly<Record<string, string>> = {
  thrown: "thrown-away",
  snug: "at a stage snug",
  taken: "",
  stretched: "",
  turned: "",
};

/** A state as the enumeration has it, in the walk's words. A fastener that is out is not told to be old. */
function inWalksWords(joined: string): string {
  const words = joined.split(",").map((word) => WORDS[word] ?? word);
  const told = words.filter((word) => word !== "" && !(word === "old" && words.includes("out")));
  return told.sort().join();
}

const keyOf = ({ differences }: Stand): string =>
  differences
    .map(({ kind, stage }) => `${kind} ${stage}`.trim())
    .sort()
    .join();

/** The lines at which a program can be asked, with the place of what stands there among its instructions. */
function placesIn(instructions: readonly Instruction[]): [line: number | "end", at: number][] {
  return instructions.flatMap((instruction, at): [number | "end", number][] => {
    if (instruction.does === "act" || instruction.does === "end-job") return [[instruction.line, at]];
    return instruction.does === "end" ? [["end", at]] : [];
  });
}

/** Where the walk and the enumeration differ in a program, in words; empty where they agree. */
function differing({ text, instructions }: Program, table: Table, random: Random, counts: Counts): string {
  const meant = standings(instructions, table, WORLD);
  const walk = walkThrough({ "job.torquil": text, "winch.torquil": MACHINE });
  const { graph } = walk;
  // Every third line is asked about: asking is dear, and the next program has other lines.
  for (const [line, at] of placesIn(instructions).filter(() => below(random, 3) === 0)) {
    const point = line === "end" ? graph.points.length - 1 : pointBefore(graph, "job.torquil", line);
    const state = stateAt(walk, point);
    const expected = expectedFrom(meant.get(at));
    const found = new Map(state.things.map((t) => [t.thing.name, t.stands.map(keyOf).sort()]));
    const told = state.reached ? JSON.stringify([...found].sort()) : NOBODY;
    if (told !== expected || state.cutShort)
      return `before line ${line === "end" ? line : line + 1}: ${told}, not ${expected}\n${text}`;
    counts.lines++;
    if (!state.reached) counts.unreached++;
    for (const { stands } of state.things) {
      if (stands.length > 1) counts.several++;
      for (const stand of stands) for (const key of keyOf(stand).split(",")) counts.kinds.add(key);
      // Two states that no decision tells apart would be one.
      if (stands.filter((stand) => stand.way.length === 0).length > 1) return `two states, no way\n${text}`;
    }
  }
  return "";
}
const NOBODY = "no way comes here";

function expectedFrom(here: Map<string, Set<string>> | undefined): string {
  if (!here) return NOBODY;
  const things = [...here].flatMap(([thing, states]): [string, string[]][] => {
    const told = [...new Set([...states].map(inWalksWords))].sort();
    return told.some((words) => words !== "") ? [[thing, told]] : [];
  });
  return JSON.stringify(things.sort());
}

interface Counts {
  lines: number;
  unreached: number;
  several: number;
  readonly kinds: Set<string>;
}
const noCounts = (): Counts => ({ lines: 0, unreached: 0, several: 0, kinds: new Set() });

test(`${COUNT} random procedures: before a line every thing can be in the states that enumeration finds`, () => {
  const random = seeded(SEED);
  const counts = noCounts();
  for (let i = 0; i < COUNT; i++) {
    const program = makeProgram(random, 3 + (i % 4));
    expect(differing(program, TABLE, random, counts)).toBe("");
  }
  expect(counts.lines).toBeGreaterThan(COUNT * 2);
  expect(counts.unreached).toBeGreaterThan(0);
  expect(counts.several).toBeGreaterThan(COUNT / 2);
  const departures = Object.keys(DEPARTURES);
  const levels = ["out", "by hand", "placed", "loose", "at a stage snug", "old"];
  expect([...counts.kinds].sort()).toEqual(["", ...departures, ...levels, "carried", "thrown-away"].sort());
});

test.each([
  ["remove", { makes: "raised" }],
  ["pull", { ends: undefined }],
  ["tighten", { fastener: "loose" }],
  ["drain", { makes: undefined }],
] as const)("a table in which “%s” is put wrong gives other states", (verb, wrong) => {
  const random = seeded(SEED);
  const acts = { ...ACTS, [verb]: { ...(ACTS[verb] as ActRow), ...wrong } as ActRow };
  let difference = "";
  for (let i = 0; i < 60 && difference === ""; i++)
    difference = differing(makeProgram(random, 3 + (i % 4)), { ...TABLE, acts }, random, noCounts());
  expect(difference).toContain("before line");
});
