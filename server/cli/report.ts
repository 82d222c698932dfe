/**
 * What the reports of `check` are made from, whatever their form.
 */
import type { Finding, Severity } from "../rules";
import type { Counts } from "./check-schema";
import type { OpenProblem, OpenProject } from "./open";

/** A finding, and the project it is in. */
export interface Located {
  readonly finding: Finding;
  readonly project: OpenProject;
}

/** What baselines did to the findings of a run. */
export interface BaselineOutcome {
  readonly hidden: Counts;
  /** What is recorded and no longer found, in files that were looked at or are gone. */
  readonly stale: readonly { readonly name: string; readonly code: string; readonly message: string }[];
}

/** What a run of `check` found. */
export interface Checked {
  readonly projects: readonly OpenProject[];
  /** What is told: without what a baseline hides, and with `--quiet` errors only. */
  readonly shown: readonly Located[];
  readonly problems: readonly OpenProblem[];
  /** Of everything but what a baseline hides. */
  readonly counts: Counts;
  readonly baseline: BaselineOutcome | null;
  /** So many warnings are allowed; null where it does not matter. */
  readonly most: number | null;
  /** There are more warnings than that. */
  readonly tooMany: boolean;
  readonly exitCode: number;
  /** Of this program. */
  readonly version: string;
  readonly now: Date;
}

/** How many findings there are of each severity. */
export function countBySeverity(findings: readonly Finding[]): Counts {
  const count = (severity: Severity): number =>
    findings.filter((finding) => finding.severity === severity).length;
  return { errors: count("error"), warnings: count("warning"), hints: count("hint") };
}

/** The files that were checked, as they are called, each once, in order. */
export function checkedFiles(projects: readonly OpenProject[]): string[] {
  const names = projects.flatMap(({ workspace, nameOf }) =>
    [...workspace.project().files.keys()].map(nameOf),
  );
  return [...new Set(names)].sort();
}
