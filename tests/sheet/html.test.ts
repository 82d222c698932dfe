/** The sheet as a web page: whole in one file, in order, escaped, with its limits. */
import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { LANGUAGES, say } from "../../server/phrases/sheet";
import type { Sheet } from "../../server/sheet/blocks";
import { renderHtml } from "../../server/sheet/html";
import { SCRIPT, SCRIPT_HASH } from "../../server/sheet/html-script";
import { BELT_SHEET } from "./fixture";

function all(html: string, pattern: RegExp): string[] {
  return Array.from(html.matchAll(pattern), (match) => match[1] ?? match[0]);
}

describe("the page", () => {
  const html = renderHtml(BELT_SHEET);

  it("has its headings in order, one of the first level, none skipped", () => {
    const levels = all(html, /<h([1-6])\b/g).map(Number);
    expect(levels[0]).toBe(1);
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    expect(levels.every((level, index) => index === 0 || level <= (levels[index - 1] ?? 0) + 1)).toBe(true);
  });

  it("has a scope on every head cell and a name on every table and input", () => {
    expect(all(html, /<th\b[^>]*>/g).filter((cell) => !/ scope="(col|row)"/.test(cell))).toEqual([]);
    expect(all(html, /<(?:table|input)\b[^>]*>/g).filter((one) => !/ aria-label="[^"]+"/.test(one))).toEqual(
      [],
    );
  });

  it("has every id once, and every link inside the page leads somewhere", () => {
    const ids = all(html, / id="([^"]*)"/g);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
    const links = all(html, / href="#([^"]*)"/g).map(decodeURIComponent);
    expect(links.length).toBeGreaterThan(20);
    expect(links.filter((link) => !ids.includes(link))).toEqual([]);
    expect(all(html, / data-(?:copies|after)="([^"]*)"/g).filter((id) => !ids.includes(id))).toEqual([]);
  });

  it("fetches nothing", () => {
    expect(
      all(html, / (?:src|srcset|poster|data)="([^"]*)"/g).filter((at) => !at.startsWith("data:")),
    ).toEqual([]);
    expect(html).not.toMatch(/<link|@import|url\((?!"data:)/);
  });

  it("lets only its own script run", () => {
    expect(SCRIPT_HASH).toBe(`sha256-${createHash("sha256").update(SCRIPT, "utf8").digest("base64")}`);
    expect(html).toContain(`script-src '${SCRIPT_HASH}'`);
    expect(html).toContain(`<script>${SCRIPT}</script>`);
  });

  it("carries the limits with the values", () => {
    expect(html).toMatch(
      /<input [^>]*id="end-float\.value1"[^>]* data-range data-min="0\.05" data-max="0\.15">/,
    );
    expect(html).toMatch(/id="ef-over" data-range data-min="0\.15" data-min-open>/);
    expect(html).toMatch(/id="wait-cool\.value1"[^>]* data-max="40" data-max-open>/);
  });

  it("has margin bars that are also said", () => {
    expect(html).toMatch(/class="step check changed" id="step-6"/);
    expect(html.match(/<span class="unseen">Changed: <\/span>/g)).toHaveLength(6);
  });

  it.each(LANGUAGES)("ends with the closing safety line in %s, whatever blocks there are", (words) => {
    for (const blocks of [BELT_SHEET.blocks, []]) {
      const page = renderHtml({ ...BELT_SHEET, words, blocks });
      expect(page).toContain(`<p class="closing">${say(words, "closing")}</p>\n</main>`);
    }
  });

  it("says DRAFT on a draft only", () => {
    expect(renderHtml({ ...BELT_SHEET, draft: true })).toContain('<body class="draft" data-draft="DRAFT">');
    expect(html).not.toContain("DRAFT");
  });
});

describe("text from the data", () => {
  const EVIL = `</style></title><script>alert(1)</script><img src=x onerror="alert(1)">' " & \\`;

  /** The sheet with the text put into every string that a person could have written. */
  function poisoned(value: unknown, key = ""): unknown {
    if (Array.isArray(value)) return value.map((each) => poisoned(each, key));
    if (typeof value === "object" && value !== null) {
      return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, poisoned(each, name)]));
    }
    const ours = [
      "kind",
      "style",
      "words",
      "paper",
      "bytes",
      "type",
      "signal",
      "outcome",
      "fact",
      "field",
      "role",
    ];
    const kept = [...ours, "use", "drained", "answer", "leads", "renew", "input", "id", "svg"];
    return typeof value === "string" && !kept.includes(key) ? `${value}${EVIL}` : value;
  }

  it("is escaped wherever it stands", () => {
    const sheet = poisoned(BELT_SHEET) as Sheet;
    const page = renderHtml({
      ...sheet,
      blocks: sheet.blocks.map((block) => ({ ...block, id: `${block.id}"><b>` })),
    });
    expect(page.match(/<script/g)).toHaveLength(1);
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    expect(page.match(/<\/title>/g)).toHaveLength(1);
    expect(page).not.toContain("<img src=x");
    expect(page).not.toContain("<b>");
    expect(page).not.toMatch(/="[^"<>]*" onerror="/);
    expect(page).toContain("&lt;script&gt;alert(1)&lt;/script&gt;");
  });

  it("is no link when its address is not one to follow", () => {
    const link = (href: string) =>
      renderHtml({
        ...BELT_SHEET,
        blocks: [
          {
            kind: "section",
            id: "s",
            title: "S",
            blocks: [{ kind: "prose", id: "p", runs: [{ text: "chart", style: "link", href }] }],
          },
        ],
      });
    expect(link("https://parts.example/a?b=1&c=2")).toContain(
      'href="https://parts.example/a?b=1&amp;c=2">chart</a>',
    );
    for (const href of ["javascript:alert(1)", "data:text/html,x", " https://x.example", "//x.example"]) {
      expect(link(href)).toContain('<p class="prose" id="p">chart</p>');
    }
  });
});
