/**
 * Answers the editor extension's request to print a sheet: the whole file, or why there is none.
 */
import type { Procedure } from "../model";
import { previewText } from "../phrases/preview";
import { outputNames } from "../press/names";
import { type Press, pressBeside } from "../press/press";
import type { Files } from "../project";
import { type Finding, wordsOf } from "../rules";
import type { Sheet } from "../sheet/blocks";
import { renderHtml } from "../sheet/html";
import { answer, document, type Look } from "./guard";
import type { NotPrinted, PrintAnswer, PrintParams } from "./requests";
import type { Session } from "./session";
import { errorsOf, meantBy, sheetOf } from "./sheet-of";

/** So many errors are named. */
const MOST_NAMED = 10;

/** Answers `torquil/print`. */
export function answerPrint(session: Session, files: Files): void {
  answer(session, "torquil/print", wish, async (params: PrintParams): Promise<PrintAnswer> => {
    const meant = meantBy(session, params);
    if (!meant) return refused(previewText({ code: "not-ours" }));
    const { procedure, at } = meant;
    if (!procedure) return refused(previewText({ code: "no-procedure", file: at.file, used: false }));
    const errors = errorsOf(meant, procedure);
    if (errors.length > 0 && !params.draft) return withErrors(procedure, errors);
    return print(sheetOf(meant, procedure, files, params.draft), procedure, params.form);
  });
}

const wish: Look = (params) => {
  const form = (params as { form?: unknown } | null)?.form;
  return document(params) ?? (form === "pdf" || form === "html" ? null : 'form must be "pdf" or "html".');
};

function refused(message: string, findings: readonly string[] = []): NotPrinted {
  return { kind: "refused", message, findings };
}

function withErrors({ thing }: Procedure, errors: readonly Finding[]): NotPrinted {
  const named = errors
    .slice(0, MOST_NAMED)
    .map((one) => `${one.place.file}:${one.place.line + 1}: ${wordsOf(one, one.message)}`);
  const title = thing.title || thing.name;
  return refused(previewText({ code: "refused", title, count: errors.length }), named);
}

async function print(sheet: Sheet, { thing }: Procedure, form: "pdf" | "html"): Promise<PrintAnswer> {
  const [name] = outputNames([{ document: sheet.document ?? "", name: thing.name }]);
  const printed = form === "html" ? { text: renderHtml(sheet) } : await pressed(sheet);
  if ("error" in printed) return refused(printed.error);
  const bytes = "text" in printed ? Buffer.from(printed.text) : Buffer.from(printed.pdf);
  return { kind: "printed", name: `${name}.${form}`, bytes: bytes.toString("base64") };
}

/** Sets a sheet in a process of its own: the compiler keeps megabytes of each, and this program lives long. */
async function pressed(sheet: Sheet): ReturnType<Press["set"]> {
  const press = pressBeside();
  try {
    return await press.set(sheet);
  } finally {
    press.close();
  }
}
