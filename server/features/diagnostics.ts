/**
 * Findings as an editor shows them: words, place, and the other places that make it wrong.
 */
import type { Place } from "../model";
import { type Finding, findingText, type Severity, wordsOf } from "../rules";

/** A finding in words. */
export interface Diagnostic {
  readonly place: Place;
  readonly severity: Severity;
  readonly code: string;
  /** What is wrong; under it, on lines of their own, the way that leads there and what to write instead. */
  readonly text: string;
  readonly related: readonly { readonly place: Place; readonly text: string }[];
  /** Something that is said but has no effect: an editor may show it faded. */
  readonly unnecessary: boolean;
}

const UNNECESSARY: ReadonlySet<string> = new Set([
  "unused-declaration",
  "tool-unused",
  "kit-item-unused",
  "allows-nothing",
  "unreachable-step",
  "unreachable-check",
]);

/** Findings in words, in the same order. */
export function diagnostics(findings: readonly Finding[]): readonly Diagnostic[] {
  return findings.map((finding) => ({
    place: finding.place,
    severity: finding.severity,
    code: finding.code,
    text: findingText(finding),
    related: finding.related.map((r) => ({ place: r.place, text: wordsOf(finding, r.message) })),
    unnecessary: UNNECESSARY.has(finding.code),
  }));
}
