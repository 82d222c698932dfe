/**
 * Text of one line → line. A line is read without knowing any other, so the same text always gives the same,
 * interned, line.
 */
import type { IToken } from "chevrotain";
import { formsByHead, KEYWORDS, type LineForm } from "./constructs";
import { nearest } from "./nearest";
import { parseForm, type Stop, unquote } from "./parser";
import type { Element } from "./pattern";
import type { Line, LineKind, NameValue, Phrase, Problem } from "./statement";
import type { Span } from "./text";
import * as t from "./tokens";

const KEPT_AT_MOST = 400_000;
let interned = new Map<string, Line>();

/** Reads one line; equal texts give the same object. Never throws. */
export function parseLine(text: string): Line {
  const known = interned.get(text);
  if (known) return known;
  if (interned.size > KEPT_AT_MOST) interned = new Map();
  const line = readLine(text);
  interned.set(text, line);
  return line;
}

const LONGEST_LINE = 20_000;

function readLine(text: string): Line {
  const indent = text.length - text.trimStart().length;
  if (text.length > LONGEST_LINE) return tooLong(text, indent);
  const lexed = t.lexLine(text);
  const last = lexed[lexed.length - 1];
  const comment = last?.tokenType === t.Comment ? spanOf(last) : null;
  const tokens = comment ? lexed.slice(0, -1) : lexed;
  const base = { text, indent, comment, head: "", statement: null, problems: [], prose: "", opens: false, perhaps: [] };
  const first = tokens[0];
  if (!first) return { ...base, kind: comment ? "comment" : "blank" };
  if (first.tokenType === t.Text && tokens.length === 1) return { ...base, kind: "prose", prose: unquote(first.image) };
  if (first.tokenType === t.Close && tokens.length === 1) return { ...base, kind: "close" };
  return { ...base, ...readTokens(tokens) };
}

type Read = { kind: LineKind } & Pick<Line, "head" | "statement" | "problems" | "opens" | "perhaps" | "prose">;

function readTokens(all: IToken[]): Read {
  const last = all[all.length - 1] as IToken;
  // A string that was not closed swallows the brace behind it: the brace is still meant.
  const swallowed = last.tokenType === t.OpenText && /\{\s*$/.test(last.image);
  const opens = last.tokenType === t.Open || swallowed;
  const tokens = last.tokenType === t.Open ? all.slice(0, -1) : all;
  const head = tokens[0];
  if (head && (head.tokenType === t.Text || head.tokenType === t.OpenText)) return broken(tokens, opens, "", proseProblem(tokens));
  const forms = head ? formsByHead.get(head.image) : undefined;
  if (!head || !forms) return broken(tokens, opens, "", headProblem(head, last));
  const reading = bestReading(forms, tokens);
  if (reading.stop) return broken(tokens, opens, headOf(reading.form), stopProblem(reading.stop, head, tokens));
  const statement = { construct: reading.form.clause ? "" : reading.form.id, phrases: reading.phrases };
  return { kind: "statement", head: headOf(reading.form), statement, problems: [], opens, perhaps: [], prose: "" };
}

const headOf = (form: LineForm): string => (form.clause ? `+${form.id}` : form.id);

function bestReading(forms: readonly LineForm[], tokens: IToken[]): { form: LineForm; phrases: Phrase[]; stop: Stop | null } {
  let best: { form: LineForm; phrases: Phrase[]; stop: Stop | null } | undefined;
  for (const form of forms) {
    const reading = { form, ...parseForm(form, tokens) };
    if (!reading.stop) return reading;
    if (!best || reach(reading.stop) > reach(best.stop)) best = reading;
  }
  return best as { form: LineForm; phrases: Phrase[]; stop: Stop | null };
}

const reach = (stop: Stop | null): number => stop?.after?.startOffset ?? 0;

function broken(tokens: IToken[], opens: boolean, head: string, problem: Problem): Read {
  const perhaps: NameValue[] = tokens
    .flatMap((token) =>
      token.tokenType === t.OpenText || token.tokenType === t.Text
        ? []
        : /[\p{L}_]/u.test(token.image)
          ? [{ name: token.image.normalize("NFC"), span: spanOf(token) }]
          : [],
    );
  return { kind: "broken", head, statement: null, problems: [problem], opens, perhaps, prose: "" };
}

function tooLong(text: string, indent: number): Line {
  const problem: Problem = { message: "line-too-long", args: { most: String(LONGEST_LINE) }, span: { start: 0, end: 80 } };
  return { text, kind: "broken", indent, head: "", statement: null, problems: [problem], prose: "", opens: false, comment: null, perhaps: [] };
}

function spanOf(token: IToken): Span {
  return { start: token.startOffset, end: t.tokenEnd(token) };
}

function proseProblem(tokens: IToken[]): Problem {
  const first = tokens[0] as IToken;
  if (first.tokenType === t.OpenText) return notClosed(first);
  return { message: "after-prose", args: { found: tokens[1]?.image ?? "{" }, span: spanOf(tokens[1] ?? first) };
}

function notClosed(token: IToken): Problem {
  const text = token.image.replace(/\s*\{?\s*$/, "");
  const span = { start: token.startOffset, end: token.startOffset + text.length };
  return { message: "quote-not-closed", args: {}, span: spanOf(token), replace: { span, text: `${text}"` } };
}

function headProblem(head: IToken | undefined, last: IToken): Problem {
  if (!head) return { message: "head-missing", args: {}, span: spanOf(last) };
  if (head.tokenType === t.Close) return { message: "brace-not-alone", args: { brace: "}" }, span: spanOf(head) };
  if (head.tokenType === t.Stray || !/^[\p{L}_]/u.test(head.image)) return { message: "stray-sign", args: { found: head.image }, span: spanOf(head) };
  const near = nearest(head.image, [...formsByHead.keys()]);
  if (!near) return { message: "unknown-word", args: { found: head.image }, span: spanOf(head) };
  return { message: "unknown-word-near", args: { found: head.image, near }, span: spanOf(head), replace: { span: spanOf(head), text: near } };
}

/** Says in the writer's words where reading stopped. */
function stopProblem(stop: Stop, head: IToken, tokens: IToken[]): Problem {
  const after = stop.after ?? head;
  const open = stop.found?.tokenType === t.OpenText ? stop.found : undefined;
  if (open) return notClosed(open);
  const comma = decimalComma(stop, tokens);
  if (comma) return comma;
  if (stop.found && (stop.found.tokenType === t.Open || stop.found.tokenType === t.Close)) {
    return { message: "brace-not-alone", args: { brace: stop.found.image }, span: spanOf(stop.found) };
  }
  const args: Record<string, string> = { head: head.image, after: after.image, found: stop.found?.image ?? "" };
  const span = stop.found ? spanOf(stop.found) : { start: t.tokenEnd(after), end: t.tokenEnd(after) };
  if (stop.expected) return { message: stop.found ? "expected-found" : "expected-end", args: { ...args, expected: expectation(stop.expected) }, span };
  const near = stop.found && /^\p{L}/u.test(stop.found.image) ? nearest(stop.found.image, [...KEYWORDS]) : undefined;
  if (near && near !== stop.found?.image) return { message: "not-understood-near", args: { ...args, near }, span, replace: { span, text: near } };
  return { message: "not-understood", args, span };
}

function decimalComma(stop: Stop, tokens: IToken[]): Problem | undefined {
  const at = stop.found ? tokens.indexOf(stop.found) : -1;
  const before = tokens[at - 1];
  const behind = tokens[at + 1];
  if (stop.found?.tokenType !== t.Comma || before?.tokenType !== t.Numeral || behind?.tokenType !== t.Numeral) return;
  if (t.tokenEnd(before) !== stop.found.startOffset || behind.startOffset !== stop.found.startOffset + 1) return;
  const span = { start: before.startOffset, end: t.tokenEnd(behind) };
  const text = `${before.image}.${behind.image}`;
  return { message: "decimal-comma", args: { found: `${before.image},${behind.image}`, instead: text }, span, replace: { span, text } };
}

/** What a form wants at a place, as `kind` or `kind accepts`, to be put into words by `server/phrases`. */
function expectation(element: Element): string {
  switch (element.type) {
    case "word":
      return `word ${element.word}`;
    case "slot":
      return [element.kind, ...element.accepts].join(" ");
    case "optional":
      return element.elements[0] ? expectation(element.elements[0]) : "";
    case "choice":
      return element.options.map((o) => (o[0] ? expectation(o[0]) : "")).join(" or ");
  }
}
