/**
 * The words about the ways through a procedure: on their drawing, by language, and in what the command says of them, in
 * English. Templates, with `{name}` for what is put in.
 */
import type { Language } from "./sheet";

const en = {
  "drawing.title": "The ways through the work",
  "drawing.part": "The ways through the work, {n} of {of}",
  "drawing.from": "from drawing {n} of {of}",
  "drawing.on": "goes on in drawing {n} of {of}",
  "drawing.answer": "{answer}: {what}",
  "drawing.rejoins": "Then on with what comes next",
  "drawing.straight": "straight on",
  begin: "Begin",
  end: "End of the work",
  "end-early": "End the job",
  step: "Step {number}",
  steps: "Steps {from} to {to}",
  "in-step": "Within step {number}",
  "for-each": "for each of {title}",
  "any-other": "Otherwise",
  "note-word": "Not drawn, since only words stand under it: a condition in {steps}",
  "note-words": "Not drawn, since only words stand under them: conditions in {steps}",
  "note-small": "Not drawn, since the work goes on in the same step: a condition in {steps}",
  "note-smalls": "Not drawn, since the work goes on in the same step: conditions in {steps}",
} as const;

/** What a drawing of the ways can say. */
export type WaysWord = keyof typeof en;

const de: Record<WaysWord, string> = {
  "drawing.title": "Die Wege durch die Arbeit",
  "drawing.part": "Die Wege durch die Arbeit, {n} von {of}",
  "drawing.from": "von Zeichnung {n} von {of}",
  "drawing.on": "weiter in Zeichnung {n} von {of}",
  "drawing.answer": "{answer}: {what}",
  "drawing.rejoins": "Dann weiter mit dem, was folgt",
  "drawing.straight": "geradeaus weiter",
  begin: "Beginn",
  end: "Ende der Arbeit",
  "end-early": "Arbeit beenden",
  step: "Schritt {number}",
  steps: "Schritte {from} bis {to}",
  "in-step": "In Schritt {number}",
  "for-each": "für jedes von: {title}",
  "any-other": "Sonst",
  "note-word": "Nicht gezeichnet, weil darunter nur Text steht: eine Bedingung in {steps}",
  "note-words": "Nicht gezeichnet, weil darunter nur Text steht: Bedingungen in {steps}",
  "note-small": "Nicht gezeichnet, weil es im selben Schritt weitergeht: eine Bedingung in {steps}",
  "note-smalls": "Nicht gezeichnet, weil es im selben Schritt weitergeht: Bedingungen in {steps}",
};

const fr: Record<WaysWord, string> = {
  "drawing.title": "Les chemins du travail",
  "drawing.part": "Les chemins du travail, {n} sur {of}",
  "drawing.from": "suite du dessin {n} sur {of}",
  "drawing.on": "suite au dessin {n} sur {of}",
  "drawing.answer": "{answer} : {what}",
  "drawing.rejoins": "Continuer ensuite avec ce qui suit",
  "drawing.straight": "tout droit",
  begin: "Début",
  end: "Fin du travail",
  "end-early": "Arrêter le travail",
  step: "Étape {number}",
  steps: "Étapes {from} à {to}",
  "in-step": "Dans l’étape {number}",
  "for-each": "pour chacun de : {title}",
  "any-other": "Sinon",
  "note-word": "Non dessinée, n’ayant que du texte : une condition dans {steps}",
  "note-words": "Non dessinées, n’ayant que du texte : des conditions dans {steps}",
  "note-small": "Non dessinée, le travail continuant dans la même étape : une condition dans {steps}",
  "note-smalls": "Non dessinées, le travail continuant dans la même étape : des conditions dans {steps}",
};

const es: Record<WaysWord, string> = {
  "drawing.title": "Los caminos del trabajo",
  "drawing.part": "Los caminos del trabajo, {n} de {of}",
  "drawing.from": "viene del dibujo {n} de {of}",
  "drawing.on": "sigue en el dibujo {n} de {of}",
  "drawing.answer": "{answer}: {what}",
  "drawing.rejoins": "Después, seguir con lo siguiente",
  "drawing.straight": "recto adelante",
  begin: "Comienzo",
  end: "Fin del trabajo",
  "end-early": "Terminar el trabajo",
  step: "Paso {number}",
  steps: "Pasos {from} a {to}",
  "in-step": "En el paso {number}",
  "for-each": "para cada uno de: {title}",
  "any-other": "Si no",
  "note-word": "No dibujada, por tener solo texto: una condición en {steps}",
  "note-words": "No dibujadas, por tener solo texto: condiciones en {steps}",
  "note-small": "No dibujada, porque el trabajo sigue en el mismo paso: una condición en {steps}",
  "note-smalls": "No dibujadas, porque el trabajo sigue en el mismo paso: condiciones en {steps}",
};

const WORDS: Readonly<Record<Language, Readonly<Record<WaysWord, string>>>> = { en, de, fr, es };

type Args = Readonly<Record<string, string>>;

const filled = (template: string, args: Args): string =>
  template.replace(/\{(\w+)\}/g, (whole, name: string) =>
    Object.hasOwn(args, name) ? (args[name] ?? whole) : whole,
  );

/** Says a phrase about the ways in a language; a name that is not given stays as it is. */
export const waysWord = (language: Language, id: WaysWord, args: Args = {}): string =>
  filled(WORDS[language][id], args);

/** What the command says of the ways. */
export const WAYS_PHRASES = {
  one: "There is one way through it: nothing parts the ways.",
  "one-early": "There is one way through it, and it ends the job early.",
  "all-whole": "{ways} ways lead from the start to the end of the work.",
  "all-early": "{ways} ways lead from the start to an end; all of them end the job early.",
  both: "{ways} ways lead from the start to an end: {whole} to the end of the work, {early} end the job early.",
  "both-one":
    "{ways} ways lead from the start to an end: {whole} to the end of the work, one ends the job early.",
  shortest: "Shortest way to the end of the work",
  longest: "Longest way to the end of the work",
  only: "Every way to the end of the work",
  soonest: "Soonest to end the job early",
  "steps-one": "1 step",
  steps: "{count} steps",
  "straight-on": "straight on everywhere",
  decision: "{question}: {answer}",
  "decision-asked": "{question} {answer}",
  "decision-times": "{decision} ({times} times)",
  places: "Where the ways part",
  "in-answer": "only after: {decision}",
  "does-steps": "steps {numbers}",
  "does-step": "step {numbers}",
  "says-words": "says: {words}",
  within: "Within step {number}:",
  on: "goes on",
  "on-to-end": "goes on to the end",
  "on-to": "goes on with step {to}",
  "go-to": "goes to step {to}",
  "go-to-past": "goes to step {to}, leaving out {left}",
  "check-again": "checks again{times}",
  repeat: "comes back to step {to}{times}",
  "at-most-one": ", at most once",
  "at-most": ", at most {times} times",
  unbounded: ", without a bound",
  ends: "ends the job",
  "ends-because": "ends the job: {reason}",
  "ways-one": "1 way",
  ways: "{ways} ways",
  "ways-none": "no way",
  about: "about {figure} × 10^{power}",
  endless:
    "The ways cannot be counted: step {step} goes back without a bound, so there is no end of them. Say “at most … times” there.",
  "endless-line":
    "The ways cannot be counted: line {line} goes back without a bound, so there is no end of them. Say “at most … times” there.",
  "too-many":
    "There are too many ways to count them: at line {line} it still matters how {count} conditions and checks before were answered ({names}). Ask fewer of them again later, or allow fewer returns.",
  "too-many-returns":
    "There are too many ways to count them: at line {line} it still matters how often each return before was taken. Allow fewer returns.",
  "and-more": "{names} and {count} more",
} as const;

export type WaysPhrase = keyof typeof WAYS_PHRASES;

/** What the command says, with its arguments filled in. */
export const waysPhrase = (id: WaysPhrase, args: Args = {}): string => filled(WAYS_PHRASES[id], args);
