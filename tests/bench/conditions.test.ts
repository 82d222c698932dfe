/** The jobs that the bench follows: clean however long, and never given up silently. */
import { expect, test } from "vitest";
import { followProcedure, type Walk } from "../../server/walk";
import { projectOf } from "../support/project";
import { type Texts, writeConditions, writeOneThing } from "./conditions";

function followed(texts: Texts): Walk {
  const procedure = projectOf(texts).files.get("job.torquil")?.procedures[0];
  if (!procedure || procedure.doubtful) throw new Error("the job cannot be followed");
  return followProcedure(procedure);
}

test.each([true, false])(
  "forty conditions, eight alive at once, are followed without a fault (shared: %s)",
  (shared) => {
    expect(followed(writeConditions(400, shared)).faults).toEqual([]);
  },
);

test("one of the closings left out is found", () => {
  const texts = writeConditions(400, false);
  const job = (texts["job.torquil"] as string).replace(/ {8}fit lid-17\n/, "");
  const faults = followed({ ...texts, "job.torquil": job }).faults.map((f) => `${f.code} ${f.thing.name}`);
  expect(faults).toEqual(["part-left-off lid-17"]);
});

test("forty conditions about one thing are solved, or refused aloud", () => {
  const codes = new Set(followed(writeOneThing()).faults.map((f) => f.code));
  expect([[], ["walk-limit"]]).toContainEqual([...codes]);
});
