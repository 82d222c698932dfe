/**
 * Answers requests to change a name everywhere. What cannot be done is an error with the reason, which editors show.
 */
import {
  LSPErrorCodes,
  type Range,
  type RenameParams,
  ResponseError,
  type TextDocumentPositionParams,
  type WorkspaceEdit,
} from "vscode-languageserver/node";
import { renamable, rename } from "../features";
import { renamePhrase } from "../phrases/rename";
import { rangeOf } from "./convert";
import { workspaceEditOf } from "./edits";
import { answer, newName, position } from "./guard";
import type { Session } from "./session";

type Refused = ResponseError<void>;

const refused = (reason: string): Refused => new ResponseError(LSPErrorCodes.RequestFailed, reason);

/** Answers `prepareRename` and `rename`. */
export function answerRenames(session: Session): void {
  const { projects } = session;
  answer(
    session,
    "textDocument/prepareRename",
    position,
    (params: TextDocumentPositionParams): { range: Range; placeholder: string } | Refused => {
      const at = projects.locate(params.textDocument.uri);
      const found = at && renamable(at.workspace.project(), at.file, params.position);
      if (!found) return refused(renamePhrase("no-name"));
      if ("refused" in found) return refused(found.refused);
      return { range: rangeOf(found.place), placeholder: found.name };
    },
  );
  answer(session, "textDocument/rename", newName, (params: RenameParams): WorkspaceEdit | Refused => {
    const at = projects.locate(params.textDocument.uri);
    const done = at && rename(at.workspace.project(), at.file, params.position, params.newName);
    if (!done) return refused(renamePhrase("no-name"));
    return "refused" in done ? refused(done.refused) : workspaceEditOf(session, at, done.edits);
  });
}
