/**
 * What `check --json` prints. The shape is stable: `version` counts up when something in it changes its meaning or goes;
 * new members may come without that. Lines and characters count from 0, characters in UTF-16.
 */
import { type Finding, wordsOf } from "../rules";

export interface JsonReport {
  readonly version: 1;
  /** In the order of files, then of places. */
  readonly findings: readonly JsonFinding[];
  /** Files, folders and settings that could not be read, and links that lead astray. */
  readonly problems: readonly JsonProblem[];
  readonly summary: JsonSummary;
}

export interface JsonFinding {
  readonly code: string;
  readonly severity: "error" | "warning" | "hint";
  readonly message: string;
  readonly hint: string | null;
  /** Files are named as seen from the folder the command was run in, with forward slashes. */
  readonly file: string;
  readonly range: JsonRange;
  /** The other places that make it wrong. */
  readonly related: readonly { readonly message: string; readonly file: string; readonly range: JsonRange }[];
  /** The decisions on the way there, where only some ways are wrong. */
  readonly way: readonly string[];
  readonly fixes: readonly JsonFix[];
  /** The same for the same fault, wherever its line has moved to. */
  readonly fingerprint: string;
}

export interface JsonFix {
  readonly title: string;
  /** It changes nothing that was meant. */
  readonly safe: boolean;
  readonly edits: readonly { readonly file: string; readonly range: JsonRange; readonly newText: string }[];
}

export interface JsonRange {
  readonly start: { readonly line: number; readonly character: number };
  /** Not included. */
  readonly end: { readonly line: number; readonly character: number };
}

export interface JsonProblem {
  readonly file: string;
  readonly message: string;
  /** null where it is about the file as a whole. */
  readonly range: JsonRange | null;
}

export interface JsonSummary {
  readonly files: number;
  readonly errors: number;
  readonly warnings: number;
  readonly hints: number;
}

/** A finding in that shape. `nameOf` says how a file is called. */
export function jsonFinding(finding: Finding, nameOf: (file: string) => string): JsonFinding {
  const { code, severity, place, way, fingerprint } = finding;
  return {
    code,
    severity,
    message: wordsOf(finding, finding.message),
    hint: finding.hint && wordsOf(finding, finding.hint),
    file: nameOf(place.file),
    range: jsonRange(place),
    related: finding.related.map((other) => ({
      message: wordsOf(finding, other.message),
      file: nameOf(other.place.file),
      range: jsonRange(other.place),
    })),
    way,
    fixes: finding.fixes.map(({ title, safe, changes }) => ({
      title: wordsOf(finding, title),
      safe,
      edits: changes.map((change) => ({
        file: nameOf(change.place.file),
        range: jsonRange(change.place),
        newText: change.text,
      })),
    })),
    fingerprint,
  };
}

/** A place on one line as a range. */
export function jsonRange({ line, start, end }: { line: number; start: number; end: number }): JsonRange {
  return { start: { line, character: start }, end: { line, character: end } };
}
