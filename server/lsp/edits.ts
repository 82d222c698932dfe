/**
 * Edits of files as an editor takes them: for one version of a document, where the client can tell versions apart.
 */
import type { TextEdit, WorkspaceEdit } from "vscode-languageserver/node";
import type { TextEdit as FileEdit } from "../rules";
import { editOf } from "./convert";
import type { Located } from "./projects";
import type { Session } from "./session";

/** Edits of the files of a project, open ones under their version. */
export function workspaceEditOf(
  { projects, client }: Session,
  { workspace }: Located,
  edits: readonly FileEdit[],
): WorkspaceEdit {
  const byUri = new Map<string, TextEdit[]>();
  for (const edit of edits) {
    const uri = projects.uriOf(workspace, edit.file);
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
