/**
 * Letters of other alphabets that look like Latin ones. A small table of our own of the pairs that are drawn alike in
 * the fonts of screens (compared by eye; Unicode's confusables are far more).
 */

const CYRILLIC: Readonly<Record<string, string>> = {
  А: "A", В: "B", Е: "E", К: "K", М: "M", Н: "H", О: "O", Р: "P", С: "C", Т: "T", У: "Y", Х: "X", І: "I", Ј: "J", Ѕ: "S", а: "a",
  е: "e", о: "o", р: "p", с: "c", у: "y", х: "x", і: "i", ј: "j", ѕ: "s", һ: "h", ԁ: "d", ԛ: "q", ԝ: "w",
};
const GREEK: Readonly<Record<string, string>> = {
  Α: "A", Β: "B", Ε: "E", Ζ: "Z", Η: "H", Ι: "I", Κ: "K", Μ: "M", Ν: "N", Ο: "O", Ρ: "P", Τ: "T", Υ: "Y", Χ: "X", ο: "o", ν: "v", α: "a", ρ: "p",
};
const TO_LATIN: ReadonlyMap<string, string> = new Map([...Object.entries(CYRILLIC), ...Object.entries(GREEK)]);
const TO_CYRILLIC: ReadonlyMap<string, string> = new Map(Object.entries(CYRILLIC).map(([a, b]) => [b, a]));

const LATIN_LETTER = /\p{Script=Latin}/u;
const CYRILLIC_LETTER = /\p{Script=Cyrillic}/u;
const GREEK_LETTER = /\p{Script=Greek}/u;
const NOT_ASCII = /[^\x00-\x7f]/;

/** Whether two different names are drawn alike. */
export function readsLike(a: string, b: string): boolean {
  if (a === b || a.length !== b.length || !(NOT_ASCII.test(a) || NOT_ASCII.test(b))) return false;
  return drawn(a) === drawn(b);
}

/** A name with every look-alike letter as the Latin one. */
export function drawn(name: string): string {
  return NOT_ASCII.test(name) ? [...name].map((letter) => TO_LATIN.get(letter) ?? letter).join("") : name;
}

/** A run of letters that mixes alphabets although it reads as a word of one. */
export interface Mixed {
  /** As it should be written. */
  readonly pure: string;
  /** The first letter that is of the other alphabet, and which alphabet that is. */
  readonly letter: string;
  readonly alphabet: "Latin" | "Cyrillic" | "Greek";
}

/** Reads a run of letters; null where it is of one alphabet, or is not a word of one in disguise. */
export function mixedAlphabets(word: string): Mixed | null {
  if (!NOT_ASCII.test(word) || !LATIN_LETTER.test(word)) return null;
  const other = CYRILLIC_LETTER.test(word) ? "Cyrillic" : GREEK_LETTER.test(word) ? "Greek" : null;
  if (!other) return null;
  const letters = [...word];
  const foreign = letters.filter((l) => !LATIN_LETTER.test(l));
  if (foreign.every((l) => TO_LATIN.has(l))) return { pure: drawn(word), letter: foreign[0] ?? "", alphabet: other };
  const latin = letters.filter((l) => LATIN_LETTER.test(l));
  if (other === "Greek" || !latin.every((l) => TO_CYRILLIC.has(l))) return null;
  return { pure: letters.map((l) => TO_CYRILLIC.get(l) ?? l).join(""), letter: latin[0] ?? "", alphabet: "Latin" };
}
