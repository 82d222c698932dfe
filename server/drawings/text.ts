/**
 * How wide text is, and where it is broken. Estimated by kinds of letters, a little too wide rather than too narrow, since
 * a drawing is made without its font at hand.
 */

/** Widths of Noto Sans in parts of its size, rounded up by kind of letter. */
const WIDTHS: readonly (readonly [RegExp, number])[] = [
  [/[iIl.,:;'’!|jft()[\] ]/u, 0.36],
  [/[mMW@%—]/u, 0.95],
  [/[\p{Lu}&wOQ]/u, 0.72],
  [/[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\u3000-\u303f\uff00-\uffef]/u, 1],
  [/\p{M}/u, 0],
];
const USUAL = 0.6;

/** The width of a line of text, in the unit its size is in. */
export function widthOf(text: string, size: number): number {
  return [...text].reduce(
    (sum, letter) => sum + size * (WIDTHS.find(([kind]) => kind.test(letter))?.[1] ?? USUAL),
    0,
  );
}

/** Breaks text between words, but at no no-break space, into lines no wider than `most`; a word that is wider is cut with an ellipsis. */
export function wrapped(text: string, size: number, most: number): readonly string[] {
  const lines: string[] = [];
  let current = "";
  for (const word of text.split(/[^\S\u00a0]+/u).filter((w) => w !== "")) {
    const longer = current === "" ? word : `${current} ${word}`;
    if (widthOf(longer, size) <= most) {
      current = longer;
      continue;
    }
    if (current !== "") lines.push(current);
    current = cut(word, size, most);
  }
  return current === "" ? lines : [...lines, current];
}

/** A text that is wider than `most` loses its end. */
export function cut(text: string, size: number, most: number): string {
  if (widthOf(text, size) <= most) return text;
  const letters = [...text];
  while (letters.length > 1 && widthOf(`${letters.join("")}…`, size) > most) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}
