/**
 * The page that lists the sheets of a folder, with links to them. One file that reaches for nothing, on the screen and on
 * paper; the same sheets give the same text.
 */
import { contentsWord } from "../phrases/contents";
import { type Language, type SheetWord, say } from "../phrases/sheet";
import type { Sheet } from "../sheet/blocks";
import { attribute, text } from "../sheet/html-nodes";

/** A sheet as it is listed. */
export interface Listed {
  readonly sheet: Sheet;
  /** The names of its files in the folder of the page; none where it was not printed. */
  readonly files: { readonly pdf?: string; readonly html?: string };
}

/** By this mark a page of ours is known, so that no other of the same name is written over. */
const MARK = '<meta name="generator" content="Torquil: list of sheets">';

/** Whether a text is such a page. */
export function isContentsPage(html: string): boolean {
  return html.includes(MARK);
}

const STYLE = `
:root { color-scheme: light; }
body { margin: 2rem auto; max-width: 60rem; padding: 0 1.5rem; background: #fff; color: #111; font: 16px/1.5 "Noto Sans", "Segoe UI", Roboto, Helvetica, Arial, sans-serif; overflow-wrap: break-word; }
h1 { font-size: 1.8rem; line-height: 1.2; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; min-width: 40rem; font-size: .94rem; }
th, td { border: 1px solid #6b6b6b; padding: .45rem .6rem; text-align: left; vertical-align: top; }
thead th { background: #e8e8e8; font-size: .85rem; }
tbody th { font-weight: 700; }
.short { white-space: nowrap; }
a { color: #004a91; margin-right: .8rem; white-space: nowrap; }
:focus-visible { outline: 3px solid #005eb8; outline-offset: 2px; }
.closing { margin-top: 2rem; border: 2px solid #111; padding: .8rem; font-weight: 700; }
@page { margin: 18mm 14mm; }
@media print { .scroll { overflow: visible; } body { margin: 0; max-width: none; padding: 0; font-size: 10pt; } table { min-width: 0; } thead { display: table-header-group; } tr { break-inside: avoid; } a { color: inherit; } }
`;

/** The page, its rows by document number, then by title. */
export function contentsPage(listed: readonly Listed[], language: Language): string {
  const sorted = [...listed].sort((a, b) => (sortKey(a) < sortKey(b) ? -1 : 1));
  const title = text(contentsWord(language, "title"));
  const heads = [
    contentsWord(language, "procedure"),
    ...(["fact.document", "fact.revision"] satisfies SheetWord[]).map((word) => say(language, word)),
    contentsWord(language, "state"),
    say(language, "fact.machine"),
    contentsWord(language, "sheet"),
  ];
  return `<!DOCTYPE html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
${MARK}
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">
<title>${title}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>${title}</h1>
<div class="scroll"><table>
<thead><tr>${heads.map((head) => `<th scope="col">${text(head)}</th>`).join("")}</tr></thead>
<tbody>
${sorted.map((one) => rowOf(one, language)).join("\n")}
</tbody>
</table></div>
<p class="closing">${text(say(language, "closing"))}</p>
</main>
</body>
</html>
`;
}

/** Up to so many letters a cell is one line: a number or a date is not parted at its hyphens. */
const LONGEST_LINE = 20;

function sortKey({ sheet, files }: Listed): string {
  // A sheet without a number comes after those that have one.
  return [sheet.document ?? "\uffff", sheet.title, files.pdf ?? files.html ?? ""].join("\0");
}

function rowOf({ sheet, files }: Listed, language: Language): string {
  const { revision } = sheet;
  const cells = [
    sheet.document ?? "",
    revision === undefined ? "" : [revision.name, revision.date].filter(Boolean).join(", "),
    stateOf({ sheet, files }, language),
    machineOf(sheet),
  ];
  const lang = sheet.lang === language ? "" : ` lang="${attribute(sheet.lang)}"`;
  const link = (file: string | undefined, words: string): string =>
    file === undefined ? "" : `<a href="${attribute(encodeURIComponent(file))}">${text(words)}</a>`;
  const links = link(files.pdf, "PDF") + link(files.html, contentsWord(language, "page"));
  return `<tr><th scope="row"${lang}>${text(sheet.title)}</th>${cells
    .map((cell) => `<td${cell.length > LONGEST_LINE ? "" : ' class="short"'}>${text(cell)}</td>`)
    .join("")}<td>${links}</td></tr>`;
}

function stateOf({ sheet, files }: Listed, language: Language): string {
  if (files.pdf === undefined && files.html === undefined) return contentsWord(language, "not-printed");
  if (sheet.draft) return contentsWord(language, "draft");
  return sheet.revision === undefined ? say(language, "not-released") : contentsWord(language, "released");
}

/** The machine as the sheet's title block names it. */
function machineOf(sheet: Sheet): string {
  const facts = sheet.blocks.flatMap((block) => (block.kind === "title" ? block.facts : []));
  const machine = facts.find(({ fact }) => fact === "machine");
  return (machine?.value ?? []).map((run) => run.text).join("");
}
