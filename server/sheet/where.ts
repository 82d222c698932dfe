/**
 * Finds the item of a laid-out sheet that some text belongs to, so that an error can name it.
 */
import type { Atom, Layout, Node } from "./nodes";

/**
 * The first item whose own text has these characters, and that text. The title of the sheet has an empty id; so has
 * text that is nowhere as a whole.
 */
export function itemWithText(layout: Layout, characters: string): { item: string; text: string } {
  const all: { item: string; text: string }[] = [
    ...[layout.title, layout.running, layout.validity].map((text) => ({ item: "", text })),
    ...layout.nodes.flatMap(texts),
  ];
  return all.find(({ text }) => text.includes(characters)) ?? { item: "", text: characters };
}

function texts(node: Node): { item: string; text: string }[] {
  const own = (...words: string[]) => words.map((text) => ({ item: node.id, text }));
  switch (node.kind) {
    case "heading":
      return own(node.text);
    case "facts":
      return node.rows.flatMap((row) => [
        { item: row.id, text: row.name },
        { item: row.id, text: words(row.value) },
      ]);
    case "line":
      return own(words(node.atoms));
    case "table":
      return [
        ...node.columns.map(({ head }) => ({ item: node.id, text: head })),
        ...node.rows.flatMap((row) => row.cells.map((cell) => ({ item: row.id, text: words(cell) }))),
      ];
    case "panel":
      return own(words(node.hazard), words(node.consequence), words(node.avoid));
    case "picture":
      return own(words(node.caption), node.alt);
    case "drawing":
      return own(words(node.caption), ...textsIn(node.svg), node.alt);
    case "step":
      return [...own(node.number, node.title), ...node.body.flatMap(texts)];
    case "frame":
      return [...own(words(node.head)), ...node.body.flatMap(texts)];
  }
}

/** The lines of text that are written in a drawing. */
export function textsIn(svg: string): string[] {
  return Array.from(svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g), ([, written = ""]) =>
    written
      .replaceAll("&quot;", '"')
      .replaceAll("&gt;", ">")
      .replaceAll("&lt;", "<")
      .replaceAll("&amp;", "&"),
  );
}

function words(atoms: readonly Atom[]): string {
  return atoms.map(wordsOf).join("");
}

function wordsOf(atom: Atom): string {
  switch (atom.kind) {
    case "run":
    case "ref":
    case "badge":
      return atom.text;
    case "tick":
      return atom.label;
    case "field":
      return atom.unit;
    case "chip":
      return `${atom.value} ${atom.other}`;
    case "break":
      return "\n";
  }
}
