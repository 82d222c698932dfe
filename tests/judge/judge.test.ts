/** The judge on a few changes of each kind; `npm run judge` takes many. */
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { judge, KINDS } from "./judge";
import { shortcomings } from "./print";
import { sourcesFrom } from "./sources";

test("one change of each kind is reported where it was made, and clean procedures have no finding", () => {
  const root = fileURLToPath(new URL("../../", import.meta.url));
  const judgement = judge(sourcesFrom(root, 30, 7), 1, 7);
  expect(KINDS.length).toBeGreaterThanOrEqual(30);
  expect(shortcomings(judgement, 1)).toEqual([]);
}, 240_000);
