/**
 * Breaks one line of a text as slips of the hand do: a token dropped, a word mistyped, a stray sign, a line cut.
 */
import { below, pick, type Random } from "./random";

/** The ways to break a line. */
export const BREAKS = [
  "token dropped",
  "word mistyped",
  "stray }",
  "stray {",
  'stray "',
  "stray ,",
  "stray 123",
  "stray } before a head",
  "stray { before a head",
  'stray " before a head',
  "stray , before a head",
  "stray 123 before a head",
  "line cut",
  "quote dropped",
  "brace dropped",
  "line blanked",
  "line garbled",
] as const;
export type BreakKind = (typeof BREAKS)[number];

/** One broken line: its number from 0 and what stands there now. */
export interface Break {
  readonly kind: BreakKind;
  readonly line: number;
  readonly text: string;
}

/** Breaks a line at random. Every kind is as likely as any other; the line always changes. */
export function randomBreak(random: Random, lines: readonly string[]): Break {
  for (;;) {
    const kind = pick(random, BREAKS);
    const line = below(random, lines.length);
    const text = breakLine(random, kind, lines[line] as string);
    if (text !== undefined && text !== lines[line]) return { kind, line, text };
  }
}

/** The lines with one of them broken. */
export function withBreak(lines: readonly string[], { line, text }: Break): string[] {
  return lines.map((one, i) => (i === line ? text : one));
}

/** Breaks this line in this way; undefined where it cannot be. */
export function breakLine(random: Random, kind: BreakKind, line: string): string | undefined {
  const stray = /^stray (\S+)( before a head)?$/.exec(kind);
  if (stray?.[2])
    return /\{\s*(\/\/.*)?$/.test(line) ? putIn(line, indentOf(line), stray[1] as string) : undefined;
  if (stray) return strayIn(random, line, stray[1] as string);
  if (line.trim() === "") return undefined;
  switch (kind) {
    case "token dropped":
      return drop(line, pick(random, tokensOf(line)));
    case "word mistyped":
      return mistype(random, line);
    case "line cut":
      return line.slice(0, indentOf(line) + below(random, line.trim().length)).trimEnd();
    case "quote dropped":
      return dropSign(random, line, /"/g);
    case "brace dropped":
      return dropSign(random, line, /[{}]/g);
    case "line blanked":
      return random() < 0.5 ? "" : " ".repeat(indentOf(line));
    case "line garbled":
      return (random() < 0.7 ? " ".repeat(indentOf(line)) : "") + garbage(random, line.trim().length);
    default:
      return undefined;
  }
}

const indentOf = (line: string): number => line.length - line.trimStart().length;

interface Token {
  readonly at: number;
  readonly text: string;
}

/** Strings, words, numbers and signs, roughly; a comment is one. */
function tokensOf(line: string): Token[] {
  return [...line.matchAll(/\/\/.*|"[^"]*"?|[\p{L}\p{N}_.·/-]+|\S/gu)].map((m) => ({
    at: m.index,
    text: m[0],
  }));
}

function drop(line: string, { at, text }: Token): string {
  return (line.slice(0, at) + line.slice(at + text.length)).trimEnd();
}

function putIn(line: string, at: number, sign: string): string {
  return `${line.slice(0, at)}${sign} ${line.slice(at)}`;
}

/** A sign before a token or behind the last. */
function strayIn(random: Random, line: string, sign: string): string {
  const places = [...tokensOf(line).map((token) => token.at), line.length];
  const at = pick(random, places);
  return at === line.length
    ? `${line.trimEnd() === "" ? line : `${line.trimEnd()} `}${sign}`
    : putIn(line, at, sign);
}

function mistype(random: Random, line: string): string | undefined {
  const words = tokensOf(line).filter(({ text }) => /^\p{L}{3}/u.test(text));
  if (words.length === 0) return undefined;
  const { at, text } = pick(random, words);
  const i = below(random, text.length - 1);
  const other = String.fromCharCode(97 + below(random, 26));
  const [a, b] = [text.charAt(i), text.charAt(i + 1)];
  const slips = [b + a, a, a + a + b, other + b, a + other + b];
  return line.slice(0, at + i) + pick(random, slips) + line.slice(at + i + 2);
}

function dropSign(random: Random, line: string, sign: RegExp): string | undefined {
  const found = [...line.matchAll(sign)];
  if (found.length === 0) return undefined;
  return drop(line, { at: pick(random, found).index, text: "x" });
}

/** Printable ASCII, as when a hand rests on the keyboard. */
function garbage(random: Random, length: number): string {
  return Array.from({ length: Math.max(1, length) }, () => String.fromCharCode(32 + below(random, 95))).join(
    "",
  );
}
