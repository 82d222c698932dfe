/**
 * The refit as an editor offers it: anywhere in a procedure at whose end something is owed.
 */
import type { FileModel, Project } from "../model";
import { refitPhrase as say } from "../phrases/refit";
import type { RuleSettings } from "../rules";
import type { Action, Stretch } from "./actions";
import { owesRefit, type Refit, refit } from "./refit";

/** Writes the refit of the procedure that a stretch lies in; null where nothing is owed there. */
export function refitAction(
  project: Project,
  file: FileModel,
  { from: { line } }: Stretch,
  settings: RuleSettings,
): Action | null {
  const procedure = file.procedures.find(
    ({ thing }) => thing.line <= line && line < thing.line + thing.entry.lineCount,
  );
  if (!procedure || !file.document.tree.balanced || !owesRefit(procedure)) return null;
  // Only when it is chosen: offers are asked for whenever the cursor moves, and this tries many texts.
  let made: Refit | null = null;
  const make = (): Refit => {
    made ??= refit(project, procedure, settings);
    return made;
  };
  return {
    title: say("action", { title: procedure.thing.title || procedure.thing.name }),
    kind: "refit",
    safe: false,
    // Which of them it can repair is known only when it is made.
    findings: [],
    get edits() {
      return make().edits;
    },
    get leaves() {
      return make().problems;
    },
  };
}
