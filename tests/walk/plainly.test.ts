/** The walk against a plain enumeration of every way, on random procedures. */
import { expect, test } from "vitest";
import { ACTS, type ActRow, DEPARTURES } from "../../server/walk";
import { controlOf } from "../../server/walk/control";
import { graphOf } from "../../server/walk/graph";
import { relationsOf } from "../../server/walk/relations";
import { standingOf } from "../../server/walk/standing";
import { followStates } from "../../server/walk/states";
import { projectOf } from "../support/project";
import { pick, seeded } from "../support/random";
import { enumerate, isOnEveryWay, type Table } from "./plainly";
import { MACHINE, makeProgram, WORLD } from "./programs";

const COUNT = Number(process.env.TORQUIL_PROGRAMS ?? 150);
const SEED = Number(process.env.TORQUIL_SEED ?? 20_260_417);
const TABLE: Table = { acts: ACTS, departures: DEPARTURES };

/**
 * What following each thing by itself shows, as the enumeration says it, and whether on every way: before one fault is
 * told from what only follows from it.
 */
function followed(text: string): Map<string, boolean> {
  const procedure = projectOf({ "job.torquil": text, "winch.torquil": MACHINE }).files.get("job.torquil")
    ?.procedures[0];
  if (!procedure || procedure.doubtful) throw new Error(`cannot be followed:\n${text}`);
  const graph = graphOf(procedure);
  const relations = relationsOf(procedure);
  const starts = standingOf(graph, "starts", relations);
  const ends = standingOf(graph, "ends", relations);
  const { byThing } = followStates(controlOf(graph), relations, starts, ends, null);
  const last = graph.points.length - 1;
  const faults = [...byThing.values()].flat();
  const ways = new Map<string, boolean>();
  for (const f of faults) {
    const where = f.point === last ? "end" : String(graph.points[f.point]?.spot.line);
    const key = `${f.code} ${f.thing.name} ${where}`;
    ways.set(key, (ways.get(key) ?? false) || f.way.length === 0);
  }
  return ways;
}

/** Faults that the walk tells apart by the state they are found in, so that each of them shows on fewer ways. */
const BY_STATE: ReadonlySet<string> = new Set([
  "finger-tight-left",
  "started-too-soon",
  "end-job-leaves",
  "connection-left-open",
  "support-left",
  "support-missing",
  "done-already",
]);

test(`${COUNT} random procedures give the same faults as every way taken one after the other`, () => {
  const random = seeded(SEED);
  const counts = { faulty: 0, onSomeWays: 0, returns: 0 };
  const codes = new Set<string>();
  for (let i = 0; i < COUNT; i++) {
    const { text, instructions } = makeProgram(random, 3 + (i % 4));
    const meant = enumerate(instructions, TABLE, WORLD);
    const found = followed(text);
    expect([...found.keys()].sort(), text).toEqual(meant);
    if (meant.length > 0) counts.faulty++;
    if (instructions.some((x) => x.does === "back")) counts.returns++;
    for (const fault of meant) codes.add(fault.split(" ")[0] as string);
    if (meant.length === 0) continue;
    const fault = pick(random, meant);
    if (BY_STATE.has(fault.split(" ")[0] as string)) continue;
    const always = isOnEveryWay(instructions, TABLE, WORLD, fault);
    expect(found.get(fault), `${fault}\n${text}`).toBe(always);
    if (!always) counts.onSomeWays++;
  }
  expect(counts.faulty).toBeGreaterThan(COUNT / 2);
  expect(counts.onSomeWays).toBeGreaterThan(COUNT / 8);
  expect(counts.returns).toBeGreaterThan(COUNT / 4);
  expect([...codes].sort()).toEqual([
    "angle-twice",
    "blocked-by",
    "connection-left-open",
    "done-already",
    "end-job-leaves",
    "fastener-still-holds",
    "finger-tight-left",
    "left-running",
    "not-drained",
    "not-refilled",
    "old-part-refitted",
    "part-fitted-twice",
    "part-left-off",
    "removed-twice",
    "stage-out-of-order",
    "started-too-soon",
    "support-left",
    "support-missing",
    "temporary-left-in",
    "tightened-before-fitted",
    "used-bolt-refitted",
  ]);
});

/** Rows of the table put wrong, one entry each. */
const WRONG: readonly (readonly [
  string,
  string,
  { readonly [K in keyof ActRow]?: ActRow[K] | undefined },
])[] = [
  ["remove", "needs no reach", { reach: false }],
  ["remove", "releases nothing", { released: false }],
  ["remove", "needs nothing drained", { emptied: false }],
  ["remove", "needs nothing held", { held: false }],
  ["remove", "bears repeating", { repeatable: true }],
  ["fit", "needs no reach", { reach: false }],
  ["fit", "bears repeating", { repeatable: true }],
  ["fit", "leaves fasteners as they were", { fastener: undefined }],
  ["drain", "makes it raised", { makes: "raised" }],
  ["fill", "ends nothing", { ends: undefined }],
  ["pull", "ends nothing", { ends: undefined }],
  ["close", "ends that it is isolated", { ends: "isolated" }],
  ["tighten", "only slackens", { fastener: "loose" }],
  ["tighten", "needs nothing to hold", { clamps: false }],
  ["start", "may be done on half a machine", { whole: false }],
  ["release", "bears repeating", { repeatable: true }],
];

test.each(WRONG)("a table in which “%s” %s gives other faults", (verb, _what, wrong) => {
  const random = seeded(SEED);
  const acts = { ...ACTS, [verb]: { ...(ACTS[verb] as ActRow), ...wrong } as ActRow };
  let differ = false;
  // Some need a rare pair of acts; it stops at the first that tells.
  for (let i = 0; i < 1000 && !differ; i++) {
    const { text, instructions } = makeProgram(random, 3 + (i % 4));
    const meant = enumerate(instructions, { ...TABLE, acts }, WORLD);
    differ = [...followed(text).keys()].sort().join() !== meant.join();
  }
  expect(differ).toBe(true);
});
