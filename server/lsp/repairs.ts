/**
 * Answers what an editor asks to have changed: repairs and formatting. What it has on its side is never trusted for
 * places: some clients count columns in bytes, so repairs are worked out anew from the range that is asked about.
 */
import type {
  CodeAction,
  CodeActionParams,
  DocumentFormattingParams,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver/node";
import { type Action, actions, diagnostics, fixAll, formatting } from "../features";
import { actionPhrase as say } from "../phrases/actions";
import { spellUnit } from "../project/spelling";
import type { TextEdit as FileEdit } from "../rules";
import { ACTION_KINDS, diagnosticOf, editOf, wanted } from "./convert";
import { answer, document, range } from "./guard";
import type { Located } from "./projects";
import type { Session } from "./session";

/** Answers requests for repairs and for formatting. */
export function answerRepairs(session: Session): void {
  const { projects } = session;
  answer(session, "textDocument/codeAction", range, (params: CodeActionParams): CodeAction[] => {
    const located = projects.locate(params.textDocument.uri);
    const model = located?.workspace.project().files.get(located.file);
    if (!located || !model) return [];
    const findings = located.workspace.check().get(located.file) ?? [];
    const stretch = { from: params.range.start, to: params.range.end };
    const all = fixAll(model, findings);
    return [...actions(model, findings, stretch), ...(all ? [all] : [])]
      .filter((action) => wanted(ACTION_KINDS[action.kind], params.context?.only))
      .map((action) => codeActionOf(session, located, action));
  });
  answer(session, "textDocument/formatting", document, (params: DocumentFormattingParams): TextEdit[] => {
    const located = projects.locate(params.textDocument.uri);
    const model = located?.workspace.project().files.get(located.file);
    const edits = model ? formatting(model.document, spellUnit) : [];
    if (edits) return edits.map(editOf);
    void session.connection.window.showWarningMessage(say("not-formatted"));
    return [];
  });
}

function codeActionOf(session: Session, located: Located, action: Action): CodeAction {
  const { projects, client } = session;
  const uriOf = (file: string): string => projects.uriOf(located.workspace, file);
  return {
    title: action.title,
    kind: ACTION_KINDS[action.kind],
    diagnostics: diagnostics(action.findings).map((d) => diagnosticOf(d, uriOf, client)),
    ...(action.kind === "fix" && action.safe ? { isPreferred: true } : {}),
    edit: workspaceEditOf(session, uriOf, action.edits),
  };
}

function workspaceEditOf(
  { projects, client }: Session,
  uriOf: (file: string) => string,
  edits: readonly FileEdit[],
): WorkspaceEdit {
  const byUri = new Map<string, TextEdit[]>();
  for (const edit of edits) {
    const uri = uriOf(edit.file);
    byUri.set(uri, [...(byUri.get(uri) ?? []), editOf(edit)]);
  }
  if (!client.versionedEdits) return { changes: Object.fromEntries(byUri) };
  return {
    documentChanges: [...byUri].map(([uri, list]) => ({
      textDocument: { uri, version: projects.opened(uri)?.version ?? null },
      edits: list,
    })),
  };
}
