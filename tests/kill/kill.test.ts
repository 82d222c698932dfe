/** Killed in the middle of printing 200 sheets, 20 times: no broken file at its final name, and the next run ends clean. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { buildBundle, discard } from "../cli/process";
import { folderOfJobs, type Left, printed, spread } from "./killed";

const SHEETS = 200;
const KILLS = 20;

let folder = "";
beforeAll(async () => {
  await buildBundle();
  folder = folderOfJobs(SHEETS);
});
afterAll(() => discard(folder));

const left: Left[] = [];

test.each(spread(KILLS, SHEETS))("killed $wait ms after $told sheets: nothing broken", async (moment) => {
  const one = await printed(folder, moment);
  left.push(one);
  expect(one).toMatchObject({ end: "SIGKILL", broken: [] });
  expect(one.told).toBeGreaterThanOrEqual(moment.told);
  expect(one.told).toBeLessThan(SHEETS + 1);
  // What the run before this one left half done is gone: at most what this one was writing is there.
  expect(one.temporary.length).toBeLessThanOrEqual(1);
});

test("the next run finishes, and leaves nothing but sheets", async () => {
  expect(left).toHaveLength(KILLS);
  expect(left.filter(({ told }) => told > 0).length).toBeGreaterThan(KILLS / 2);
  const last = await printed(folder);
  expect(last).toEqual({ end: 0, told: SHEETS + 1, broken: [], whole: SHEETS, temporary: [] });
  console.log(
    `${left.filter(({ temporary }) => temporary.length > 0).length} of ${KILLS} kills struck a write.`,
  );
});
