/** `torquil explain`: every code has its page. */
import { expect, test } from "vitest";
import { ALL_CODES } from "../../server/project";
import { inProcess } from "./in-process";

test("every code is listed and explained, with what is reported and what to write instead", async () => {
  const list = await inProcess(["explain"]);
  expect(list.code).toBe(0);
  for (const code of ALL_CODES) {
    expect(list.out).toMatch(new RegExp(`^  ${code} +\\S`, "m"));
    const { code: exit, out } = await inProcess(["explain", code]);
    expect(exit).toBe(0);
    expect(out.startsWith(`${code} – `)).toBe(true);
    expect(out).toMatch(/What is reported\n {4}[\s\S]*What to write instead\n {4}\S/);
  }
});

test("several codes are explained one after the other", async () => {
  const { out } = await inProcess(["explain", "allows-nothing", "brace-stray"]);
  expect(out.indexOf("brace-stray – ")).toBeGreaterThan(out.indexOf("allows-nothing – "));
});

test("an unknown code is told with the nearest", async () => {
  const { code, out, err } = await inProcess(["explain", "brace-strey"]);
  expect({ code, out }).toEqual({ code: 2, out: "" });
  expect(err).toMatch(/^error: There is no code "brace-strey"\. Did you mean brace-stray\?\n/);
  expect((await inProcess(["explain", "BRACE-STRAY"])).err).toContain("Did you mean brace-stray?");
  expect((await inProcess(["explain", "xyz"])).err).toContain('"torquil explain" lists them.');
});
