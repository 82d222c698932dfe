/**
 * Answers what each name in a document is, for highlighting.
 */
import {
  type SemanticTokens,
  SemanticTokensBuilder,
  type SemanticTokensOptions,
  type SemanticTokensParams,
} from "vscode-languageserver/node";
import { semanticTokens, TOKEN_MODIFIERS, TOKEN_TYPES } from "../features/semantic-tokens";
import { answer, document } from "./guard";
import { modelAt } from "./model-at";
import type { Session } from "./session";

/** What the server says of itself. */
export const SEMANTIC_TOKENS: SemanticTokensOptions = {
  legend: { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] },
  full: true,
};

/** Answers `textDocument/semanticTokens/full`. */
export function answerSemanticTokens(session: Session): void {
  answer(
    session,
    "textDocument/semanticTokens/full",
    document,
    ({ textDocument }: SemanticTokensParams): SemanticTokens => {
      const at = modelAt(session, textDocument.uri);
      const builder = new SemanticTokensBuilder();
      for (const { place, type, declares, warns } of at ? semanticTokens(at.model) : []) {
        const modifiers = (declares ? 1 : 0) | (warns ? 2 : 0);
        builder.push(place.line, place.start, place.end - place.start, TOKEN_TYPES.indexOf(type), modifiers);
      }
      return builder.build();
    },
  );
}
