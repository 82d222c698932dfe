/**
 * Which baseline file each project has, and what they do to the findings of a run: hide them, or take them in anew.
 */
import { absolutePath, fileProblemText, joinPath, nameOf as lastPart, parentOf } from "../project";
import { applyBaseline, type Baseline, baselineText, outcomeOf, readBaseline } from "./baseline";
import type { Io } from "./io";
import { namerOf, type OpenProblem, type OpenProject } from "./open";
import type { BaselineOutcome, Located } from "./report";

/** Which baseline file is meant: one that is named, those of the settings, or none. */
export type BaselineChoice = { readonly file: string } | "settings" | "none";

/** Findings beside those that baselines hide. */
export interface BaselinesRun {
  readonly left: readonly Located[];
  /** null where there is no baseline file. */
  readonly outcome: BaselineOutcome | null;
  readonly problems: readonly OpenProblem[];
}

/** Hides what the baselines record. A baseline that cannot be read is a problem and hides nothing. */
export function hideRecorded(
  projects: readonly OpenProject[],
  located: readonly Located[],
  choice: BaselineChoice,
  io: Io,
): BaselinesRun {
  const nameOf = namerOf(io);
  const problems: OpenProblem[] = [];
  const known = new Set<Located>();
  const stale: Parameters<typeof outcomeOf>[1][number][] = [];
  const groups = groupsOf(projects, located, choice, io);
  for (const { path, own } of groups) {
    const baseline = readBaseline(path, io);
    if ("problem" in baseline) {
      problems.push({ name: nameOf(path), place: null, message: baseline.problem });
      continue;
    }
    const { hidden, unused } = applyBaseline(baseline, own, pathOf);
    for (const one of hidden) known.add(one);
    for (const entry of unused) {
      const file = joinPath(parentOf(path), entry.file);
      if (!isUnseen(file, projects, io)) stale.push({ path: file, entry });
    }
  }
  const hidden = located.filter((one) => known.has(one));
  return {
    left: located.filter((one) => !known.has(one)),
    outcome: groups.length === 0 ? null : outcomeOf(hidden, stale, nameOf),
    problems,
  };
}

/** Writes each baseline anew, with all that was found; entries of files that were not looked at stay. */
export function recordAll(
  projects: readonly OpenProject[],
  located: readonly Located[],
  choice: BaselineChoice,
  io: Io,
): { readonly written: readonly string[] } | { readonly problem: OpenProblem } {
  const nameOf = namerOf(io);
  const written: string[] = [];
  for (const { path, own } of groupsOf(projects, located, choice, io)) {
    const before = readBaseline(path, io);
    const entries = "entries" in before ? before.entries : [];
    const kept = entries.filter((entry) => isUnseen(joinPath(parentOf(path), entry.file), projects, io));
    const problem = io.files.write(path, baselineText(path, own, pathOf, kept));
    if (problem) return { problem: { name: nameOf(path), place: null, message: fileProblemText(problem) } };
    written.push(nameOf(path));
  }
  return { written };
}

/** The baseline files, each with the findings of the projects that have it. */
function groupsOf(
  projects: readonly OpenProject[],
  located: readonly Located[],
  choice: BaselineChoice,
  io: Io,
): { readonly path: Baseline["path"]; readonly own: readonly Located[] }[] {
  const byPath = new Map<string, Set<OpenProject>>();
  for (const project of projects) {
    const path = baselineOf(project, choice, io);
    if (path !== null) byPath.set(path, (byPath.get(path) ?? new Set()).add(project));
  }
  return [...byPath].map(([path, own]) => ({
    path,
    own: located.filter(({ project }) => own.has(project)),
  }));
}

function baselineOf({ workspace }: OpenProject, choice: BaselineChoice, io: Io): string | null {
  if (choice === "none") return null;
  const named = choice === "settings" ? workspace.settings().baseline : choice.file;
  if (named === null) return null;
  const path = absolutePath(choice === "settings" ? workspace.root : io.folder, named);
  const folder = io.files.realPath(parentOf(path));
  return "path" in folder ? joinPath(folder.path, lastPart(path)) : path;
}

function pathOf({ finding, project }: Located): string {
  return joinPath(project.workspace.root, finding.place.file);
}

/** Whether a file is there but was not looked at in this run, so that nothing is known about what is in it. */
function isUnseen(path: string, projects: readonly OpenProject[], io: Io): boolean {
  const seen = projects.some(({ workspace }) => {
    const file = workspace.fileAt(path);
    return file !== null && workspace.project().files.has(file);
  });
  return !seen && !("problem" in io.files.look(path));
}
