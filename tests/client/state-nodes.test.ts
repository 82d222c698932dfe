/** The rows of the view that says how everything stands, made from the server's own answers. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { messageOf, nodesOf, type StateNode } from "../../client/src/state-nodes";
import { atLine, tellState } from "../../server/features";
import { shownState } from "../../server/lsp/state";
import type { Place } from "../../server/model";
import { root } from "../../server/tools/setup.mjs";
import { projectOf } from "../support/project";

const read = (name: string): string => readFileSync(join(root, "examples/marine-generator", name), "utf8");
const TEXT = read("belt-service.torquil");
const project = projectOf({
  "belt-service.torquil": TEXT,
  "skua-27.torquil": read("skua-27.torquil"),
});
const procedure = project.files.get("belt-service.torquil")?.procedures[0];

const lineOf = (words: string): number => TEXT.split("\n").findIndex((line) => line.includes(words));
const placed = ({ file, line, start, end }: Place) => ({
  uri: `file:///p/${file}`,
  range: { start: { line, character: start }, end: { line, character: end } },
});

function shown(words: string) {
  const at = procedure && atLine(procedure, lineOf(words));
  if (!procedure || !at) throw new Error(`no such line: ${words}`);
  return shownState(tellState(procedure, at.point, at.at), placed);
}

/** Rows as text, each as deep as it stands, with the line it leads to, from 1. */
function rows(nodes: readonly StateNode[], indent = ""): string[] {
  return nodes.flatMap(({ label, description, to, children }) => {
    const line = to ? ` @${to.range.start.line + 1}` : "";
    const own = `${indent}${label}${description === "" ? "" : ` [${description}]`}${line}`;
    return [own, ...rows(children, `${indent}  `)];
  });
}

test("before a step of the largest example: groups, things with their lines, ways, shafts and marks, what is owed", () => {
  const state = shown("check end-float");
  const told = rows(nodesOf(state));
  expect(messageOf(state)).toBe("Before 17, “Pump shaft end float”.");
  const removed = lineOf("remove guard-bolts, belt-guard") + 1;
  expect(told).toContain(`  Belt guard [off] @${removed}`);
  expect(told.filter((row) => !row.startsWith(" ")).map((row) => row.replace(/ \[\d+\]$/, ""))).toEqual(
    expect.arrayContaining(["Off or out", "Shafts and marks", "Still owed before the end"]),
  );
  // What is owed leads where the thing itself leads.
  expect(told).toContain(`  fit “Belt guard” @${removed}`);
});

test("where ways differ a thing has a row for each state, what differs first, each with its decisions", () => {
  const nodes = nodesOf(shown('step "Lay the belt on"'));
  const all = (list: readonly StateNode[]): StateNode[] => list.flatMap((one) => [one, ...all(one.children)]);
  const things = nodes
    .filter(({ id }) => !["turning", "owed", "settled"].includes(id))
    .flatMap((g) => g.children);
  const several = things.filter(({ children }) => children.length > 0);
  expect(several.length).toBeGreaterThan(0);
  for (const { children, description, isOpen } of several) {
    expect(children.length).toBeGreaterThan(1);
    expect([description, isOpen]).toEqual(["differs", true]);
    expect(children[0]?.label).not.toBe("as it should be");
    for (const child of children) expect(child.description).not.toBe("");
  }
  // The editor keeps what is opened by these: no two rows may share one.
  const ids = all(nodes).map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
});

test("the rows of a thing are the same at another step, so that they stay open", () => {
  const guard = (words: string): string | undefined =>
    nodesOf(shown(words))
      .flatMap((group) => group.children)
      .find(({ label }) => label === "Belt guard")?.id;
  expect(guard('step "Lay the belt on"')).toBe(guard("check end-float"));
  expect(guard("check end-float")).toBeDefined();
});

test("at the end nothing is owed, and what was touched is folded away", () => {
  const state = shown('step "Hand over"');
  const nodes = nodesOf(state);
  expect(nodes.find(({ id }) => id === "owed")?.children.map(({ label }) => label) ?? []).not.toContain(
    "fit “Belt guard”",
  );
  const settled = nodes.find(({ id }) => id === "settled");
  expect(settled).toMatchObject({ label: "As they should be again", isOpen: false });
  expect(settled?.children.map(({ label }) => label)).toContain("Belt guard");
});
