/**
 * The baseline file: findings that a project has taken note of and lives with for now. `check` hides them, so that a
 * build can hold new work to a standard that old documents do not reach yet.
 *
 * A finding is known by file, code and fingerprint, which stay the same when its line moves. The file is made to be read
 * in a review: one finding a line, sorted, with its words. Those are for the reader, and are not compared.
 */
import * as z from "zod";
import { type FileProblem, fileProblemText, parentOf, relativePath } from "../project";
import { wordsOf } from "../rules";
import type { Io } from "./io";
import { type BaselineOutcome, countBySeverity, type Located } from "./report";

const entrySchema = z.strictObject({
  file: z.string(),
  code: z.string(),
  message: z.string(),
  fingerprint: z.string(),
  count: z.int().min(2).optional(),
});
const fileSchema = z.strictObject({ version: z.literal(1), findings: z.array(entrySchema) });

/** What the file says of a finding. `file` is its path from the baseline's folder; `count`: so many are alike. */
type Entry = z.infer<typeof entrySchema>;

/** A baseline file that was read. The path is absolute. */
export interface Baseline {
  readonly path: string;
  readonly entries: readonly Entry[];
}

const MAKE_ANEW = '"torquil check --write-baseline" makes it anew.';

/** Reads a baseline file; the problem is told with a way out. */
export function readBaseline(path: string, io: Io): Baseline | { readonly problem: string } {
  const read = io.files.readText(path);
  if ("problem" in read) return { problem: whyUnread(read.problem) };
  let json: unknown;
  try {
    json = JSON.parse(read.text.replace(/^\ufeff/, ""));
  } catch {
    return {
      problem: `This baseline file is no JSON any more. Bring back its last good state, or ${MAKE_ANEW}`,
    };
  }
  const checked = fileSchema.safeParse(json);
  if (checked.success) return { path, entries: checked.data.findings };
  const newer = z.object({ version: z.number().min(2) }).safeParse(json).success;
  return {
    problem: newer
      ? "This baseline file was written by a newer Torquil. Use that one."
      : `This is not a baseline file, or has been changed by hand. ${MAKE_ANEW}`,
  };
}

function whyUnread(problem: FileProblem): string {
  return problem.kind === "missing"
    ? `There is no such baseline file. ${MAKE_ANEW.replace(" anew", "")}`
    : fileProblemText(problem);
}

/** What stands at a path: a finding of a file, seen from a baseline. */
const keyOf = ({ file, code, fingerprint }: Pick<Entry, "file" | "code" | "fingerprint">): string =>
  [file, code, fingerprint].join("\0");

/** The findings that a baseline does not record, and what it did. `pathOf` gives the absolute path of a finding's file. */
export function applyBaseline(
  baseline: Baseline,
  located: readonly Located[],
  pathOf: (one: Located) => string,
): {
  readonly left: readonly Located[];
  readonly hidden: readonly Located[];
  readonly unused: readonly Entry[];
} {
  const folder = parentOf(baseline.path);
  const budget = new Map<string, number>();
  for (const entry of baseline.entries)
    budget.set(keyOf(entry), (budget.get(keyOf(entry)) ?? 0) + (entry.count ?? 1));
  const isRecorded = (one: Located): boolean => {
    const { code, fingerprint } = one.finding;
    const key = keyOf({ file: relativePath(folder, pathOf(one)), code, fingerprint });
    const left = budget.get(key) ?? 0;
    budget.set(key, left - 1);
    return left > 0;
  };
  const hidden = located.filter(isRecorded);
  const known = new Set(hidden);
  return {
    left: located.filter((one) => !known.has(one)),
    hidden,
    unused: baseline.entries.filter((entry) => (budget.get(keyOf(entry)) ?? 0) > 0),
  };
}

/** The text of a baseline file that records these findings, and keeps some entries as they are. */
export function baselineText(
  path: string,
  located: readonly Located[],
  pathOf: (one: Located) => string,
  kept: readonly Entry[],
): string {
  const folder = parentOf(path);
  const entries = new Map<string, Entry>(kept.map((entry) => [keyOf(entry), entry]));
  for (const one of located) {
    const { finding } = one;
    const entry: Entry = {
      file: relativePath(folder, pathOf(one)),
      code: finding.code,
      message: wordsOf(finding, finding.message),
      fingerprint: finding.fingerprint,
    };
    const before = entries.get(keyOf(entry));
    entries.set(keyOf(entry), before ? { ...before, count: (before.count ?? 1) + 1 } : entry);
  }
  const sorted = [...entries].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, entry]) => entry);
  const lines = sorted.map((entry) => `    ${JSON.stringify(entry)}`).join(",\n");
  return `{\n  "version": 1,\n  "findings": [${lines && `\n${lines}\n  `}]\n}\n`;
}

/** The outcome of several baselines together. `nameOf` says how an absolute path is called. */
export function outcomeOf(
  hidden: readonly Located[],
  stale: readonly { readonly path: string; readonly entry: Entry }[],
  nameOf: (path: string) => string,
): BaselineOutcome {
  return {
    hidden: countBySeverity(hidden.map(({ finding }) => finding)),
    stale: stale.map(({ path, entry: { code, message } }) => ({ name: nameOf(path), code, message })),
  };
}
