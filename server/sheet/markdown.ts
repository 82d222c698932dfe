/**
 * The writer's prose: inline Markdown → runs. Strong, emphasised, code and links are kept; everything else is text,
 * and nothing in it can become markup of a page.
 */
import MarkdownIt from "markdown-it";
import { bound } from "./fill";
import type { Run, RunStyle, Runs } from "./inline";

const parser = new MarkdownIt({ html: false, linkify: false, breaks: false }).disable("image");

type Tokens = ReturnType<typeof parser.parseInline>;

/** Reads a paragraph. */
export function prose(text: string): Runs {
  const runs: Run[] = [];
  const open: { style: RunStyle; href?: string }[] = [];
  for (const token of parser.parseInline(text, {}).flatMap(({ children }): Tokens => children ?? [])) {
    if (token.nesting > 0) open.push(opened(token.tag, token.attrGet("href")));
    else if (token.nesting < 0) open.pop();
    else
      runs.push({
        text: said(token),
        ...(token.type === "code_inline" ? { style: "code" as const } : styleOf(open)),
      });
  }
  return joined(runs.filter((run) => run.text !== ""));
}

function opened(tag: string, href: string | null): { style: RunStyle; href?: string } {
  if (tag === "a") return { style: "link", href: href ?? "" };
  return { style: tag === "strong" ? "strong" : tag === "em" ? "em" : "text" };
}

/** A run has one style: a link is a link first, and strong before emphasised. */
function styleOf(open: readonly { style: RunStyle; href?: string }[]): { style: RunStyle; href?: string } {
  const of = (style: RunStyle) => open.find((one) => one.style === style);
  return of("link") ?? of("strong") ?? of("em") ?? { style: "text" };
}

function said({ type, content }: Tokens[number]): string {
  return type === "softbreak" || type === "hardbreak"
    ? " "
    : type === "code_inline"
      ? content
      : bound(content);
}

function joined(runs: readonly Run[]): Runs {
  const out: Run[] = [];
  for (const run of runs) {
    const last = out.at(-1);
    if (last && last.style === run.style && last.href === run.href)
      out[out.length - 1] = { ...last, text: last.text + run.text };
    else out.push(run);
  }
  return out;
}
