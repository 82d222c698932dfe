/**
 * Findings in words: the rule's message with its arguments filled in.
 */
import { ALLOWANCE_PAGES } from "./allow";
import { RULES } from "./registry";
import type { Args, Finding, Message, Page } from "./types";

/** The catalogue: one page a code, by code. A code whose rules look at more than one grain has one page. */
export const PAGES: readonly Page[] = [
  ...new Map<string, Page>([...RULES, ...ALLOWANCE_PAGES].map((p) => [p.code, p])).values(),
].sort((a, b) => (a.code < b.code ? -1 : 1));

const byCode: ReadonlyMap<string, Page> = new Map(
  PAGES.flatMap((p) => [p.code, ...(p.alsoCodes ?? [])].map((code) => [code, p] as const)),
);

/** The page on a code. */
export function pageByCode(code: string): Page | undefined {
  return byCode.get(code);
}

/** Fills `{argument}`s in; an argument that is missing stays as it stands, so that a test sees it. */
export function fill(template: string, args: Args): string {
  return template.replace(/\{(\w+)\}/g, (whole, name: string) => args[name] ?? whole);
}

/** A message of a finding in words. */
export function wordsOf(finding: { readonly code: string }, message: Message): string {
  const template = byCode.get(finding.code)?.messages[message.id];
  return template === undefined ? message.id : fill(template, message.args);
}

/** A finding as one text: what is wrong, and under it what to write instead and the way that leads there. */
export function findingText(finding: Finding): string {
  const lines = [wordsOf(finding, finding.message)];
  if (finding.way.length > 0) lines.push(`The way: ${finding.way.join(", then ")}.`);
  if (finding.hint) lines.push(wordsOf(finding, finding.hint));
  return lines.join("\n");
}
