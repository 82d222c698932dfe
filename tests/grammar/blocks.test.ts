/** How lines become blocks: where the braces balance, and the careful cases where they do not. */
import { describe, expect, test } from "vitest";
import {
  assemble,
  type Block,
  DEEPEST,
  isBlock,
  type Node,
  parseLine,
  readDocument,
  type Tree,
} from "../../grammar";
import { chainsOf } from "../support/chains";

const treeOf = (text: string): Tree => assemble(text.split("\n").map(parseLine));

/** A tree as text: heads without their braces, children in brackets. */
function shape(nodes: readonly Node[]): string {
  return nodes
    .filter((node) => isBlock(node) || (node.kind !== "blank" && node.kind !== "close"))
    .map((node) => (isBlock(node) ? `${headText(node)}[${shape(node.children)}]` : node.text.trim()))
    .join(" ");
}

const headText = (block: Block): string => (block.head ? block.head.text.replace("{", "").trim() : "?");
const problems = (tree: Tree): string[] => tree.problems.map(({ line, message }) => `${line} ${message}`);

describe("braces that balance", () => {
  test("make the tree, whatever the indentation says", () => {
    const tree = treeOf('machine m "M" {\npart a "A" {\n        dry\n}\n    part b "B"\n  }');
    expect(shape(tree.children)).toBe('machine m "M"[part a "A"[dry] part b "B"]');
    expect(tree).toMatchObject({ problems: [], balanced: true });
  });

  test("count the lines of every block", () => {
    const { tree, lines } = readDocument('machine m "M" {\n\n  part a "A" {\n    dry\n  }\n}\n');
    const machine = tree.children[0] as Block;
    expect(machine).toMatchObject({ lineCount: 6, closed: true });
    expect(machine.children[1]).toMatchObject({ lineCount: 3, closed: true });
    expect(chainsOf(tree)).toHaveLength(lines.length);
  });

  test("a block where none belongs is kept and reported", () => {
    const tree = treeOf('step "A" {\n  remove belt {\n    dry\n  }\n}');
    expect(shape(tree.children)).toBe('step "A"[remove belt[dry]]');
    expect(problems(tree)).toEqual(["1 block-not-here"]);
  });

  test("a broken head still opens its block", () => {
    const tree = treeOf('machine m "M" {\n  prat a "A" {\n    dry\n  }\n  part b "B {\n    dry\n  }\n}');
    expect(shape(tree.children)).toBe('machine m "M"[prat a "A"[dry] part b "B[dry]]');
    expect(problems(tree)).toEqual([]);
  });
});

const STEPS = [
  "procedure p",
  '  section "S" {',
  '    step "A" {',
  "      remove a",
  "    }",
  '    step "B" {',
  "      remove b",
  "    }",
  "  }",
  "}",
];
STEPS[0] = 'procedure p "P" {';
const WHOLE = shape(treeOf(STEPS.join("\n")).children);

/** The lines with one of them replaced. */
function changed(line: number, text: string): Tree {
  return treeOf(STEPS.map((old, i) => (i === line ? text : old)).join("\n"));
}

/** The same without any indentation. */
function changedFlat(line: number, text: string): Tree {
  return treeOf(STEPS.map((old, i) => (i === line ? text : old).trim()).join("\n"));
}

describe.each([
  ["indented", changed],
  ["without indentation", changedFlat],
])("braces that do not balance, %s", (_, change) => {
  test("a closing brace missing: the next head of its level ends the block", () => {
    const tree = change(4, "");
    expect(shape(tree.children)).toBe(WHOLE);
    expect(problems(tree)).toEqual(["2 block-not-closed"]);
  });

  test("an opening brace missing", () => {
    const tree = change(5, '    step "B"');
    expect(shape(tree.children)).toBe(WHOLE);
    expect(problems(tree)).toEqual(["5 brace-missing"]);
  });

  test("a brace too many behind an act", () => {
    const tree = change(3, "      remove a {");
    expect(shape(tree.children)).toBe(WHOLE.replace("remove a", "remove a {"));
    expect(problems(tree)).toEqual(["3 block-not-here"]);
  });

  test("an opening brace alone on a line", () => {
    const tree = change(3, "      {");
    expect(shape(tree.children)).toBe(WHOLE.replace("remove a", "{"));
    expect(problems(tree)).toEqual([]);
  });

  test("a closing brace before a head that still opens", () => {
    const tree = change(5, '    } step "B" {');
    expect(shape(tree.children)).toBe(WHOLE.replace('step "B"', '} step "B"'));
    expect(problems(tree)).toEqual([]);
  });

  test("a closing brace instead of an act", () => {
    const tree = change(3, "      }");
    expect(shape(tree.children)).toBe(WHOLE.replace("remove a", ""));
    expect(problems(tree)).toHaveLength(1);
  });

  test("a sign behind a closing brace", () => {
    const tree = change(4, "    } ,");
    expect(shape(tree.children)).toBe(WHOLE.replace("remove a]", "remove a } ,]"));
    expect(problems(tree)).toEqual([]);
  });

  test("a string that swallows its brace, and a comment behind it", () => {
    const tree = change(5, '    step "B {  // b');
    expect(shape(tree.children)).toContain("[remove b]");
    expect(problems(tree)).toEqual([]);
  });

  test("a lost head leaves a block without one, reported at its brace", () => {
    const tree = change(5, "");
    expect(shape(tree.children)).toBe(WHOLE.replace('step "B"', "?"));
    expect(problems(tree)).toEqual(["7 brace-stray"]);
  });

  test("a head that is garbled heads its block", () => {
    const tree = change(5, "    q8#,(");
    expect(shape(tree.children)).toBe(WHOLE.replace('step "B"', "q8#,("));
    expect(problems(tree)).toEqual([]);
  });

  test("a line of text that loses a quote stays where it is", () => {
    const tree = change(3, '      Mind the edge."');
    expect(shape(tree.children)).toBe(WHOLE.replace("remove a", 'Mind the edge."'));
    expect(problems(tree)).toEqual([]);
  });
});

describe("careful cases", () => {
  test("otherwise, and a clause line that has a block of its own", () => {
    const text =
      'belt b "B" {\n  pulley a {\n    teeth 24\n  }\n  pulley c  teeth 12\n}\nprocedure p "P" {\n  when x {\n    "a"\n  }\n  otherwise {\n    "b"\n  }\n}';
    expect(problems(treeOf(text))).toEqual([]);
    expect(shape(treeOf(text).children)).toContain("pulley a[teeth 24]");
    expect(shape(treeOf(text.replace("otherwise {", "otherwise")).children)).toContain('otherwise["b"]');
    expect(shape(treeOf(text.replace("pulley a {", "pulley a")).children)).toContain("pulley a[teeth 24]");
  });

  test("braces that lie about the indentation are believed where they balance", () => {
    const far = `${STEPS.join("\n")}\n`.replace('    }\n    step "B"', '            }\n step "B"');
    expect(shape(treeOf(far).children)).toBe(WHOLE);
  });

  test("an unfinished block at the end of the text keeps its lines", () => {
    const tree = treeOf('machine m "M" {\n  part a "A" {\n    dry\n    ');
    expect(shape(tree.children)).toBe('machine m "M"[part a "A"[dry]]');
    expect(chainsOf(tree)[3]).toEqual([0, 1]);
    expect(problems(tree)).toEqual(["0 block-not-closed", "1 block-not-closed"]);
  });

  test("a block that stands too deep is read as lines, and the rest as ever", () => {
    const open = Array.from({ length: DEEPEST + 5 }, () => "note {");
    const close = open.map(() => "}");
    for (const lines of [[...open, ...close], ["}", ...open, ...close], open]) {
      const tree = treeOf([...lines, "remove a"].join("\n"));
      expect(tree.problems.filter(({ message }) => message === "too-deep")).toHaveLength(1);
      expect(Math.max(...chainsOf(tree).map((chain) => chain.length))).toBe(DEEPEST);
    }
    expect(chainsOf(treeOf([...open, ...close, "remove a"].join("\n"))).at(-1)).toEqual([]);
  });
});
