/**
 * Answers a search for what is declared anywhere: in every project of the editor's folders, in open files or not.
 */
import {
  type CancellationToken,
  LSPErrorCodes,
  ResponseError,
  type SymbolInformation,
  type WorkspaceSymbolParams,
} from "vscode-languageserver/node";
import { searchSymbols } from "../features";
import { locationOf, symbolKindOf } from "./convert";
import { answer, query } from "./guard";
import type { Session } from "./session";

/** Answers `workspace/symbol`. */
export function answerSymbols(session: Session): void {
  const { projects } = session;
  const handler = async (
    params: WorkspaceSymbolParams,
    token: CancellationToken,
  ): Promise<SymbolInformation[] | ResponseError<void>> => {
    const found: { cost: number; symbol: SymbolInformation }[] = [];
    for (const workspace of projects.all()) {
      // A project at a time, so that a cancellation is heard.
      await new Promise((done) => setImmediate(done));
      if (token.isCancellationRequested)
        return new ResponseError(LSPErrorCodes.RequestCancelled, "Cancelled.");
      for (const { label, kind, container, place, cost } of searchSymbols(
        workspace.project(),
        params.query,
      )) {
        const location = locationOf(place, (file) => projects.uriOf(workspace, file));
        const symbol = { name: label, kind: symbolKindOf(kind), location };
        found.push({ cost, symbol: container === "" ? symbol : { ...symbol, containerName: container } });
      }
    }
    return found.sort((a, b) => a.cost - b.cost).map(({ symbol }) => symbol);
  };
  answer(session, "workspace/symbol", query, handler);
}
