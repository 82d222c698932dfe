/**
 * The sheet as one self-contained web page: the live preview, and a file for a tablet in the workshop.
 *
 * Everything is in the file; its content policy lets it reach nothing else. It reads and prints without the script;
 * with it, measured values are held against their limits while they are typed. All text is escaped.
 */
import { say } from "../phrases/sheet";
import type { Sheet } from "./blocks";
import { anchor, attribute, nodesToHtml, text } from "./html-nodes";
import { SCRIPT, SCRIPT_HASH } from "./html-script";
import { STYLE } from "./html-style";
import { layOut } from "./layout";
import type { Heading, Layout } from "./nodes";

/** Makes the page of a sheet. The same sheet gives the same text. */
export function renderHtml(sheet: Sheet): string {
  const layout = layOut(sheet);
  const policy = `default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src '${SCRIPT_HASH}'; base-uri 'none'; form-action 'none'`;
  const tools = `<aside class="tools" hidden><p>${text(say(sheet.words, "web-check"))}</p><button type="button" data-do="print">${text(
    say(sheet.words, "web-print"),
  )}</button> <button type="button" data-do="save">${text(say(sheet.words, "web-save"))}</button></aside>`;
  return `<!DOCTYPE html>
<html lang="${attribute(layout.lang)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>${text([layout.title, layout.running].filter((part) => part !== "").join(" – "))}</title>
<style>${pageStyle(layout)}${STYLE}</style>
</head>
<body${layout.draft === "" ? "" : ` class="draft" data-draft="${attribute(layout.draft)}"`}>
${barToHtml(layout)}
${tools}
<main>
<h1>${text(layout.title)}</h1>
${contents(sheet, layout)}${nodesToHtml(layout.nodes, layout)}
<p class="closing">${text(layout.closing)}</p>
</main>
<script>${SCRIPT}</script>
</body>
</html>
`;
}

/** What stands at the top of the page wherever it is scrolled to: document, revision, and what it is valid as. */
export function barToHtml({ running, draft, validity }: Layout): string {
  const badge = draft === "" ? "" : `<strong class="badge solid">${text(draft)}</strong>`;
  return `<header class="bar"><span>${text(running)}</span>${badge}<strong>${text(validity)}</strong></header>`;
}

/** Page size and what stands at the head and foot of each printed page. */
function pageStyle({ paper, title, running, validity, pageOf, draft }: Layout): string {
  const pages = pageOf
    .split(/(\{pages?\})/)
    .map((part) =>
      part === "{page}" ? "counter(page)" : part === "{pages}" ? "counter(pages)" : cssText(part),
    )
    .join(" ");
  const font = "font: 8.5pt sans-serif;";
  return `@page { size: ${paper === "letter" ? "letter" : "A4"}; margin: 20mm 14mm 18mm 20mm;
@top-left { content: ${cssText(title)}; ${font} } @top-right { content: ${cssText(running)}; ${font} }
@top-center { content: ${cssText(draft)}; ${font} font-weight: bold }
@bottom-left { content: ${cssText(validity)}; ${font} font-weight: bold } @bottom-right { content: ${pages}; ${font} } }
`;
}

/** A CSS string; nothing in it can end the string or the style element. */
function cssText(words: string): string {
  return `"${words.replace(/[^A-Za-z0-9 .,:()-]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 0).toString(16)} `)}"`;
}

/** Links to the headings; on the screen only. */
function contents(sheet: Sheet, layout: Layout): string {
  const headings = layout.nodes.filter(
    (node): node is Heading => node.kind === "heading" && node.level === 2,
  );
  const items = headings.map(({ id, text: words }) => `<li><a href="${anchor(id)}">${text(words)}</a></li>`);
  const name = attribute(say(sheet.words, "web-contents"));
  return items.length === 0
    ? ""
    : `<nav class="contents" aria-label="${name}"><ul>${items.join("")}</ul></nav>\n`;
}
