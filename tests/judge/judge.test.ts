/** The judge in short: a few changes of each kind, and no finding on what nobody has changed. */
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { judge, KINDS } from "./judge";
import { printed, shortcomings } from "./print";
import { sourcesFrom } from "./sources";

const EACH = 5;
const GENERATED = 70;

const sources = sourcesFrom(join(import.meta.dirname, "../.."), GENERATED, 20_260_417);
const judgement = judge(sources, EACH, 20_260_417);

describe("the judge", () => {
  test("there are enough kinds, each by its own name", () => {
    const names = KINDS.map((kind) => kind.name);
    expect(names.length).toBeGreaterThanOrEqual(30);
    expect(new Set(names).size).toBe(names.length);
  });

  test("clean procedures have no findings", () => {
    const alarms = judgement.alarms.map(
      ({ source, finding }) => `${source.name} ${finding.place.line + 1} ${finding.code}`,
    );
    expect(alarms).toEqual([]);
    expect(sources.filter((one) => one.origin === "by hand").length).toBeGreaterThanOrEqual(6);
  });

  test("the plain reading follows what is written for it", () => {
    const unread = sources.filter((one) => one.origin !== "example" && !one.reading);
    expect(unread.map((one) => `${one.name}: ${one.unread}`)).toEqual([]);
  });

  test(`${EACH} changes of each kind are reported with the code and at the place meant`, () => {
    expect(shortcomings(judgement, EACH), printed(judgement, sources, EACH).join("\n")).toEqual([]);
  });
});
