/**
 * The report of `check` as JSON, for other programs; `check-schema.ts` says its shape.
 */
import { type Finding, wordsOf } from "../rules";
import type { JsonFinding, JsonRange, JsonReport } from "./check-schema";
import { type Checked, checkedFiles } from "./report";

/** The whole report, as a text. */
export function jsonReport({ projects, shown, problems, counts, baseline }: Checked): string {
  const report: JsonReport = {
    version: 1,
    findings: shown.map(({ finding, project }) => jsonFinding(finding, project.nameOf)),
    problems: problems.map(({ name, place, message }) => ({
      file: name,
      message,
      range: place && jsonRange(place),
    })),
    summary: { files: checkedFiles(projects).length, ...counts },
    baseline: baseline && {
      hidden: baseline.hidden,
      stale: baseline.stale.map(({ name, code, message }) => ({ file: name, code, message })),
    },
  };
  return `${JSON.stringify(report, null, 2)}\n`;
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
    way: [...way],
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
