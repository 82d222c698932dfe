/**
 * One broken line leaves every other line with its statement and in its blocks. Lines of every example are broken at
 * random, from seeds that were not looked at while the mending of blocks was tuned.
 */
import { expect, test } from "vitest";
import { assemble, type Line, parseLine } from "../../grammar";
import { BREAKS, type BreakKind, randomBreak, withBreak } from "../support/breaks";
import { chainsOf, movedLine } from "../support/chains";
import { cleanExamples } from "../support/examples";
import { seeded } from "../support/random";

const COUNT = 6000;
const COUNT_UNINDENTED = 3000;

interface Tally {
  readonly counts: Record<BreakKind, { tried: number; missed: number }>;
  readonly misses: string[];
}

/** Breaks lines of every example, `count` in all, and counts the breaks that moved another line. */
function tally(seed: number, count: number, layOut: (line: string) => string): Tally {
  const random = seeded(seed);
  const counts = Object.fromEntries(BREAKS.map((kind) => [kind, { tried: 0, missed: 0 }])) as Tally["counts"];
  const misses: string[] = [];
  const examples = cleanExamples();
  for (const { path, text } of examples) {
    const lines = text.split("\n").map(layOut);
    const before = chainsOf(assemble(lines.map(parseLine)));
    for (let i = 0; i < count / examples.length; i++) {
      const broken = randomBreak(random, lines);
      const read = withBreak(lines, broken).map(parseLine);
      expectSameStatements(lines, read, broken.line);
      const moved = movedLine(before, chainsOf(assemble(read)), broken.line);
      counts[broken.kind].tried++;
      if (moved === undefined) continue;
      counts[broken.kind].missed++;
      misses.push(
        `${path}:${broken.line + 1}, ${broken.kind}: ${broken.text.trim()} | moves line ${moved + 1}`,
      );
    }
  }
  return { counts, misses };
}

function expectSameStatements(lines: readonly string[], read: readonly Line[], broken: number): void {
  const other = lines.findIndex((text, i) => i !== broken && read[i] !== parseLine(text));
  if (other >= 0) expect.fail(`line ${other + 1} reads differently`);
}

function report(title: string, { counts, misses }: Tally): number {
  const all = Object.values(counts);
  const tried = all.reduce((sum, one) => sum + one.tried, 0);
  const share = 1 - misses.length / tried;
  const rows = BREAKS.map(
    (kind) => `  ${kind.padEnd(24)} ${counts[kind].tried} tried, ${counts[kind].missed} missed`,
  );
  const head = `${title}: ${(100 * share).toFixed(2)} % of ${tried} breaks move no other line`;
  console.log([head, ...rows, ...misses.slice(0, 40).map((miss) => `  missed: ${miss}`)].join("\n"));
  for (const kind of BREAKS) expect(counts[kind].tried, kind).toBeGreaterThan(20);
  return share;
}

test("formatted files: at least 99 % of breaks move no other line", () => {
  expect(
    report(
      "formatted",
      tally(20261120, COUNT, (line) => line),
    ),
  ).toBeGreaterThanOrEqual(0.99);
});

test("files without indentation: most breaks move no other line", () => {
  expect(
    report(
      "without indentation",
      tally(20260302, COUNT_UNINDENTED, (line) => line.trim()),
    ),
  ).toBeGreaterThanOrEqual(0.97);
});
