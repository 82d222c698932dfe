/**
 * The notation in which the language's forms are written down, and its reader.
 *
 * A form is a string of words: a lower-case word stands for itself, `role:KIND` is a place for something the
 * writer fills in, `[ … ]` may be left out, `< a | b >` is one of several. `KIND(a|b)` narrows a place: for names
 * to kinds of thing, for quantities to kinds of quantity; `role:(a|b)` is one of some fixed words.
 */

/** What may stand in a place of a form. */
export type SlotKind =
  | "NAME" // one name
  | "NAMES" // names parted by commas
  | "TEXT" // a string in double quotes
  | "QUANTITY" // a figure with its unit, a range, a bound, a tolerance
  | "COUNT" // a whole number, or two … twelve
  | "NUMBER" // a number or a fraction without a unit
  | "HOLES" // hole numbers: `1, 2, 4` and `1 to 4`
  | "POINT" // two lengths: x, y
  | "DATE" // 2026-11-20
  | "THREAD" // M12 x 1.25, 1/2-13
  | "GRADE" // 8.8, A2-70
  | "OUTCOME" // over, not met, or a name
  | "CHOICE"; // one of the words listed

export interface SlotElement {
  readonly type: "slot";
  readonly role: string;
  readonly kind: SlotKind;
  /** Kinds of thing or of quantity that fit, or the words of a CHOICE; empty means any. */
  readonly accepts: readonly string[];
  readonly index: number;
}

export type Element =
  | { readonly type: "word"; readonly word: string; readonly index: number }
  | SlotElement
  | { readonly type: "optional"; readonly elements: readonly Element[]; readonly index: number }
  | { readonly type: "choice"; readonly options: readonly (readonly Element[])[]; readonly index: number };

const TOKEN = /[[\]<>|]|[\p{L}-]+:(?:\([^)]*\)|[A-Z]+(?:\([^)]*\))?)|[\p{L}-]+/gu;

/**
 * Reads a form. The notation is ours and fixed at build time, so a slip in it throws.
 * @throws Error when the form is not well made
 */
export function readPattern(form: string): readonly Element[] {
  const tokens = form.match(TOKEN) ?? [];
  let at = 0;
  let index = 0;
  function sequence(until: readonly string[]): Element[] {
    const elements: Element[] = [];
    while (at < tokens.length && !until.includes(tokens[at] as string)) elements.push(element());
    return elements;
  }
  function close(bracket: string): void {
    if (tokens[at++] !== bracket) throw new Error(`form lacks ${bracket}: ${form}`);
  }
  function element(): Element {
    const token = tokens[at++] as string;
    const own = index++;
    if (token === "[") {
      const elements = sequence(["]"]);
      close("]");
      return { type: "optional", elements, index: own };
    }
    if (token === "<") {
      const options = [sequence(["|", ">"])];
      while (tokens[at] === "|") {
        at++;
        options.push(sequence(["|", ">"]));
      }
      close(">");
      return { type: "choice", options, index: own };
    }
    return token.includes(":") ? slot(token, own) : { type: "word", word: token, index: own };
  }
  const elements = sequence([]);
  if (at !== tokens.length) throw new Error(`form has a stray ${tokens[at]}: ${form}`);
  return elements;
}

function slot(token: string, index: number): SlotElement {
  const colon = token.indexOf(":");
  const role = token.slice(0, colon);
  const rest = token.slice(colon + 1);
  const open = rest.indexOf("(");
  const accepts = open < 0 ? [] : rest.slice(open + 1, -1).split("|");
  const kind = open === 0 ? "CHOICE" : ((open < 0 ? rest : rest.slice(0, open)) as SlotKind);
  return { type: "slot", role, kind, accepts, index };
}

/** Every word that stands for itself somewhere in the elements, words of choices included. */
export function wordsOf(elements: readonly Element[]): string[] {
  return elements.flatMap(wordsIn);
}

function wordsIn(element: Element): readonly string[] {
  switch (element.type) {
    case "word":
      return [element.word];
    case "slot":
      return element.kind === "CHOICE" ? element.accepts : [];
    case "optional":
      return wordsOf(element.elements);
    case "choice":
      return element.options.flatMap(wordsOf);
  }
}
