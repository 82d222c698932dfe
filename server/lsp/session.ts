/**
 * What every part of the server has in hand.
 */
import type { ClientCapabilities, Connection } from "vscode-languageserver/node";
import type { Abilities } from "./convert";
import type { Life } from "./guard";
import type { Projects } from "./projects";

/** What a client said of itself. */
export interface Client extends Abilities {
  /** It asks for diagnostics itself; else they are sent to it. */
  readonly pulls: boolean;
  /** It can be told to ask again. */
  readonly refreshes: boolean;
  /** It watches files when it is asked to. */
  readonly watches: boolean;
  /** It takes edits that name the version of the document they are for. */
  readonly versionedEdits: boolean;
}

export interface Session {
  readonly connection: Connection;
  readonly life: Life;
  readonly projects: Projects;
  /** Set when the client has said what it can do. */
  client: Client;
}

/** What a client can do. */
export function clientOf({ textDocument, workspace }: ClientCapabilities): Client {
  const shown = textDocument?.publishDiagnostics ?? textDocument?.diagnostic;
  return {
    related: shown?.relatedInformation ?? false,
    markdown: textDocument?.hover?.contentFormat?.includes("markdown") ?? false,
    nestedSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport ?? false,
    pulls: textDocument?.diagnostic !== undefined,
    refreshes: workspace?.diagnostics?.refreshSupport ?? false,
    watches: workspace?.didChangeWatchedFiles?.dynamicRegistration ?? false,
    versionedEdits: workspace?.workspaceEdit?.documentChanges ?? false,
  };
}
