/**
 * What is wrong with a line, from where reading it stopped: a message id with its arguments, and where it is certain,
 * the text that puts it right. The words are in `server/phrases/problems.ts`.
 */
import type { IToken, TokenType } from "chevrotain";
import { elementsOf, formsByHead, type LineForm, stopWords } from "./constructs";
import { nearest } from "./nearest";
import type { Stop } from "./parser";
import type { Element } from "./pattern";
import { drawingSlip } from "./slips-inches";
import { toleranceSlip } from "./slips-tolerance";
import type { Problem } from "./statement";
import type { Span } from "./text";
import * as t from "./tokens";

export function spanOf(token: IToken): Span {
  return { start: token.startOffset, end: t.tokenEnd(token) };
}

/** A line longer than is read. */
export function lineTooLong(most: number): Problem {
  return { message: "line-too-long", args: { most: String(most) }, span: { start: 0, end: 80 } };
}

/** Something behind a string that stands first in its line. */
export function afterProse(tokens: readonly IToken[], last: IToken): Problem {
  const found = tokens[1] ?? last;
  return { message: "after-prose", args: { found: found.image }, span: spanOf(found) };
}

/** A string that only the line's end closed; a brace and a comment behind it are not meant to be in it. */
export function quoteNotClosed(token: IToken): Problem {
  const text = token.image.replace(/\s*\{?\s*(?:\/\/[\s\S]*)?$/, "");
  const span = { start: token.startOffset, end: token.startOffset + text.length };
  const replace = text.length > 1 ? { replace: { span, text: `${text}"` } } : {};
  return { message: "quote-not-closed", args: {}, span: spanOf(token), ...replace };
}

/** A line whose first word begins no form. */
export function headProblem(head: IToken | undefined, last: IToken): Problem {
  if (!head) return { message: "head-missing", args: {}, span: spanOf(last) };
  const span = spanOf(head);
  const found = head.image;
  if (isBrace(head)) return { message: "brace-not-alone", args: { brace: found }, span };
  if (!/^[\p{L}_]/u.test(found)) return { message: "stray-sign", args: { found }, span };
  const near = nearest(found, [...formsByHead.keys()]);
  if (!near) return { message: "unknown-word", args: { found }, span };
  return { message: "unknown-word-near", args: { found, near }, span, replace: { span, text: near } };
}

/** Signs that have no meaning where they stand. */
const STRAY: ReadonlySet<TokenType> = new Set([t.Stray, t.Slash, t.Upwards]);

const isBrace = ({ tokenType }: IToken): boolean => tokenType === t.Open || tokenType === t.Close;

/** Why a line could not be read as its form, from where reading stopped. */
export function stopProblem(form: LineForm, stop: Stop, tokens: readonly IToken[]): Problem {
  const head = tokens[0] as IToken;
  const { found } = stop;
  const after = stop.after ?? head;
  const drawing = drawingSlip(tokens, found, stopWords(form));
  if (drawing) return drawing;
  const open = tokens.find((token) => token.tokenType === t.OpenText);
  if (open) return quoteNotClosed(open);
  const comma = decimalComma(tokens, found);
  if (comma) return comma;
  const tolerance = toleranceSlip(tokens, found);
  if (tolerance) return tolerance;
  if (found && isBrace(found))
    return { message: "brace-not-alone", args: { brace: found.image }, span: spanOf(found) };
  if (found && STRAY.has(found.tokenType))
    return { message: "stray-sign", args: { found: found.image }, span: spanOf(found) };
  if (stop.expected) return expected(head, after, found, expectation(stop.expected));
  return found ? notUnderstood(form, head, after, found, tokens) : expected(head, after, null, "");
}

function expected(head: IToken, after: IToken, found: IToken | null, wanted: string): Problem {
  const args = { head: head.image, after: after.image, found: found?.image ?? "", expected: wanted };
  const end = t.tokenEnd(after);
  return found
    ? { message: "expected-found", args, span: spanOf(found) }
    : { message: "expected-end", args, span: { start: end, end } };
}

/** The form was complete, and what follows begins none of its clauses, or no more than begins one. */
function notUnderstood(
  form: LineForm,
  head: IToken,
  after: IToken,
  found: IToken,
  tokens: readonly IToken[],
): Problem {
  const begun = form.follow.map((id) => elementsOf(`+${id}`)).filter(([first]) => isWord(first, found.image));
  if (begun.length > 0) {
    const next = tokens[tokens.indexOf(found) + 1] ?? null;
    const wanted = begun.map((elements) => (elements[1] ? expectation(elements[1]) : "")).join(" or ");
    return expected(head, found, next, wanted);
  }
  const may = [...new Set(form.follow.map(keyword))].join(", ");
  const args = { head: head.image, after: after.image, found: found.image, may };
  const span = spanOf(found);
  if (may === "") return { message: "nothing-more", args, span };
  const near = /^\p{L}/u.test(found.image) ? nearest(found.image, [...stopWords(form)]) : undefined;
  if (!near || near === found.image) return { message: "not-understood", args, span };
  return { message: "not-understood-near", args: { ...args, near }, span, replace: { span, text: near } };
}

/** The words with which a clause begins: `by hand`, `with`. */
function keyword(clause: string): string {
  const elements = elementsOf(`+${clause}`);
  const end = elements.findIndex((element) => element.type !== "word");
  return elements
    .slice(0, end < 0 ? undefined : end)
    .map((element) => (element.type === "word" ? element.word : ""))
    .join(" ");
}

const isWord = (element: Element | undefined, word: string): boolean =>
  element?.type === "word" && element.word === word;

/** `0,05 to 0,15 mm`: a comma right between digits, at or before the place where reading stopped. */
function decimalComma(tokens: readonly IToken[], found: IToken | null): Problem | undefined {
  const until = found ? tokens.indexOf(found) : tokens.length;
  const at = tokens.findIndex((_, i) => i <= until && isDecimalComma(tokens, i));
  if (at < 0) return undefined;
  const first = tokens[at - 1] as IToken;
  const last = tokens.findLastIndex((_, i) => isDecimalComma(tokens, i)) + 1;
  const written = tokens.slice(at - 1, last + 1);
  const text = written
    .map((token, i) => gap(written, i) + (isDecimalComma(written, i) ? "." : token.image))
    .join("");
  const number = `${first.image}.${tokens[at + 1]?.image}`;
  const args = { found: `${first.image},${tokens[at + 1]?.image}`, instead: number };
  const span = { start: first.startOffset, end: t.tokenEnd(tokens[at + 1] as IToken) };
  const whole = { start: first.startOffset, end: t.tokenEnd(tokens[last] as IToken) };
  return { message: "decimal-comma", args, span, replace: { span: whole, text } };
}

/** The white space before a token of a line. */
function gap(tokens: readonly IToken[], i: number): string {
  const before = tokens[i - 1];
  return before ? " ".repeat((tokens[i] as IToken).startOffset - t.tokenEnd(before)) : "";
}

/** A whole number, or the pitch of a thread: `M22 x 1`. */
const WHOLE_NUMBER = /(?:^[-−+]?|[x×]\s*)\d+$/i;

function isDecimalComma(tokens: readonly IToken[], i: number): boolean {
  const comma = tokens[i];
  const before = tokens[i - 1];
  const behind = tokens[i + 1];
  if (comma?.tokenType !== t.Comma || !before || !behind || !WHOLE_NUMBER.test(before.image)) return false;
  const tight = t.tokenEnd(before) === comma.startOffset && behind.startOffset === comma.startOffset + 1;
  return tight && /^\d+$/.test(behind.image);
}

/** What a form wants at a place, as `KIND accepts`, to be put into words by `server/phrases`. */
export function expectation(element: Element): string {
  switch (element.type) {
    case "word":
      return `word ${element.word}`;
    case "slot":
      return [element.kind, ...element.accepts].join(" ");
    case "optional":
      return element.elements[0] ? expectation(element.elements[0]) : "";
    case "choice":
      return element.options.map(([first]) => (first ? expectation(first) : "")).join(" or ");
  }
}
