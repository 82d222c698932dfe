/** Texts as lines in blocks, for the judge's own reader: no code of the product. */

/** A line without its texts and comment, with the lines in its block. */
export interface Node {
  readonly line: number;
  readonly text: string;
  readonly inside: Node[];
}

/** Something that this reader does not know. */
export class Unread extends Error {}

/** Texts and comment taken out, blanks closed up to one, and to two where clauses are parted. */
export function bareLine(line: string): string {
  return line
    .replace(/"(?:\\.|[^"\\])*"/g, '""')
    .replace(/\/\/.*$/, "")
    .trim();
}

export function nodesOf(text: string): Node[] {
  const top: Node[] = [];
  const open: Node[][] = [top];
  for (const [line, raw] of text.split("\n").entries()) {
    const bare = bareLine(raw);
    if (bare === "}") {
      if (open.length === 1) throw new Unread("a stray brace");
      open.pop();
    } else if (bare !== "") {
      const node: Node = { line, text: bare.replace(/\s*\{$/, ""), inside: [] };
      (open[open.length - 1] as Node[]).push(node);
      if (bare.endsWith("{")) open.push(node.inside);
    }
  }
  if (open.length > 1) throw new Unread("an open block");
  return top;
}
