/**
 * Findings in words: the rule's message with its arguments filled in.
 */
import { ALLOWANCE_MESSAGES } from "./allow";
import { RULES } from "./registry";
import type { Args, Finding, Message, Rule } from "./types";

const byCode: ReadonlyMap<string, Rule> = new Map(RULES.flatMap((r) => [r.code, ...(r.alsoCodes ?? [])].map((code) => [code, r] as const)));

/** The rule with a code. */
export function ruleByCode(code: string): Rule | undefined {
  return byCode.get(code);
}

/** Fills `{argument}`s in; an argument that is missing stays as it stands, so that a test sees it. */
export function fill(template: string, args: Args): string {
  return template.replace(/\{(\w+)\}/g, (whole, name: string) => args[name] ?? whole);
}

/** A message of a finding in words. */
export function wordsOf(finding: { readonly code: string }, message: Message): string {
  const template = byCode.get(finding.code)?.messages[message.id] ?? ALLOWANCE_MESSAGES[message.id];
  return template === undefined ? message.id : fill(template, message.args);
}

/** A finding as one text: what is wrong, and under it what to write instead and the way that leads there. */
export function findingText(finding: Finding): string {
  const lines = [wordsOf(finding, finding.message)];
  if (finding.way.length > 0) lines.push(`The way: ${finding.way.join(", then ")}.`);
  if (finding.hint) lines.push(wordsOf(finding, finding.hint));
  return lines.join("\n");
}
