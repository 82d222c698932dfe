/**
 * The words of the page that lists printed sheets, beside those it shares with the sheets.
 */
import type { Language } from "./sheet";

const en = {
  title: "Procedures",
  procedure: "Procedure",
  state: "State",
  sheet: "Sheet",
  released: "Released",
  draft: "Draft: not for use on a machine",
  "not-printed": "Not printed: it has to be put right first",
  page: "Web page",
};

export type ContentsWord = keyof typeof en;

const WORDS: Readonly<Record<Language, Readonly<Record<ContentsWord, string>>>> = {
  en,
  de: {
    title: "Arbeitsanweisungen",
    procedure: "Arbeitsanweisung",
    state: "Stand",
    sheet: "Blatt",
    released: "Freigegeben",
    draft: "Entwurf: nicht für die Arbeit an einer Maschine",
    "not-printed": "Nicht gedruckt: muss erst berichtigt werden",
    page: "Webseite",
  },
  fr: {
    title: "Procédures",
    procedure: "Procédure",
    state: "État",
    sheet: "Fiche",
    released: "Diffusé",
    draft: "Projet\u00a0: ne pas utiliser sur une machine",
    "not-printed": "Non imprimé\u00a0: à corriger d’abord",
    page: "Page web",
  },
  es: {
    title: "Procedimientos",
    procedure: "Procedimiento",
    state: "Estado",
    sheet: "Hoja",
    released: "Publicado",
    draft: "Borrador: no usar en una máquina",
    "not-printed": "Sin imprimir: antes hay que corregirlo",
    page: "Página web",
  },
};

/** A word of the page in a language. */
export function contentsWord(language: Language, id: ContentsWord): string {
  return WORDS[language][id];
}
