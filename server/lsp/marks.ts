/**
 * Answers what an editor asks to show in a text: uses of the name at the cursor, paths that lead somewhere, what may be
 * selected, remarks between the words.
 */
import {
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentHighlightParams,
  type DocumentLink,
  type DocumentLinkParams,
  type InlayHint,
  type InlayHintParams,
  type SelectionRange,
  type SelectionRangeParams,
} from "vscode-languageserver/node";
import { highlights, inlayHints, pathLinks, selections } from "../features";
import { rangeOf } from "./convert";
import { answer, document, position, positions, range } from "./guard";
import { modelAt } from "./model-at";
import type { Session } from "./session";

/** Answers highlights, links, selections and inlay hints. */
export function answerMarks(session: Session): void {
  const { projects } = session;
  answer(
    session,
    "textDocument/documentHighlight",
    position,
    (params: DocumentHighlightParams): DocumentHighlight[] => {
      const at = modelAt(session, params.textDocument.uri);
      const found = at ? highlights(at.workspace.project(), at.file, params.position) : [];
      return found.map(({ place, declares }) => ({
        range: rangeOf(place),
        kind: declares ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
      }));
    },
  );
  answer(session, "textDocument/documentLink", document, (params: DocumentLinkParams): DocumentLink[] => {
    const at = modelAt(session, params.textDocument.uri);
    if (!at) return [];
    return pathLinks(at.model).map(({ place, file, tooltip }) => ({
      range: rangeOf(place),
      target: projects.uriOf(at.workspace, file),
      ...(session.client.linkTooltips ? { tooltip } : {}),
    }));
  });
  answer(
    session,
    "textDocument/selectionRange",
    positions,
    (params: SelectionRangeParams): SelectionRange[] => {
      const at = modelAt(session, params.textDocument.uri);
      return params.positions.map((where) => {
        const found = at ? selections(at.model, where) : [];
        const empty: SelectionRange = { range: { start: where, end: where } };
        return [...found].reverse().reduce<SelectionRange | undefined>(nested, undefined) ?? empty;
      });
    },
  );
  answer(session, "textDocument/inlayHint", range, (params: InlayHintParams): InlayHint[] => {
    const at = modelAt(session, params.textDocument.uri);
    if (!at) return [];
    const { start, end } = params.range;
    return inlayHints(at.model, start.line, end.line, session.preferences.inlayHints).map(
      ({ line, character, text, tooltip }) => ({
        position: { line, character },
        label: text,
        tooltip,
        paddingLeft: true,
      }),
    );
  });
}

const nested = (parent: SelectionRange | undefined, own: SelectionRange["range"]): SelectionRange =>
  parent ? { range: own, parent } : { range: own };
