/**
 * The refit as an editor offers it: anywhere in a procedure at whose end something is owed, and at each finding that says so.
 */
import type { FileModel, Project } from "../model";
import { refitPhrase as say } from "../phrases/refit";
import type { Finding } from "../rules";
import { type Action, type Stretch, touchesPlace } from "./actions";
import { OWED, owesRefit, type Refit, refit } from "./refit";

/** Writes the refit of the procedure that a stretch lies in; null where nothing is owed there. */
export function refitAction(
  project: Project,
  file: FileModel,
  findings: readonly Finding[],
  stretch: Stretch,
): Action | null {
  const { line } = stretch.from;
  const procedure = file.procedures.find(
    ({ thing }) => thing.line <= line && line < thing.line + thing.entry.lineCount,
  );
  if (!procedure || !file.document.tree.balanced || !owesRefit(procedure)) return null;
  const here = findings.filter((f) => OWED.has(f.code) && touchesPlace(stretch, f.place));
  // Only when it is chosen: offers are asked for whenever the cursor moves, and this tries many texts.
  let made: Refit | null = null;
  const make = (): Refit => {
    made ??= refit(project, procedure);
    return made;
  };
  return {
    title: say("action", { title: procedure.thing.title || procedure.thing.name }),
    kind: "refit",
    safe: false,
    findings: here,
    get edits() {
      return make().edits;
    },
    get leaves() {
      return make().problems;
    },
  };
}
