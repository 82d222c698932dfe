/**
 * The usual form of a text: two columns of indentation a block, keywords of a block in one column, at most one blank
 * line in a row. A line's form depends on the line and the block it stands in alone, so a change of one fact changes
 * one line. Printing says nothing new: every statement, comment and text stays.
 */
import type { Context } from "./constructs";
import type { Document } from "./document";
import { printLine, type SpellUnit } from "./print-line";
import type { Line } from "./statement";
import { contextOf, isBlock, type Node } from "./tree";

export type { SpellUnit, UnitSpelling } from "./print-line";

/**
 * The width of the keywords in each kind of block whose lines are facts in a column. Fixed for the kind, so that a
 * neighbour's keyword never moves a line; a longer keyword takes one space.
 */
const KEYWORDS_WIDE: Partial<Readonly<Record<Context, number>>> = {
  part: 8,
  fastener: 7,
  fluid: 7,
  consumable: 9,
  line: 8,
  shaft: 8,
  belt: 9,
  pulley: 8,
  hazard: 9,
  tool: 7,
  temporary: 8,
  tightening: 7,
  caution: 3,
};

const INDENT = "  ";

/**
 * A document's text in the usual form. Where its braces do not balance nobody can tell where a line belongs, so each
 * keeps its own indentation. Never throws; printing what is printed changes nothing.
 */
export function formatDocument(document: Document, spell: SpellUnit): string {
  const { bom, eol } = document.shape;
  const text = printLines(document, spell).filter((line) => line !== null);
  return (bom ? "\ufeff" : "") + text.map((line) => line + eol).join("");
}

/** Lines in the usual form, to be put in place of the lines `first` to `last`, counted from 0. */
export function formatLines(document: Document, first: number, last: number, spell: SpellUnit): string[] {
  return printLines(document, spell)
    .slice(first, last + 1)
    .filter((line) => line !== null);
}

/** Each line in the usual form; null for a blank line that goes. */
function printLines(document: Document, spell: SpellUnit): (string | null)[] {
  const { tree, lines } = document;
  const printed: (string | null)[] = [];
  const print = (line: Line, depth: number, context: Context | undefined): void => {
    const indent = tree.balanced ? INDENT.repeat(depth) : line.text.slice(0, line.indent);
    const width = (context && KEYWORDS_WIDE[context]) ?? 0;
    printed.push(line.kind === "blank" ? "" : indent + printLine(line, width && width + 1, spell));
  };
  const walk = (nodes: readonly Node[], depth: number, context: Context | undefined): void => {
    for (const node of nodes) {
      if (!isBlock(node)) print(node, node.kind === "close" ? depth - 1 : depth, context);
      else {
        if (node.head) print(node.head, depth, context);
        const holds = contextOf(node.head);
        walk(node.children, depth + 1, holds === "same" ? context : holds);
      }
    }
  };
  walk(tree.children, 0, "file");
  return printed.map((text, at) => (text === "" && !keepsBlank(lines, at) ? null : text));
}

/** One blank line stays between two lines that are not the edges of a block. */
function keepsBlank(lines: readonly Line[], at: number): boolean {
  const before = lines[at - 1];
  let next = at + 1;
  while (lines[next]?.kind === "blank") next++;
  const behind = lines[next];
  return (
    before !== undefined &&
    behind !== undefined &&
    before.kind !== "blank" &&
    !before.opens &&
    behind.kind !== "close"
  );
}
