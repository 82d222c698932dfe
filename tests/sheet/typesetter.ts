/** The real compiler and fonts, loaded once for all tests of the sheet. */
import { loadTypesetter } from "../../server/project/fonts";
import type { Sheet } from "../../server/sheet/blocks";
import { layOut } from "../../server/sheet/layout";
import { renderPdf, type Typesetter, typeset } from "../../server/sheet/pdf";

const loaded = loadTypesetter();
if ("error" in loaded) throw new Error(loaded.error);

export const typesetter: Typesetter = loaded.typesetter;

/** The PDF of a sheet that must become one. */
export function pdfOf(sheet: Sheet): { bytes: Buffer; pages: number } {
  const result = renderPdf(sheet, typesetter);
  if ("error" in result) throw new Error(result.error.message);
  return { bytes: Buffer.from(result.pdf), pages: result.pages };
}

/** Every piece of text in the paragraphs of the set document, as the compiler holds it. */
export function textsOf(sheet: Sheet): string[] {
  const set = typeset(layOut(sheet), typesetter);
  if ("error" in set) throw new Error(set.error.message);
  return leaves(set.compiler.query(set.document, { selector: "par" }));
}

function leaves(value: unknown): string[] {
  if (value === null || typeof value !== "object") return [];
  const own = "func" in value && value.func === "text" && "text" in value ? [String(value.text)] : [];
  return [...own, ...Object.values(value).flatMap(leaves)];
}
