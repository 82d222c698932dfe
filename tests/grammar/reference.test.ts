/** Runs every example of the language reference, and holds the reference to showing every word of the language. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { CONSTRUCTS, clauses, type Line, readDocument } from "../../grammar";
import { faultsIn } from "../examples/placement";

const text = readFileSync(join(import.meta.dirname, "../../grammar/README.md"), "utf8");

interface Fence {
  readonly line: number;
  readonly text: string;
}

/** The examples in the reference, with the line on which each begins. */
const fences: readonly Fence[] = [...text.matchAll(/^```torquil\n([\s\S]*?)^```$/gm)].map((match) => ({
  line: text.slice(0, match.index).split("\n").length + 1,
  text: (match[1] ?? "").trimEnd(),
}));

/** The constructs and clauses (with `+`) on a line. */
function idsOn(line: Line): string[] {
  if (!line.statement) return [];
  const { construct, phrases } = line.statement;
  return [...(construct ? [construct] : []), ...phrases.flatMap((p) => (p.clause ? [`+${p.clause}`] : []))];
}

const shown = new Set(fences.flatMap((fence) => readDocument(fence.text).lines.flatMap(idsOn)));

describe("the language reference", () => {
  test("has examples", () => expect(fences.length).toBeGreaterThan(20));

  test.each(fences.map((fence) => [fence.line, fence] as const))(
    "the example on line %i reads whole",
    (_, fence) => {
      expect(faultsIn(fence.text)).toEqual([]);
    },
  );

  test("shows every construct", () => {
    expect(CONSTRUCTS.map((c) => c.id).filter((id) => !shown.has(id))).toEqual([]);
  });

  test("shows every clause", () => {
    expect([...clauses.keys()].filter((id) => !shown.has(`+${id}`))).toEqual([]);
  });
});
