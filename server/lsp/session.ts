/**
 * What every part of the server has in hand.
 */
import { type ClientCapabilities, type Connection, InsertTextMode } from "vscode-languageserver/node";
import type { Abilities } from "./convert";
import type { Life } from "./guard";
import type { Preferences } from "./preferences";
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
  /** It asks before it renames, and shows why not. */
  readonly preparesRename: boolean;
  /** It asks for the edits of an action when that is chosen. */
  readonly resolvesActions: boolean;
  /** It shows what cannot be done, and why. */
  readonly showsDisabled: boolean;
  /** It shows what a link leads to. */
  readonly linkTooltips: boolean;
  /** It can be asked for settings; it tells when they change where it is asked to; hints can be made anew. */
  readonly configures: boolean;
  readonly registersConfiguration: boolean;
  readonly refreshesHints: boolean;
}

export interface Session {
  readonly connection: Connection;
  readonly life: Life;
  readonly projects: Projects;
  /** Set when the client has said what it can do. */
  client: Client;
  /** What its user likes to see; changes whenever the client says so. */
  preferences: Preferences;
}

/** What a client can do. */
export function clientOf({ textDocument, workspace }: ClientCapabilities): Client {
  const item = textDocument?.completion?.completionItem;
  const shown = textDocument?.publishDiagnostics ?? textDocument?.diagnostic;
  return {
    related: shown?.relatedInformation ?? false,
    markdown: textDocument?.hover?.contentFormat?.includes("markdown") ?? false,
    snippets: item?.snippetSupport ?? false,
    indents: item?.insertTextModeSupport?.valueSet?.includes(InsertTextMode.adjustIndentation) ?? false,
    resolvesOffers: item?.resolveSupport?.properties?.includes("documentation") ?? false,
    markdownOffers: item?.documentationFormat?.includes("markdown") ?? false,
    nestedSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport ?? false,
    pulls: textDocument?.diagnostic !== undefined,
    refreshes: workspace?.diagnostics?.refreshSupport ?? false,
    watches: workspace?.didChangeWatchedFiles?.dynamicRegistration ?? false,
    versionedEdits: workspace?.workspaceEdit?.documentChanges ?? false,
    preparesRename: textDocument?.rename?.prepareSupport ?? false,
    resolvesActions: textDocument?.codeAction?.resolveSupport?.properties?.includes("edit") ?? false,
    showsDisabled: textDocument?.codeAction?.disabledSupport ?? false,
    linkTooltips: textDocument?.documentLink?.tooltipSupport ?? false,
    configures: workspace?.configuration ?? false,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration ?? false,
    refreshesHints: workspace?.inlayHint?.refreshSupport ?? false,
  };
}
