/** Generated files are what would be generated now. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { GENERATED } from "../../server/tools/generated";

test.each(GENERATED.map((g) => [g.path, g] as const))(
  "%s is fresh; npm run generate writes it",
  (path, { make }) => {
    expect(readFileSync(new URL(`../../${path}`, import.meta.url), "utf8")).toBe(make());
  },
);

test("making a generated file twice gives the same text", () => {
  for (const { path, make } of GENERATED) expect(make(), path).toBe(make());
});
