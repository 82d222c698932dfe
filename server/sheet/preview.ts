/**
 * The sheet as it is shown beside the text while it is written: the page's own blocks, one text each, so that only what
 * has changed need be drawn anew; and where what has an id in them is written. Its colours are the surroundings'; the
 * colours of safety stay as they are printed.
 */
import type { Sheet } from "./blocks";
import { barToHtml } from "./html";
import { nodesToHtml, text } from "./html-nodes";
import { STYLE } from "./html-style";
import { layOut } from "./layout";

/** Where an item of the sheet is written; the line from 0. */
export interface Written {
  readonly id: string;
  readonly file: string;
  readonly line: number;
}

export interface Preview {
  readonly lang: string;
  readonly blocks: readonly string[];
  readonly style: string;
  readonly places: readonly Written[];
}

/** Makes the preview of a sheet. The same sheet gives the same preview. */
export function renderPreview(sheet: Sheet): Preview {
  const layout = layOut(sheet);
  return {
    lang: layout.lang,
    blocks: [
      barToHtml(layout),
      `<h1>${text(layout.title)}</h1>`,
      ...layout.nodes.map((node) => withoutStyles(nodesToHtml([node], layout))),
      `<p class="closing">${text(layout.closing)}</p>`,
    ],
    style: STYLE,
    places: writtenIn(sheet.blocks),
  };
}

/** A strict content policy lets no element carry its own style: the widths of columns are said as widths. */
function withoutStyles(html: string): string {
  return html.replace(/<col style="width:([\d.]+%)">/g, '<col width="$1">');
}

/** Every item of the sheet that says where it is written, outer ones before those in them. */
function writtenIn(value: unknown): Written[] {
  if (Array.isArray(value)) return value.flatMap(writtenIn);
  if (typeof value !== "object" || value === null) return [];
  const { id, source } = value as { id?: unknown; source?: { file: string; line: number } };
  const own = typeof id === "string" && source ? [{ id, file: source.file, line: source.line }] : [];
  return [...own, ...Object.values(value).flatMap(writtenIn)];
}
