/**
 * Everything an editor may offer to do at a stretch of a file: repairs, declarations that are missing, allowances, the move
 * to the machine's file, the refit of what is owed at the end, all safe repairs in one.
 */
import type { Project } from "../model";
import { DEFAULT_RULE_SETTINGS, type Finding, type RuleSettings } from "../rules";
import { type Action, actions, fixAll, type Stretch, touchesPlace } from "./actions";
import { missingDeclarations } from "./missing";
import { moveToMachine } from "./move";
import { refitAction } from "./refit-action";

/** What may be done, best first; `findings` are those of the file. */
export function offeredActions(
  project: Project,
  path: string,
  findings: readonly Finding[],
  stretch: Stretch,
  settings: RuleSettings = DEFAULT_RULE_SETTINGS,
): readonly Action[] {
  const file = project.files.get(path);
  if (!file) return [];
  const here = findings.filter((f) => f.place.file === path && touchesPlace(stretch, f.place));
  const repairs = actions(file, findings, stretch);
  const move = moveToMachine(project, file, stretch.from.line);
  const refit = refitAction(project, file, stretch, settings);
  const all = fixAll(file, findings);
  return [
    ...repairs.filter((a) => a.kind === "fix"),
    ...missingDeclarations(project, file, here),
    ...repairs.filter((a) => a.kind !== "fix"),
    ...(move ? [move] : []),
    ...(refit ? [refit] : []),
    ...(all ? [all] : []),
  ];
}
