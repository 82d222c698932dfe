/**
 * Answers what an editor asks to know about a document.
 */
import type {
  DocumentSymbol,
  DocumentSymbolParams,
  FoldingRange,
  FoldingRangeParams,
  Hover,
  Location,
  ReferenceParams,
  SymbolInformation,
  TextDocumentPositionParams,
} from "vscode-languageserver/node";
import { definition, folding, hover, outline, references } from "../features";
import { flatSymbols, foldOf, hoverOf, locationOf, rangeOf, symbolOf } from "./convert";
import { answer, document, position } from "./guard";
import { type Modelled, modelAt } from "./model-at";
import type { Session } from "./session";

/** Answers hover, definition, references, outline and folding. */
export function answerLookups(session: Session): void {
  const { projects } = session;
  const fileOf = (uri: string): Modelled | null => modelAt(session, uri);
  answer(session, "textDocument/hover", position, (params: TextDocumentPositionParams): Hover | null => {
    const at = fileOf(params.textDocument.uri);
    const found = at && hover(at.workspace.project(), at.file, params.position, at.workspace.settings());
    return found && { contents: hoverOf(found, session.client), range: rangeOf(found.place) };
  });
  answer(
    session,
    "textDocument/definition",
    position,
    (params: TextDocumentPositionParams): Location | null => {
      const at = fileOf(params.textDocument.uri);
      const found = at && definition(at.workspace.project(), at.file, params.position);
      return found && locationOf(found.to, (file) => projects.uriOf(at.workspace, file));
    },
  );
  answer(session, "textDocument/references", position, (params: ReferenceParams): Location[] => {
    const at = fileOf(params.textDocument.uri);
    if (!at) return [];
    const declaration = params.context?.includeDeclaration ?? false;
    const found = references(at.workspace.project(), at.file, params.position, declaration);
    return found.map((place) => locationOf(place, (file) => projects.uriOf(at.workspace, file)));
  });
  answer(
    session,
    "textDocument/documentSymbol",
    document,
    (params: DocumentSymbolParams): DocumentSymbol[] | SymbolInformation[] => {
      const { uri } = params.textDocument;
      const at = fileOf(uri);
      const items = at ? outline(at.model) : [];
      return session.client.nestedSymbols ? items.map(symbolOf) : flatSymbols(items, uri);
    },
  );
  answer(session, "textDocument/foldingRange", document, (params: FoldingRangeParams): FoldingRange[] => {
    const at = fileOf(params.textDocument.uri);
    return at ? folding(at.model).map(foldOf) : [];
  });
}
