/**
 * The words the printed sheet adds to what the writer wrote, by language, and the way to say them.
 */
import { de } from "./sheet-de";
import { en, type SheetWord } from "./sheet-en";
import { es } from "./sheet-es";
import { fr } from "./sheet-fr";

export type { SheetWord } from "./sheet-en";

/** The languages the sheet's generated words come in. */
export const LANGUAGES = ["en", "de", "fr", "es"] as const;
export type Language = (typeof LANGUAGES)[number];

const WORDS: Readonly<Record<Language, Readonly<Record<SheetWord, string>>>> = { en, de, fr, es };

/** The phrase as it is kept, its `{placeholders}` still in it. */
export function phrase(language: Language, id: SheetWord): string {
  return WORDS[language][id];
}

/**
 * Says a phrase of the sheet.
 *
 * @param args what to put in for each `{name}`; a name that is not given stays as it is
 */
export function say(language: Language, id: SheetWord, args: Readonly<Record<string, string>> = {}): string {
  return phrase(language, id).replace(/\{(\w+)\}/g, (whole, name: string) =>
    Object.hasOwn(args, name) ? (args[name] ?? whole) : whole,
  );
}
