/** A document after any edits is the document of its text, and keeps every block that an edit left alone. */
import { describe, expect, test, vi } from "vitest";
import {
  applyEdits,
  type Block,
  type Document,
  documentText,
  type Edit,
  isBlock,
  type Node,
  readDocument,
} from "../../grammar";
import { cleanExamples } from "../support/examples";
import { below, pick, type Random, seeded } from "../support/random";

// A grammar of its own, which keeps lines and blocks of its own: nothing an edit leaves behind can reach it.
vi.resetModules();
const fresh = await import("../../grammar");

const SNIPPETS = [
  "{",
  "}",
  " {",
  '"',
  "//",
  "\n}",
  "\n{\n",
  "x",
  " ",
  "    ",
  "step ",
  "123",
  "\r\n",
  '\n    step "New" {\n      remove a\n    }\n',
];

function randomPosition(random: Random, document: Document): Edit["start"] {
  const line = below(random, document.lines.length + 1);
  return { line, character: below(random, (document.lines[line]?.text.length ?? 0) + 2) };
}

/** An edit as people make them: typing, deleting, a paste of many lines, a line or a brace gone. */
function randomEdit(random: Random, document: Document): Edit {
  const start = randomPosition(random, document);
  const kind = random();
  if (kind < 0.4) return { start, end: start, text: pick(random, SNIPPETS) };
  if (kind < 0.55)
    return { start, end: { line: start.line, character: start.character + 1 + below(random, 4) }, text: "" };
  if (kind < 0.7)
    return {
      start: { line: start.line, character: 0 },
      end: { line: start.line + 1 + below(random, 3), character: 0 },
      text: "",
    };
  if (kind < 0.85) return { start, end: randomNear(random, start), text: pastedLines(random, document) };
  const braces = document.lines.flatMap((line, at) => (line.kind === "close" ? [at] : []));
  const line = braces.length > 0 ? pick(random, braces) : start.line;
  return { start: { line, character: 0 }, end: { line, character: 99 }, text: "" };
}

const randomNear = (random: Random, { line }: Edit["start"]): Edit["start"] => ({
  line: line + below(random, 4),
  character: 0,
});

function pastedLines(random: Random, { lines }: Document): string {
  const from = below(random, lines.length);
  return lines
    .slice(from, from + below(random, 30))
    .map((line) => `${line.text}\n`)
    .join("");
}

/** The edit that takes another back. */
function undoOf(before: Document, after: Document): Edit {
  const last = after.lines.length - 1;
  return {
    start: { line: 0, character: 0 },
    end: { line: last, character: Number.MAX_SAFE_INTEGER },
    text: before.lines.map((l) => l.text).join("\n"),
  };
}

function expectFresh(document: Document): void {
  const again = fresh.readDocument(documentText(document));
  expect(document.lines.map((line) => line.text)).toEqual(again.lines.map((line) => line.text));
  expect(document.tree.problems).toEqual(again.tree.problems);
  expect(document.tree.balanced).toBe(again.tree.balanced);
  expect(equal(document.tree.children, again.tree.children)).toBe(true);
}

function blocksByLine(
  nodes: readonly Node[],
  from: number,
  into: Map<number, Block[]>,
): Map<number, Block[]> {
  let at = from;
  for (const node of nodes) {
    if (isBlock(node)) {
      into.set(at, [...(into.get(at) ?? []), node]);
      blocksByLine(node.children, at + (node.head ? 1 : 0), into);
    }
    at += isBlock(node) ? node.lineCount : 1;
  }
  return into;
}

/** Of the blocks outside what changed that are as they were: how many are the same objects, and how many are not. */
function sharing(before: Document, after: Document): { same: number; lost: number } {
  const most = Math.min(before.lines.length, after.lines.length);
  let start = 0;
  while (start < most && before.lines[start] === after.lines[start]) start++;
  let end = 0;
  while (end < most - start && before.lines.at(-1 - end) === after.lines.at(-1 - end)) end++;
  const old = blocksByLine(before.tree.children, 0, new Map());
  const kept = new Set([...old.values()].flat());
  const shift = after.lines.length - before.lines.length;
  const count = { same: 0, lost: 0 };
  for (const [at, blocks] of blocksByLine(after.tree.children, 0, new Map()))
    for (const block of blocks) {
      const outside = at + block.lineCount <= start || at >= after.lines.length - end;
      const was = old.get(at < start ? at : at - shift) ?? [];
      if (!outside || !was.some((other) => equalNode(other, block))) continue;
      if (kept.has(block)) count.same++;
      else count.lost++;
    }
  return count;
}

/** Whether two lists of nodes are the same blocks of the same lines. */
function equal(a: readonly Node[], b: readonly Node[]): boolean {
  return a.length === b.length && a.every((node, i) => equalNode(node, b[i] as Node));
}

function equalNode(a: Node, b: Node): boolean {
  if (!isBlock(a) || !isBlock(b)) return !isBlock(a) && !isBlock(b) && a.text === b.text;
  const alike = a.head?.text === b.head?.text && a.closed === b.closed && a.lineCount === b.lineCount;
  return alike && equal(a.children, b.children);
}

describe.each(cleanExamples().map(({ path, text }, i) => [path, text, i] as const))("%s", (_, text, i) => {
  test.each([
    ["as it is", text],
    [
      "without indentation",
      text
        .split("\n")
        .map((line) => line.trim())
        .join("\n"),
    ],
  ])("%s: any edits lead to the document of the text", (layout, start) => {
    const random = seeded(1000 + i);
    const first = readDocument(start);
    let document = first;
    let [same, lost] = [0, 0];
    for (let step = 0; step < (layout === "as it is" ? 80 : 25); step++) {
      const before = document;
      // Back to the whole text now and then, else everything is soon in shreds.
      if (step % 9 === 8) document = applyEdits(document, [undoOf(first, document)]);
      else
        document = applyEdits(
          document,
          Array.from({ length: 1 + below(random, 2) }, () => randomEdit(random, before)),
        );
      expectFresh(document);
      const count = sharing(before, document);
      [same, lost] = [same + count.same, lost + count.lost];
      if (random() < 0.3) {
        const undone = applyEdits(document, [undoOf(before, document)]);
        expect(undone.lines.every((line, at) => line === before.lines[at])).toBe(true);
        expectFresh(undone);
      }
    }
    // Only a block that has a twin elsewhere, or holds one that has, may be made anew.
    expect(same).toBeGreaterThan(100);
    expect(lost).toBeLessThanOrEqual(same / 100);
    expect(document.lines).toEqual(fresh.readDocument(documentText(document)).lines);
  });
});

test("a block found sound where it cannot stand is not taken over where it cannot stand", () => {
  const lines = [
    'procedure p "P" {',
    '  section "S" {',
    '    step "A" {',
    '    step "B" {',
    "      remove b",
    "    }",
    "    }",
    "  }",
  ];
  const open = readDocument(lines.join("\n"));
  expect(open.tree.balanced).toBe(false);
  const end = { line: lines.length, character: 0 };
  const nested = applyEdits(open, [{ start: end, end, text: "\n}\n" }]);
  expect(nested.tree.balanced).toBe(false);
  expectFresh(nested);
});

test("an edit in a large text makes new blocks only around itself", () => {
  const steps = Array.from({ length: 3000 }, (_, i) => `    step "Step ${i}" {\n      remove a-${i}\n    }`);
  const text = `procedure p "P" {\n  section "S" {\n${steps.join("\n")}\n  }\n}\n`;
  let document = readDocument(text);
  const blocks = (of: Document): Block[] => [...blocksByLine(of.tree.children, 0, new Map()).values()].flat();
  const line = 2 + 3 * 1500 + 1;
  for (const typed of ["x", " {", "y", "}"]) {
    const old = new Set(blocks(document));
    const character = document.lines[line]?.text.length ?? 0;
    document = applyEdits(document, [{ start: { line, character }, end: { line, character }, text: typed }]);
    expect(blocks(document).filter((block) => !old.has(block)).length).toBeLessThanOrEqual(4);
  }
});

test("what stands outside the text is brought to its edge", () => {
  const document = readDocument("torquil 1\n");
  const far = { line: 99, character: 99 };
  expect(documentText(applyEdits(document, [{ start: far, end: far, text: "// end" }]))).toBe(
    "torquil 1\n// end",
  );
  const early = { line: -1, character: -5 };
  expect(documentText(applyEdits(document, [{ start: early, end: early, text: "// a\n" }]))).toBe(
    "// a\ntorquil 1\n",
  );
  const turned = { start: { line: 1, character: 0 }, end: { line: 0, character: 0 }, text: "" };
  expect(documentText(applyEdits(document, [turned]))).toBe("");
});

test("the byte order mark and the kind of line end stay", () => {
  const document = readDocument("\ufefftorquil 1\r\ndry\r\n");
  const at = { line: 1, character: 3 };
  expect(documentText(applyEdits(document, [{ start: at, end: at, text: "\nhot" }]))).toBe(
    "\ufefftorquil 1\r\ndry\r\nhot\r\n",
  );
});
