/**
 * Which reports of `check` are asked for, and where each goes.
 */
import { nearest } from "../../grammar";
import type { Given } from "./arguments";

/** The forms a report may have. */
export const FORMS = ["text", "json", "sarif", "junit", "github"] as const;

/** A report that is wanted; without a file it goes to the standard output. */
export interface Wanted {
  readonly form: (typeof FORMS)[number];
  readonly file: string | null;
}

/** Reads `--report`, `--out` and `--json`; `wrong` is a sentence about what cannot be taken. */
export function wantedReports(given: Given): readonly Wanted[] | { readonly wrong: string } {
  const wanted: Wanted[] = [];
  for (const written of [...given.values("report"), ...(given.has("json") ? ["json"] : [])]) {
    const cut = written.indexOf("=");
    const word = cut < 0 ? written : written.slice(0, cut);
    const form = FORMS.find((one) => one === word);
    if (!form) return { wrong: unknownForm(word) };
    if (cut === written.length - 1)
      return { wrong: `After --report ${written} the name of a file is missing: --report ${word}=FILE.` };
    wanted.push({ form, file: cut < 0 ? null : written.slice(cut + 1) });
  }
  const placed = withOut(wanted, given.value("out"));
  if ("wrong" in placed) return placed;
  const same = placed.filter(({ file }, i) => placed.findIndex((other) => other.file === file) !== i)[0];
  if (!same) return placed;
  return same.file === null
    ? {
        wrong: `Only one report can go to the standard output. Write the others to files: --report ${same.form}=FILE.`,
      }
    : { wrong: `Two reports cannot both go to ${same.file}.` };
}

function unknownForm(word: string): string {
  const near = nearest(word, FORMS);
  return `The option --report does not take "${word}". ${near ? `Did you mean ${near}?` : `It takes ${FORMS.join(", ")}.`}`;
}

/** `--out` is the file of the one report that has none. */
function withOut(
  wanted: readonly Wanted[],
  out: string | undefined,
): readonly Wanted[] | { readonly wrong: string } {
  if (out === undefined) return wanted;
  const open = wanted.filter(({ file }) => file === null);
  if (open.length > 1)
    return { wrong: "The option --out names one file for several reports. Use --report FORM=FILE for each." };
  if (wanted.length > 0 && open.length === 0)
    return { wrong: "The option --out names a file, but every report has one already. Leave it out." };
  if (open.length === 0) return [{ form: "text", file: out }];
  return wanted.map((one) => (one.file === null ? { ...one, file: out } : one));
}
