/**
 * The language server: a connection, the projects that the editor has open, and an answer to each request. What is
 * answered is worked out by the features; here it is only asked for and put into the shapes of the protocol.
 */
import {
  type Connection,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  PositionEncodingKind,
  ResponseError,
  TextDocumentSyncKind,
} from "vscode-languageserver/node";
import { parseLine } from "../../grammar";
import type { Files } from "../project";
import { answerCompare } from "./compare";
import { askPreferences, takingPreferences, watchPreferences } from "./configure";
import { ACTION_KINDS } from "./convert";
import { diagnosing } from "./diagnose";
import { takingChanges, watchFiles } from "./documents";
import type { Life } from "./guard";
import { answerLookups } from "./lookups";
import { answerMarks } from "./marks";
import { answerOffers } from "./offers";
import { readPreferences, USUAL_PREFERENCES } from "./preferences";
import { answerPrint } from "./print";
import { createProjects } from "./projects";
import { answerRenames } from "./renames";
import { answerRepairs } from "./repairs";
import { answerSemanticTokens, SEMANTIC_TOKENS } from "./semantic-tokens";
import { type Client, clientOf, type Session } from "./session";
import { answerSheet } from "./sheet";
import { answerState } from "./state";
import { answerSymbols } from "./symbols";

/** Serves a connection, and tells how far it has come. */
export function serve(connection: Connection, files: Files): Readonly<Life> {
  const life: Life = { initialized: false, shutDown: false };
  const session: Session = {
    connection,
    life,
    projects: createProjects(files),
    client: clientOf({}),
    preferences: USUAL_PREFERENCES,
  };
  connection.onInitialize((params) => {
    if (life.initialized)
      return new ResponseError<never>(
        ErrorCodes.InvalidRequest,
        "The server is initialized already.",
      ) as never;
    session.client = clientOf(params.capabilities ?? {});
    session.preferences = readPreferences(params.initializationOptions);
    session.projects.setFolders(foldersOf(params));
    life.initialized = true;
    return capabilitiesOf(session.client);
  });
  connection.onInitialized(() => {
    watchFiles(session);
    watchPreferences(session);
    void askPreferences(session);
    // The grammar is built when the first line is read: better now than under the first keystroke.
    setImmediate(() => parseLine("torquil 1"));
  });
  connection.onShutdown(() => {
    life.shutDown = true;
  });
  takingChanges(session, diagnosing(session));
  takingPreferences(session);
  answerLookups(session);
  answerOffers(session);
  answerMarks(session);
  answerSymbols(session);
  answerRenames(session);
  answerRepairs(session);
  answerSemanticTokens(session);
  answerSheet(session, files);
  answerPrint(session, files);
  answerCompare(session);
  answerState(session);
  return life;
}

function foldersOf({ workspaceFolders, rootUri }: InitializeParams): readonly string[] {
  if (Array.isArray(workspaceFolders)) return workspaceFolders.map((folder) => folder.uri);
  return typeof rootUri === "string" ? [rootUri] : [];
}

function capabilitiesOf({
  pulls,
  preparesRename,
  resolvesOffers,
  resolvesActions,
}: Client): InitializeResult {
  return {
    serverInfo: { name: "torquil" },
    capabilities: {
      positionEncoding: PositionEncodingKind.UTF16,
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: true },
      hoverProvider: true,
      completionProvider: { triggerCharacters: [" ", ",", '"'], resolveProvider: resolvesOffers },
      definitionProvider: true,
      referencesProvider: true,
      documentSymbolProvider: true,
      foldingRangeProvider: true,
      workspaceSymbolProvider: true,
      documentHighlightProvider: true,
      documentLinkProvider: {},
      selectionRangeProvider: true,
      inlayHintProvider: true,
      semanticTokensProvider: SEMANTIC_TOKENS,
      renameProvider: preparesRename ? { prepareProvider: true } : true,
      documentFormattingProvider: true,
      codeActionProvider: {
        codeActionKinds: [...new Set(Object.values(ACTION_KINDS))],
        resolveProvider: resolvesActions,
      },
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
      ...(pulls
        ? {
            diagnosticProvider: {
              identifier: "torquil",
              interFileDependencies: true,
              workspaceDiagnostics: true,
            },
          }
        : {}),
    },
  };
}
