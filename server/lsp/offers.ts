/**
 * Answers what may be written at the cursor. What there is to read about an offer is worked out when an editor shows it,
 * where the editor asks for that.
 */
import type { CompletionItem, CompletionList, CompletionParams } from "vscode-languageserver/node";
import { type Completion, completion, completionDetails } from "../features";
import type { Project } from "../model";
import { completionOf, documentationOf } from "./convert";
import { answer, anything, position } from "./guard";
import { modelAt } from "./model-at";
import type { Session } from "./session";

/** What was offered: an editor asks about that. */
interface Offered {
  readonly project: Project;
  readonly offers: readonly Completion[];
}

/** An editor may still show an older list while it asks for a new one; so many are remembered. */
const LISTS_KEPT = 8;

/** Answers `completion` and `completionItem/resolve`. */
export function answerOffers(session: Session): void {
  const kept = new Map<number, Offered>();
  let lists = 0;
  answer(session, "textDocument/completion", position, (params: CompletionParams): CompletionList => {
    const at = modelAt(session, params.textDocument.uri);
    if (!at) return { isIncomplete: false, items: [] };
    const { client } = session;
    const { line } = params.position;
    const project = at.workspace.project();
    const offers = completion(project, at.file, params.position);
    const indent = /^[ \t]*/.exec(at.model.document.lines[line]?.text ?? "")?.[0] ?? "";
    const list = ++lists;
    kept.set(list, { project, offers });
    kept.delete(list - LISTS_KEPT);
    const items = offers.map((offer, rank): CompletionItem => {
      const item = completionOf(offer, { line, indent, rank }, client);
      if (client.resolvesOffers) return { ...item, data: { list, rank } };
      return offer.about === "" ? item : { ...item, documentation: documentationOf([offer.about], client) };
    });
    return { isIncomplete: false, items };
  });
  answer(
    session,
    "completionItem/resolve",
    anything,
    (item: CompletionItem | null): CompletionItem | null => {
      const data = item?.data as { list?: unknown; rank?: unknown } | undefined;
      const list = typeof data?.list === "number" ? kept.get(data.list) : undefined;
      const offer = typeof data?.rank === "number" ? list?.offers[data.rank] : undefined;
      if (!item || !list || !offer) return item;
      const sentences = completionDetails(list.project, offer);
      return sentences.length === 0
        ? item
        : { ...item, documentation: documentationOf(sentences, session.client) };
    },
  );
}
