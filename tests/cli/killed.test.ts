/** Killed while printing, a few times; `npm run test:kill` does it with 200 sheets, 20 times. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { folderOfJobs, plantHalf, printed, spread } from "../kill/killed";
import { buildBundle, discard } from "./process";

const SHEETS = 24;

let folder = "";
beforeAll(async () => {
  await buildBundle();
  folder = folderOfJobs(SHEETS);
});
afterAll(() => discard(folder));

test("nothing is broken at its final name, and the next run ends clean", async () => {
  for (const moment of spread(3, SHEETS)) {
    expect(await printed(folder, moment)).toMatchObject({ end: "SIGKILL", broken: [] });
  }
  plantHalf(folder);
  const last = await printed(folder);
  expect(last).toEqual({ end: 0, told: SHEETS + 1, broken: [], whole: SHEETS, temporary: [] });
});
