/**
 * The optional parts of a form: which read as something of their own, and how they are told from the clauses that may
 * follow.
 */
import { elementsOf } from "./constructs";
import type { Element } from "./pattern";

/**
 * The optional parts at a form's end that read as something of their own: they are more than a word and begin with
 * one, or are a figure behind a title.
 */
export function partsOf(elements: readonly Element[]): Element[] {
  const last = elements.findLastIndex((element) => element.type !== "optional");
  return elements.filter((element, i) => {
    if (i <= last || element.type !== "optional") return false;
    const [first] = element.elements;
    if (first?.type === "word") return element.elements.length > 1;
    const before = elements[i - 1];
    return (
      first?.type === "slot" && first.kind === "QUANTITY" && before?.type === "slot" && before.kind === "TEXT"
    );
  });
}

/** For each clause that begins with a word: the next word said in it, and at which token it stands. */
export function rivalsOf(word: string, follow: readonly string[]): { word: string; at: number }[] {
  return follow.flatMap((id) => {
    const [first, ...rest] = elementsOf(`+${id}`);
    if (first?.type !== "word" || first.word !== word) return [];
    const i = rest.findIndex((element) => element.type === "word");
    const next = rest[i];
    return next?.type === "word" ? [{ word: next.word, at: i + 2 }] : [];
  });
}
