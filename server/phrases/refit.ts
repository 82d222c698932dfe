/**
 * What is said of a refit, in English: templates, with `{name}` for what is put in.
 */
import type { Language } from "./sheet";

export const REFIT_PHRASES = {
  action: "Write the refit of all that is owed at the end of “{title}”",
  nothing: "Nothing is owed at the end of “{title}”: there is nothing to write.",
  written: "{file}  {count} added",
  lines: "{count} lines",
  line: "1 line",
  above: "above line {line}",
  unbalanced:
    "The braces of “{title}” do not balance, so nobody can tell where its lines end. Put that right first.",
  "cut-short":
    "The ways through “{title}” are too many to follow them all, so there may be more that is owed than is written here.",
  "not-in-sight":
    "“{title}” is left {state} by a procedure that is followed, and has no name here. Put it right there.",
  "not-told-apart":
    "“{title}” is {state} at the end on some ways only{ways}, and no condition and no recorded check tells those ways from the others. Name the check and write “record” in it, or write there what puts it right.",
  "still-unfitted": "“{title}” would still be out where line {line} tightens it{ways}.",
  "still-owed": "“{title}” would still be {state} at the end{ways}.",
  "new-finding": "Line {line} as it would be then: {text}",
} as const;

export type RefitPhrase = keyof typeof REFIT_PHRASES;

/** A phrase with its arguments filled in. */
export function refitPhrase(id: RefitPhrase, args: Readonly<Record<string, string>> = {}): string {
  return REFIT_PHRASES[id].replace(/\{([\w-]+)\}/g, (whole, name: string) => args[name] ?? whole);
}

/** Words that a refit writes into the text itself, in the language of its sheets. */
const WRITTEN = {
  en: {
    section: "Put back",
    "section-rest": "Put back the rest",
    "section-last": "Put back what is still off",
    "nothing-then": "Nothing is to be put back then.",
  },
  de: {
    section: "Zusammenbauen",
    "section-rest": "Den Rest zusammenbauen",
    "section-last": "Zusammenbauen, was noch fehlt",
    "nothing-then": "Dann ist nichts zusammenzubauen.",
  },
  fr: {
    section: "Remonter",
    "section-rest": "Remonter le reste",
    "section-last": "Remonter ce qui est encore déposé",
    "nothing-then": "Il n'y a alors rien à remonter.",
  },
  es: {
    section: "Montar de nuevo",
    "section-rest": "Montar el resto",
    "section-last": "Montar lo que aún falta",
    "nothing-then": "En ese caso no hay nada que montar.",
  },
} as const satisfies Readonly<Record<Language, Readonly<Record<string, string>>>>;

/** A title or a remark of a refit in the language of the sheets. */
export function refitWords(language: Language, id: keyof (typeof WRITTEN)["en"]): string {
  return WRITTEN[language][id];
}
