/**
 * Bars on printed sheets: each project as it is now compared with itself at a revision of its git repository.
 */

import { headerOf } from "../facts";
import { barsOf, type Comparison, compareRevisions, goneText, lineKey } from "../features/compare";
import type { Procedure, Project } from "../model";
import { createWorkspace, SETTINGS_FILE } from "../project";
import { flatSettings } from "../project/flat-settings";
import { gitAt } from "../project/git";
import type { Sheet } from "../sheet/blocks";
import { markChanged } from "../sheet/changed";
import type { OpenProject } from "./open";

/** Puts bars on the sheet of a procedure. */
export type Marking = (sheet: Sheet, procedure: Procedure, project: OpenProject) => Sheet;

interface Compared {
  readonly comparison: Comparison;
  readonly before: Project;
}

/** Compares projects with how they were at a revision; a sentence where there is no such revision, or no repository. */
export function markingSince(
  name: string,
  projects: readonly OpenProject[],
): Marking | { readonly wrong: string } {
  const compared = new Map<OpenProject, Compared>();
  for (const project of projects) {
    const { root } = project.workspace;
    const git = gitAt(root);
    if ("problem" in git) return { wrong: git.problem };
    const revision = git.revision(name);
    if ("problem" in revision) return { wrong: revision.problem };
    const old = createWorkspace(revision.files, root);
    const [before, after] = [old, project.workspace].map((workspace) => ({
      project: workspace.project(),
      settings: { file: SETTINGS_FILE, values: flatSettings(workspace.settings()), text: null },
    })) as [Given, Given];
    compared.set(project, {
      comparison: compareRevisions(before, after, { lineEnds: "ignore" }),
      before: before.project,
    });
  }
  return (sheet, procedure, project) => {
    const known = compared.get(project);
    if (!known) return sheet;
    const bars = barsOf(known.comparison, project.workspace.project(), procedure);
    return markChanged(sheet, {
      revision: nameOf(name, known.before, procedure),
      isChanged: (file, line) => bars.lines.has(lineKey(file, line)),
      removed: bars.removed.map(goneText),
    });
  };
}

type Given = Parameters<typeof compareRevisions>[0];

/** What the workshop calls the revision: its letter, where the procedure had one that it no longer has; else git's name. */
function nameOf(name: string, before: Project, procedure: Procedure): string {
  const was = before.files
    .get(procedure.thing.file)
    ?.procedures.find((one) => one.thing.name === procedure.thing.name);
  const mark = was && headerOf(was.thing.entry).revisions[0]?.mark;
  return mark && mark !== headerOf(procedure.thing.entry).revisions[0]?.mark ? mark : name;
}
