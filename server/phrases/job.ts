/**
 * The words of a procedure's lists, conditions and questions by language, as templates.
 */
import { jobDe } from "./job-de";
import { type JobWord, jobEn } from "./job-en";
import { jobEs } from "./job-es";
import { jobFr } from "./job-fr";
import type { Language } from "./sheet";

export type { JobWord } from "./job-en";

const WORDS: Readonly<Record<Language, Readonly<Record<JobWord, string>>>> = {
  en: jobEn,
  de: jobDe,
  fr: jobFr,
  es: jobEs,
};

/** The template of these words. */
export function jobTemplate(language: Language, id: JobWord): string {
  return WORDS[language][id];
}
