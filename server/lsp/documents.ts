/**
 * Takes in what the client says has changed: documents, files on the disk, folders.
 */
import {
  type DidChangeTextDocumentParams,
  DidChangeWatchedFilesNotification,
  type DidChangeWatchedFilesParams,
  type DidChangeWorkspaceFoldersParams,
  type DidCloseTextDocumentParams,
  type DidOpenTextDocumentParams,
  type DidSaveTextDocumentParams,
  FileChangeType,
  type TextDocumentContentChangeEvent,
} from "vscode-languageserver/node";
import type { Edit } from "../../grammar";
import { SETTINGS_FILE } from "../project";
import { changes, diskChanges, document, folderChanges, openedDocument, take } from "./guard";
import type { Session } from "./session";

/** What is watched on the disk: procedures, settings, and the pictures that procedures show. */
const WATCHED = ["**/*.torquil", "**/torquil.json", "**/*.{png,jpg,jpeg,gif,webp,svg}"];

/** Takes in changes; `news` is called after each, with the document that changed where it is one. */
export function takingChanges(session: Session, news: (uri?: string) => void): void {
  const { projects } = session;
  take<DidOpenTextDocumentParams>(session, "textDocument/didOpen", openedDocument, ({ textDocument }) => {
    projects.open(textDocument.uri, textDocument.version, textDocument.text);
    news(textDocument.uri);
  });
  take<DidChangeTextDocumentParams>(
    session,
    "textDocument/didChange",
    changes,
    ({ textDocument, contentChanges }) => {
      const { uri, version } = textDocument;
      if (!projects.change(uri, version ?? 0, contentChanges.map(editOf)))
        session.connection.console.warn(`${uri} was changed, but is not open.`);
      else news(uri);
    },
  );
  take<DidCloseTextDocumentParams>(session, "textDocument/didClose", document, ({ textDocument }) => {
    projects.close(textDocument.uri);
    news();
  });
  take<DidSaveTextDocumentParams>(session, "textDocument/didSave", document, ({ textDocument: { uri } }) => {
    // A client that does not watch files has no other way to tell that something on the disk is new.
    if (session.client.watches) return;
    if (isSettings(uri)) projects.diskChanged([{ uri, appearedOrVanished: true }]);
    else projects.lookAgain();
    news();
  });
  take<DidChangeWatchedFilesParams>(session, "workspace/didChangeWatchedFiles", diskChanges, (params) => {
    projects.diskChanged(
      params.changes.map(({ uri, type }) => ({ uri, appearedOrVanished: type !== FileChangeType.Changed })),
    );
    news();
  });
  take<DidChangeWorkspaceFoldersParams>(
    session,
    "workspace/didChangeWorkspaceFolders",
    folderChanges,
    ({ event }) => {
      const gone = new Set(event.removed.map((f) => f.uri));
      const kept = projects.folders().filter((uri) => !gone.has(uri));
      projects.setFolders([...kept, ...event.added.map((f) => f.uri)]);
      news();
    },
  );
}

/** Asks the client to say when a file on the disk changes. */
export function watchFiles({ connection, client }: Session): void {
  if (!client.watches) return;
  const watchers = WATCHED.map((globPattern) => ({ globPattern }));
  connection.client
    .register(DidChangeWatchedFilesNotification.type, { watchers })
    .catch((error: unknown) => connection.console.warn(`Files are not watched: ${String(error)}`));
}

const isSettings = (uri: string): boolean => uri.endsWith(`/${SETTINGS_FILE}`);

function editOf(change: TextDocumentContentChangeEvent): Edit | { readonly text: string } {
  return "range" in change && change.range ? { ...change.range, text: change.text } : { text: change.text };
}
