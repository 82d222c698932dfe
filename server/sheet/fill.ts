/**
 * Puts runs of text into the templates of phrases: `{name}` is what is put in, `[…]` is left out where something in it
 * is not given, `*…*` stands out.
 */
import { type JobWord, jobTemplate } from "../phrases/job";
import type { Language } from "../phrases/sheet";
import { findUnit } from "../units/lookup";
import type { Run, Runs } from "./inline";

/** What is put into a template; what is absent or empty counts as not given. */
export type Args = Readonly<Record<string, Runs | undefined>>;

/** A template with its places filled in. */
export function fill(template: string, args: Args): Runs {
  const kept = template.replace(/\[([^\]]*)\]/g, (_, inner: string) => (given(inner, args) ? inner : ""));
  return merged(kept.split(/(\{\w+\}|\*[^*]+\*)/).flatMap((part) => partOf(part, args)));
}

function given(template: string, args: Args): boolean {
  return [...template.matchAll(/\{(\w+)\}/g)].every(([, name]) => (args[name as string] ?? []).length > 0);
}

function partOf(part: string, args: Args): Runs {
  if (part.startsWith("{")) return args[part.slice(1, -1)] ?? [];
  if (part.startsWith("*") && part.length > 1) return strong(part.slice(1, -1));
  return plain(part);
}

/** Text as it is; nothing for no text. */
export function plain(text: string): Runs {
  return text === "" ? [] : [{ text: bound(text), style: "text" }];
}

/** Text that stands out: a title. */
export function strong(text: string): Runs {
  return text === "" ? [] : [{ text: bound(text), style: "strong" }];
}

/** Text in which no figure is parted from its unit at the end of a line. */
export function bound(text: string): string {
  return text.replace(/(\d) (?=([^\s,;:.!?)]+))/g, (whole, digit: string, word: string) =>
    findUnit(word) === undefined ? whole : `${digit}\u00a0`,
  );
}

/** Runs as plain text. */
export function textOf(runs: Runs): string {
  return runs.map((run) => run.text).join("");
}

/** Sentences one after the other. */
export function sentences(parts: readonly Runs[]): Runs {
  return merged(
    parts
      .filter((part) => part.length > 0)
      .flatMap((part, index) => (index === 0 ? part : [...plain(" "), ...part])),
  );
}

/** A list in a language: `a`, `a and b`, `a, b and c`; `word` is how the last two are joined. */
export function list(
  language: Language,
  items: readonly Runs[],
  word: "list.two" | "list.or" = "list.two",
): Runs {
  const [first = [], ...rest] = items;
  return rest.reduce<Runs>(
    (a, b, index) => fill(jobTemplate(language, index === rest.length - 1 ? word : "list.more"), { a, b }),
    first,
  );
}

/** A phrase of a procedure's lists with its places filled in. */
export function job(language: Language, word: JobWord, args: Args = {}): Runs {
  return fill(jobTemplate(language, word), args);
}

/** Neighbours of the same style as one run. */
function merged(runs: Runs): Runs {
  const out: Run[] = [];
  for (const run of runs) {
    const last = out.at(-1);
    if (last && last.style === "text" && run.style === "text")
      out[out.length - 1] = { ...last, text: last.text + run.text };
    else out.push(run);
  }
  return out;
}
