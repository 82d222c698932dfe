/**
 * Draws the laid-out sheet's nodes as HTML. Every text goes through `text` or `attribute`, the only two ways in.
 */
import type { Range } from "./blocks";
import type {
  Atom,
  Drawn,
  Facts,
  Field,
  Frame,
  Layout,
  Line,
  Node,
  Panel,
  Picture,
  Step,
  Table,
  Tick,
} from "./nodes";

/** Text as HTML content. */
export function text(words: string): string {
  return words.replace(/[&<>]/g, (sign) => (sign === "&" ? "&amp;" : sign === "<" ? "&lt;" : "&gt;"));
}

/** Text as the value of an attribute in double quotes. */
export function attribute(words: string): string {
  return text(words).replace(/"/g, "&quot;");
}

/** A link to the item with this id. */
export function anchor(id: string): string {
  return attribute(`#${encodeURIComponent(id)}`);
}

/** The nodes, one after the other. */
export function nodesToHtml(nodes: readonly Node[], layout: Layout): string {
  return nodes.map((node) => toHtml(node, layout)).join("\n");
}

function toHtml(node: Node, layout: Layout): string {
  switch (node.kind) {
    case "heading":
      return `<h${node.level} class="${node.look}${changedClass(node)}"${idOf(node)}>${said(node, layout)}${text(node.text)}</h${node.level}>`;
    case "facts":
      return facts(node, layout);
    case "line":
      return line(node, layout);
    case "table":
      return table(node, layout);
    case "panel":
      return panel(node, layout);
    case "step":
      return step(node, layout);
    case "frame":
      return frame(node, layout);
    case "picture":
      return picture(node, layout);
    case "drawing":
      return drawing(node, layout);
  }
}

function idOf({ id }: { readonly id: string }): string {
  return id === "" ? "" : ` id="${attribute(id)}"`;
}

function changedClass({ changed }: { readonly changed: boolean }): string {
  return changed ? " changed" : "";
}

/** What the margin bar shows, for whoever cannot see it. */
function said({ changed }: { readonly changed: boolean }, layout: Layout): string {
  return changed ? `<span class="unseen">${text(layout.changed)}: </span>` : "";
}

function facts(node: Facts, layout: Layout): string {
  const rows = node.rows.map(
    (row) =>
      `<div class="fact${changedClass(row)}"${idOf(row)}><dt>${said(row, layout)}${text(row.name)}</dt><dd>${atoms(row.value)}</dd></div>`,
  );
  return `<dl class="facts"${idOf(node)}>\n${rows.join("\n")}\n</dl>`;
}

function line(node: Line, layout: Layout): string {
  const mark = node.mark === "" ? "" : `<span class="mark">${text(node.mark)}</span> `;
  return `<p class="${node.look}${changedClass(node)}"${idOf(node)}>${said(node, layout)}${mark}${atoms(node.atoms)}</p>`;
}

function table(node: Table, layout: Layout): string {
  const total = node.columns.reduce((sum, { width }) => sum + width, 0);
  const widths = node.columns.map(
    ({ width }) => `<col style="width:${((100 * width) / total).toFixed(1)}%">`,
  );
  const heads = node.columns.map(({ head, align }) => `<th scope="col" class="${align}">${text(head)}</th>`);
  const rows = node.rows.map((row) => {
    const cells = row.cells.map((cell, index) => {
      const first = index === 0 ? said(row, layout) : "";
      const look = node.columns[index]?.align ?? "left";
      return index === node.rowHead
        ? `<th scope="row" class="${look}">${first}${atoms(cell)}</th>`
        : `<td class="${look}">${first}${atoms(cell)}</td>`;
    });
    const id = row.id === node.id ? "" : idOf(row);
    return `<tr class="row${changedClass(row)}"${id}>${cells.join("")}</tr>`;
  });
  return `<div class="scroll"><table aria-label="${attribute(node.name)}"${node.tall ? ' class="tall"' : ""}${idOf(node)}>
<colgroup>${widths.join("")}</colgroup>
<thead><tr>${heads.join("")}</tr></thead>
<tbody>
${rows.join("\n")}
</tbody>
</table></div>`;
}

function panel(node: Panel, layout: Layout): string {
  return `<div role="note" class="panel ${node.signal}${changedClass(node)}"${idOf(node)} aria-label="${attribute(node.word)}">
<p class="signal">${symbol(node.signal === "notice")}${said(node, layout)}<strong>${text(node.word)}</strong></p>
<p>${atoms(node.hazard)} ${atoms(node.consequence)}</p>
<p><strong>${atoms(node.avoid)}</strong></p>
</div>`;
}

/** The alert sign: a triangle with an exclamation mark; for a notice, which warns of no injury, a disc. */
function symbol(notice: boolean): string {
  const body = notice
    ? '<circle cx="12" cy="11" r="10" fill="currentColor"/><path class="cut" d="M10.5 9h3v8h-3zM10.5 4.5h3v3h-3z"/>'
    : '<path d="M12 1 23.5 21H.5z" fill="currentColor" stroke="currentColor" stroke-linejoin="round"/><path class="cut" d="M10.6 7h2.8l-.4 7h-2zM10.6 15.6h2.8v2.8h-2.8z"/>';
  return `<svg aria-hidden="true" viewBox="0 0 24 22">${body}</svg>`;
}

function step(node: Step, layout: Layout): string {
  const badge = node.badge === "" ? "" : `<span class="badge outline">${text(node.badge)}</span> `;
  return `<section class="step${node.check ? " check" : ""}${changedClass(node)}"${idOf(node)} aria-labelledby="${attribute(node.id)}.title">
<div class="head"><h3 id="${attribute(node.id)}.title"><span class="number">${text(node.number)}</span> ${said(node, layout)}${badge}${text(node.title)}</h3>${tick(node.tick)}</div>
${nodesToHtml(node.body, layout)}
</section>`;
}

function frame(node: Frame, layout: Layout): string {
  return `<div class="frame ${node.look}${changedClass(node)}"${idOf(node)}${rangeOf(node.range)}>
<p class="head">${said(node, layout)}${atoms(node.head)}</p>
${nodesToHtml(node.body, layout)}
</div>`;
}

function picture(node: Picture, layout: Layout): string {
  const caption =
    node.caption.length === 0 ? "" : `<figcaption>${said(node, layout)}${atoms(node.caption)}</figcaption>`;
  return `<figure class="picture${changedClass(node)}"${idOf(node)}><img alt="${attribute(node.alt)}" src="data:${node.type};base64,${attribute(node.bytes)}">${caption}</figure>`;
}

/**
 * A drawing stands in the page itself, so that it can be enlarged and its text found. What it shows can be opened in words; a
 * screen reader is told the same by the drawing's own title and description.
 */
function drawing(node: Drawn, layout: Layout): string {
  const caption =
    node.caption.length === 0 ? "" : `<figcaption>${said(node, layout)}${atoms(node.caption)}</figcaption>`;
  const inWords = `<details><summary>${text(node.inWords)}</summary><p>${text(node.alt)}</p></details>`;
  return `<figure class="picture drawing${changedClass(node)}"${idOf(node)}><div class="scroll">${node.svg}</div>${caption}${inWords}</figure>`;
}

function atoms(list: readonly Atom[]): string {
  return list.map(atom).join("");
}

function atom(of: Atom): string {
  switch (of.kind) {
    case "run":
      return run(of);
    case "ref":
      return `<a href="${anchor(of.to)}">${text(of.text)}</a>`;
    case "tick":
      return tick(of);
    case "field":
      return field(of);
    case "badge":
      return `<span class="badge ${of.look}">${text(of.text)}</span>`;
    case "chip":
      return `<span class="chip"><strong>${text(of.value)}</strong>${of.other === "" ? "" : ` (${text(of.other)})`}</span>`;
    case "break":
      return "<br>";
  }
}

function run(of: Extract<Atom, { kind: "run" }>): string {
  const words = text(of.text);
  switch (of.style) {
    case "text":
      return words;
    case "strong":
      return `<strong>${words}</strong>`;
    case "em":
      return `<em>${words}</em>`;
    case "code":
      return `<code>${words}</code>`;
    case "quantity":
      return `<span class="quantity">${words}</span>`;
    case "link":
      return `<a class="out" rel="noreferrer" href="${attribute(of.href ?? "")}">${words}</a>`;
  }
}

function tick(of: Tick): string {
  const box = `<input type="checkbox" class="${of.size}"${idOf(of)} aria-label="${attribute(of.name || of.label)}">`;
  return of.label === "" ? box : `<label class="tick">${box}${text(of.label)}</label>`;
}

function field(of: Field): string {
  const number = of.input === "number";
  const type = number ? "text" : of.input;
  const more = [
    number ? ' inputmode="decimal" autocomplete="off"' : "",
    rangeOf(of.range),
    of.copies === undefined ? "" : ` data-copies="${attribute(of.copies)}"`,
    of.after === undefined
      ? ""
      : ` data-after="${attribute(of.after.field)}" data-minutes="${of.after.minutes}"`,
  ].join("");
  const input = `<input type="${type}" class="write ${of.size}"${idOf(of)} aria-label="${attribute(of.name)}"${more}>`;
  return of.unit === "" ? input : `<span class="with-unit">${input} ${text(of.unit)}</span>`;
}

/** A range as data attributes that the page's script reads. */
function rangeOf(range: Range | undefined): string {
  if (range === undefined) return "";
  return [
    " data-range",
    range.min === undefined ? "" : ` data-min="${range.min}"`,
    range.max === undefined ? "" : ` data-max="${range.max}"`,
    range.minOpen ? " data-min-open" : "",
    range.maxOpen ? " data-max-open" : "",
  ].join("");
}
