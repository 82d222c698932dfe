/**
 * The sentences of the acts by language, as templates; `server/sheet` puts titles and quantities into them.
 */
import { actsDe } from "./acts-de";
import { type ActWord, actsEn } from "./acts-en";
import { actsEs } from "./acts-es";
import { actsFr } from "./acts-fr";
import type { Language } from "./sheet";

export type { ActWord } from "./acts-en";

const SENTENCES: Readonly<Record<Language, Readonly<Record<ActWord, string>>>> = {
  en: actsEn,
  de: actsDe,
  fr: actsFr,
  es: actsEs,
};

/** Whether there is a sentence of this id, for ids made from an act's word. */
export function isActWord(id: string): id is ActWord {
  return Object.hasOwn(actsEn, id);
}

/** The template of a sentence. */
export function actTemplate(language: Language, id: ActWord): string {
  return SENTENCES[language][id];
}
