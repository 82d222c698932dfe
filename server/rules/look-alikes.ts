/**
 * Letters of other alphabets that look like Latin ones. A small table of our own of the pairs that are drawn alike in
 * the fonts of screens (compared by eye; Unicode's confusables are far more).
 */

const pairs = (letters: string, latin: string): [string, string][] =>
  [...letters].map((letter, i) => [letter, latin.charAt(i)]);

const CYRILLIC = pairs("АВЕКМНОРСТУХІЈЅаеорсухіјѕһԁԛԝ", "ABEKMHOPCTYXIJSaeopcyxijshdqw");
const GREEK = pairs("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧοναρ", "ABEZHIKMNOPTYXovap");
const TO_LATIN: ReadonlyMap<string, string> = new Map([...CYRILLIC, ...GREEK]);
const TO_CYRILLIC: ReadonlyMap<string, string> = new Map(CYRILLIC.map(([letter, latin]) => [latin, letter]));

const LATIN_LETTER = /\p{Script=Latin}/u;
const CYRILLIC_LETTER = /\p{Script=Cyrillic}/u;
const GREEK_LETTER = /\p{Script=Greek}/u;
const NOT_ASCII = /[^ -~]/;

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
  if (foreign.every((l) => TO_LATIN.has(l)))
    return { pure: drawn(word), letter: foreign[0] ?? "", alphabet: other };
  const latin = letters.filter((l) => LATIN_LETTER.test(l));
  if (other === "Greek" || !latin.every((l) => TO_CYRILLIC.has(l))) return null;
  return {
    pure: letters.map((l) => TO_CYRILLIC.get(l) ?? l).join(""),
    letter: latin[0] ?? "",
    alphabet: "Latin",
  };
}
