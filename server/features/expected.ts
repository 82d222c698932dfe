/**
 * What may come next on a line: the forms of the language are followed, in every way they can be read, over the
 * words before the cursor. It needs no line that parses, only one that is right so far.
 */
import { type Element, elementsOf, type SlotElement } from "../../grammar";
import { type LineForm, stopWords } from "../../grammar/constructs";
import { readSlot, type Token } from "./slot-ends";

/** A place of the form that is filled in already. */
export interface Filled {
  /** The clause; empty for the form itself. */
  readonly clause: string;
  readonly role: string;
  readonly words: readonly string[];
}

/** What has been said when something may come next. */
export interface Said {
  /** The clause that is being said; empty for the form itself. */
  readonly clause: string;
  readonly filled: readonly Filled[];
  /** The clauses said so far. */
  readonly clauses: readonly string[];
  /** Nothing of the clause has been said yet. */
  readonly fresh: boolean;
}

/** Something that may come next: fixed words (`with`, `from the middle out`) or a slot to fill. */
export type Expected =
  | { readonly type: "words"; readonly words: readonly string[]; readonly said: Said }
  | {
      readonly type: "slot";
      readonly slot: SlotElement;
      /** The slot from its start, a further name of a list, or the unit of a figure. */
      readonly part: "whole" | "further" | "unit";
      readonly said: Said;
    };

/** Clauses that may be said more than once. */
export const REPEATED: ReadonlySet<string> = new Set(
  "stage pulley holes hole face serial raised-by or-tool like".split(" "),
);

type Next = (at: number, said: Said) => void;

interface Reader {
  readonly tokens: readonly Token[];
  readonly stops: ReadonlySet<string>;
  readonly found: Map<string, Expected>;
}

/** Everything that may come after some words of a line, in the order of the form. The first word is the head. */
export function expectedAfter(form: LineForm, tokens: readonly Token[]): readonly Expected[] {
  const reader: Reader = { tokens, stops: stopWords(form), found: new Map() };
  const own = form.clause ? form.id : "";
  const start: Said = { clause: own, filled: [], clauses: form.clause ? [own] : [], fresh: true };
  const follow: Next = (at, said) => {
    for (const id of form.follow) {
      if (said.clauses.includes(id) && !REPEATED.has(id)) continue;
      const inside: Said = { ...said, clause: id, clauses: [...said.clauses, id], fresh: true };
      readSequence(reader, elementsOf(`+${id}`), 0, at, inside, (end, after) =>
        follow(end, { ...after, clause: "" }),
      );
    }
  };
  readSequence(reader, elementsOf(form.clause ? `+${own}` : form.id), 0, 0, start, follow);
  return [...reader.found.values()];
}

/** Reads a form's elements from one of them on, in every way, and goes on behind each. */
function readSequence(
  reader: Reader,
  elements: readonly Element[],
  from: number,
  at: number,
  said: Said,
  next: Next,
): void {
  const element = elements[from];
  if (!element) {
    next(at, said);
    return;
  }
  const rest: Next = (end, after) => readSequence(reader, elements, from + 1, end, after, next);
  switch (element.type) {
    case "word":
      if (at === reader.tokens.length)
        expect(reader, { type: "words", words: wordsFrom(elements, from), said });
      else if (reader.tokens[at]?.image === element.word) rest(at + 1, { ...said, fresh: false });
      break;
    case "optional":
      readSequence(reader, element.elements, 0, at, said, rest);
      rest(at, said);
      break;
    case "choice":
      for (const option of element.options) readSequence(reader, option, 0, at, said, rest);
      break;
    case "slot":
      fillSlot(reader, element, at, said, rest);
  }
}

function fillSlot(reader: Reader, slot: SlotElement, at: number, said: Said, rest: Next): void {
  if (at === reader.tokens.length) {
    expect(reader, { type: "slot", slot, part: "whole", said });
    return;
  }
  const filledTo = (end: number): Said => {
    const words = reader.tokens.slice(at, end).map((t) => t.image);
    return {
      ...said,
      fresh: false,
      filled: [...said.filled, { clause: said.clause, role: slot.role, words }],
    };
  };
  const { ends, breaksOff } = readSlot(slot, reader, at);
  if (breaksOff)
    expect(reader, { type: "slot", slot, part: breaksOff, said: filledTo(reader.tokens.length) });
  for (const end of ends) rest(end, filledTo(end));
}

/** The fixed words that stand together from one on: `from the middle out`. */
function wordsFrom(elements: readonly Element[], from: number): string[] {
  const words: string[] = [];
  for (const element of elements.slice(from)) {
    if (element.type !== "word") break;
    words.push(element.word);
  }
  return words;
}

function expect({ found }: Reader, expected: Expected): void {
  const what =
    expected.type === "words" ? expected.words.join(" ") : `${expected.slot.index} ${expected.part}`;
  const key = `${expected.said.clause}|${expected.type}|${what}`;
  if (!found.has(key)) found.set(key, expected);
}
