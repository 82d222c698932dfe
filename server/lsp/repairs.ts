/**
 * Answers what an editor asks to have changed: repairs and formatting. What it has on its side is never trusted for
 * places: some clients count columns in bytes, so repairs are worked out anew from the range that is asked about.
 */
import {
  type CodeAction,
  type CodeActionParams,
  type DocumentFormattingParams,
  LSPErrorCodes,
  type Range,
  ResponseError,
  type TextEdit,
  type WorkspaceEdit,
} from "vscode-languageserver/node";
import { type Action, diagnostics, formatting, inUsualForm, offeredActions } from "../features";
import { actionPhrase as say } from "../phrases/actions";
import { spellUnit } from "../project/spelling";
import { ACTION_KINDS, diagnosticOf, editOf, wanted } from "./convert";
import { workspaceEditOf } from "./edits";
import { answer, anything, document, range } from "./guard";
import { modelAt } from "./model-at";
import type { Located } from "./projects";
import type { Session } from "./session";

/** By what an action that was offered is found again: where it was asked for, and what it is called. */
interface Asked {
  readonly uri: string;
  readonly range: Range;
  readonly title: string;
  readonly kind: Action["kind"];
}

/** Answers requests for repairs and for formatting. */
export function answerRepairs(session: Session): void {
  const { projects } = session;
  answer(session, "textDocument/codeAction", range, (params: CodeActionParams): CodeAction[] => {
    const { uri } = params.textDocument;
    const at = modelAt(session, uri);
    if (!at) return [];
    return offeredAt(at, params.range)
      .filter((action) => wanted(ACTION_KINDS[action.kind], params.context?.only))
      .filter((action) => action.disabled === undefined || session.client.showsDisabled)
      .map((action): CodeAction => {
        const { title, kind } = action;
        const plain = codeActionOf(session, at, action);
        if (action.disabled !== undefined) return plain;
        const asked: Asked = { uri, range: params.range, title, kind };
        return session.client.resolvesActions
          ? { ...plain, data: asked }
          : { ...plain, edit: editOfAction(session, at, action) };
      });
  });
  answer(session, "codeAction/resolve", anything, (given: CodeAction | null) => resolved(session, given));
  answer(session, "textDocument/formatting", document, (params: DocumentFormattingParams): TextEdit[] => {
    const located = projects.locate(params.textDocument.uri);
    const model = located?.workspace.project().files.get(located.file);
    const edits = model ? formatting(model.document, spellUnit) : [];
    if (edits) return edits.map(editOf);
    void session.connection.window.showWarningMessage(say("not-formatted"));
    return [];
  });
}

function offeredAt({ workspace, file }: Located, { start, end }: Range): readonly Action[] {
  const findings = workspace.check().get(file) ?? [];
  const { rules } = workspace.settings();
  return offeredActions(workspace.project(), file, findings, { from: start, to: end }, rules);
}

/** An action with its edits, worked out anew from the text as it stands now; an editor may ask late, or more than once. */
function resolved(session: Session, given: CodeAction | null): CodeAction | null | ResponseError<void> {
  const asked = given?.data as Partial<Asked> | undefined;
  if (!given || typeof asked?.uri !== "string" || range({ textDocument: asked, range: asked.range }) !== null)
    return given;
  const at = modelAt(session, asked.uri);
  const offered = at ? offeredAt(at, asked.range as Range) : [];
  const action = offered.find((one) => one.title === asked.title && one.kind === asked.kind);
  if (!at || !action || action.disabled !== undefined)
    return new ResponseError(LSPErrorCodes.ContentModified, say("text-changed"));
  const edit = editOfAction(session, at, action);
  if (action.leaves?.length) void session.connection.window.showWarningMessage(action.leaves.join("\n"));
  return { ...given, edit };
}

function editOfAction(session: Session, at: Located, { edits }: Action): WorkspaceEdit {
  return workspaceEditOf(session, at, inUsualForm(at.workspace.project(), edits));
}

function codeActionOf(session: Session, located: Located, action: Action): CodeAction {
  const { projects, client } = session;
  const uriOf = (file: string): string => projects.uriOf(located.workspace, file);
  return {
    title: action.title,
    kind: ACTION_KINDS[action.kind],
    diagnostics: diagnostics(action.findings).map((d) => diagnosticOf(d, uriOf, client)),
    ...(action.kind === "fix" && action.safe ? { isPreferred: true } : {}),
    ...(action.disabled === undefined ? {} : { disabled: { reason: action.disabled } }),
  };
}
