/** The judge in short: a few changes of each kind, and no finding on what nobody has changed; `npm run judge` takes many. */
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { judge, KINDS } from "./judge";
import { printed, shortcomings } from "./print";
import { sourcesFrom } from "./sources";

const EACH = 2;
const GENERATED = 40;
const SEED = 7;

const sources = sourcesFrom(fileURLToPath(new URL("../../", import.meta.url)), GENERATED, SEED);

describe("the judge", () => {
  test("there are enough kinds, each by its own name", () => {
    const names = KINDS.map((kind) => kind.name);
    expect(names.length).toBeGreaterThanOrEqual(100);
    expect(new Set(names).size).toBe(names.length);
  });

  test("the plain reading follows everything, a good part of it written by hand", () => {
    const unread = sources.filter((one) => !one.reading);
    expect(unread.map((one) => `${one.name}: ${one.unread}`)).toEqual([]);
    expect(sources.filter((one) => one.origin === "by hand").length).toBeGreaterThanOrEqual(25);
  });

  test("changes are reported where they were made, and clean procedures have no finding", () => {
    const judgement = judge(sources, EACH, SEED);
    expect(shortcomings(judgement, EACH), printed(judgement, sources, EACH).join("\n")).toEqual([]);
  }, 240_000);
});
