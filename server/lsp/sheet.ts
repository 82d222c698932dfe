/**
 * Answers the editor extension's request for a sheet to show beside the text.
 */
import { isUnread, linesOf, proceduresUsing } from "../features";
import type { Procedure } from "../model";
import { previewText } from "../phrases/preview";
import type { Files } from "../project";
import { renderPreview } from "../sheet/preview";
import { answer, document } from "./guard";
import type { NoSheet, SheetAnswer, SheetParams, SheetShown } from "./requests";
import type { Session } from "./session";
import { errorsOf, type Meant, meantBy, sheetOf } from "./sheet-of";

/** Answers `torquil/sheet`. */
export function answerSheet(session: Session, files: Files): void {
  answer(session, "torquil/sheet", document, (params: SheetParams): SheetAnswer => {
    const meant = meantBy(session, params);
    if (!meant) return { kind: "none", message: previewText({ code: "not-ours" }), others: [] };
    const { procedure } = meant;
    return procedure ? shown(session, meant, procedure, files) : none(session, meant);
  });
}

function shown({ projects }: Session, meant: Meant, procedure: Procedure, files: Files): SheetShown {
  const { workspace } = meant.at;
  const sheet = sheetOf(meant, procedure, files, false);
  const { lang, blocks, style, places } = renderPreview(sheet);
  const names = [...new Set(places.map(({ file }) => file))];
  return {
    kind: "sheet",
    of: { uri: projects.uriOf(workspace, procedure.thing.file), procedure: procedure.thing.name },
    title: sheet.title,
    lang,
    blocks,
    style,
    files: names.map((name) => projects.uriOf(workspace, name)),
    places: places.map(({ id, file, line }) => ({ id, file: names.indexOf(file), line })),
    lines: linesOf(procedure),
    unread: isUnread(procedure),
    notice: noticeOf(meant, procedure),
  };
}

/** The first line that cannot be read, else that there are errors. */
function noticeOf(meant: Meant, procedure: Procedure): string {
  const errors = errorsOf(meant, procedure);
  const [first] = errors;
  if (!first) return "";
  if (!isUnread(procedure)) return previewText({ code: "errors", count: errors.length });
  return previewText({ code: "unread", line: first.place.line, file: first.place.file });
}

function none({ projects }: Session, { at: { workspace, file } }: Meant): NoSheet {
  const others = proceduresUsing(workspace.project(), file);
  return {
    kind: "none",
    message: previewText({ code: "no-procedure", file, used: others.length > 0 }),
    others: others.map(({ thing }) => ({
      uri: projects.uriOf(workspace, thing.file),
      procedure: thing.name,
      title: thing.title || thing.name,
    })),
  };
}
