/** The walk against a plain enumeration of every way, on random procedures. */
import { expect, test } from "vitest";
import { followProcedure, type Walk } from "../../server/walk";
import { projectOf } from "../support/project";
import { pick, seeded } from "../support/random";
import { enumerate, isOnEveryWay } from "./plainly";
import { MACHINE, makeProgram } from "./programs";

const COUNT = 200;
const SEED = 20_260_417;

function walked(text: string): Walk {
  const procedure = projectOf({ "job.torquil": text, "winch.torquil": MACHINE }).files.get("job.torquil")
    ?.procedures[0];
  if (!procedure || procedure.doubtful) throw new Error(`cannot be followed:\n${text}`);
  return followProcedure(procedure);
}

/** What a walk found, as the enumeration says it, and whether on every way. */
function faultsOf({ faults, graph }: Walk): Map<string, boolean> {
  const last = graph.points.length - 1;
  return new Map(
    faults.map((f) => {
      const where = f.point === last ? "end" : String(graph.points[f.point]?.spot.line);
      return [`${f.code} ${f.thing.name} ${where}`, f.way.length === 0];
    }),
  );
}

/** That bolts are out is not held against the writer where their part is left off. */
const isComparable = (fault: string): boolean => !fault.startsWith("part-left-off bolts");

test(`${COUNT} random procedures give the same faults as every way taken one after the other`, () => {
  const random = seeded(SEED);
  const counts = { faulty: 0, onSomeWays: 0, returns: 0 };
  for (let i = 0; i < COUNT; i++) {
    const { text, instructions } = makeProgram(random, 3 + (i % 4));
    const meant = enumerate(instructions).filter(isComparable);
    const found = faultsOf(walked(text));
    expect([...found.keys()].filter(isComparable).sort(), text).toEqual(meant);
    if (meant.length > 0) counts.faulty++;
    if (instructions.some((x) => x.does === "back")) counts.returns++;
    if (meant.length === 0) continue;
    const fault = pick(random, meant);
    if (fault.startsWith("finger-tight-left")) continue; // the walk tells its states apart
    const always = isOnEveryWay(instructions, fault);
    expect(found.get(fault), `${fault}\n${text}`).toBe(always);
    if (!always) counts.onSomeWays++;
  }
  expect(counts.faulty).toBeGreaterThan(COUNT / 2);
  expect(counts.onSomeWays).toBeGreaterThan(COUNT / 8);
  expect(counts.returns).toBeGreaterThan(COUNT / 4);
});
