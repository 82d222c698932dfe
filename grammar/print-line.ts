/**
 * One line in the usual form, without its indentation: one space between words, two before each further fact.
 */
import type { IToken } from "chevrotain";
import { elementsOf } from "./constructs";
import type { Line, Phrase, RawFigure, RawQuantity, SlotContent } from "./statement";
import * as t from "./tokens";

/** The usual spelling of a unit, for more than one too, and whether it stands right behind its number. */
export interface UnitSpelling {
  readonly print: string;
  readonly plural?: string;
  readonly tight: boolean;
}

/** Spells a unit; undefined for what is no unit. */
export type SpellUnit = (unit: string) => UnitSpelling | undefined;

/** A line's text in the usual form. `column` is where what follows the line's keyword stands at the earliest. */
export function printLine(line: Line, column: number, spell: SpellUnit): string {
  const { text, comment } = line;
  const remark = comment ? text.slice(comment.start, comment.end).trimEnd() : "";
  const code = line.statement
    ? printStatement(line, line.statement.phrases, column, spell)
    : text.slice(0, comment?.start ?? text.length).trim();
  return code && remark ? `${code}  ${remark}` : code + remark;
}

function printStatement(line: Line, phrases: readonly Phrase[], column: number, spell: SpellUnit): string {
  const tokens = t.lexLine(line.text).filter((token) => token.tokenType !== t.Comment);
  const units = unitsOf(phrases, spell);
  const lowers = lowersOf(phrases);
  const facts = new Set([...phrases.slice(1).map((p) => p.span.start), ...(phrases[0]?.parts ?? [])]);
  const behindKeyword = column > 0 ? tokens[keywordWords(line)] : undefined;
  let out = "";
  let before: IToken | undefined;
  let printed = 0;
  for (const token of tokens) {
    if (token.startOffset < printed) continue;
    const unit = units.get(token.startOffset);
    if (token.tokenType === t.Slash && lowers.size > 0) continue;
    if (lowers.has(token.startOffset)) out += "/";
    else if (!unit?.tight) out += facts.has(token.startOffset) ? "  " : gap(before, token);
    if (token === behindKeyword) out = out.padEnd(column);
    out += unit ? unit.print : lowers.has(token.startOffset) ? signed(token) : imageOf(token);
    printed = unit ? unit.end : t.tokenEnd(token);
    before = token;
  }
  return out;
}

function gap(before: IToken | undefined, token: IToken): string {
  if (!before || before.tokenType === t.LeftParen) return "";
  return token.tokenType === t.Comma || token.tokenType === t.RightParen ? "" : " ";
}

function imageOf({ tokenType, image }: IToken): string {
  if (tokenType === t.PlusMinus) return "±";
  return tokenType === t.Thread ? image.replace(/\s*[x×]\s*/, " x ") : image;
}

/** How many words a line's form begins with: `only on`, `thread`. */
function keywordWords(line: Line): number {
  return elementsOf(line.head).findIndex((element) => element.type !== "word");
}

interface Unit {
  readonly print: string;
  readonly tight: boolean;
  /** The offset behind it. */
  readonly end: number;
}

/** The spelling of each known unit on a line, by where it stands. */
function unitsOf(phrases: readonly Phrase[], spell: SpellUnit): Map<number, Unit> {
  const units = new Map<number, Unit>();
  const figures = phrases.flatMap((phrase) => phrase.slots).flatMap((slot) => figuresIn(slot.content));
  for (const { number, unit, unitSpan } of figures) {
    const spelled = unit === null ? undefined : spell(unit);
    if (!spelled || !unitSpan) continue;
    const { print, plural = print, tight } = spelled;
    units.set(unitSpan.start, { print: isMany(number) ? plural : print, tight, end: unitSpan.end });
  }
  return units;
}

/** More than one: `2 turns`, `1 1/2 turns`, but `1/6 turn`. */
function isMany(number: string): boolean {
  return /^-?\d+ /.test(number) || (!number.includes("/") && Math.abs(Number(number)) > 1);
}

/** Where the second deviation of a tolerance begins: `30 +3 −1` is written `30 +3/-1`. */
function lowersOf(phrases: readonly Phrase[]): ReadonlySet<number> {
  const quantities = phrases
    .flatMap((phrase) => phrase.slots)
    .flatMap(({ content }) => quantitiesIn(content))
    .flatMap((quantity) => [quantity, ...(quantity.other ? [quantity.other] : [])]);
  return new Set(quantities.flatMap(({ deviations }) => (deviations ? [deviations[1].span.start] : [])));
}

const signed = ({ image }: IToken): string => image.replace("−", "-");

function quantitiesIn(content: SlotContent): readonly RawQuantity[] {
  if (content.kind === "quantity") return [content.quantity];
  return content.kind === "point" ? [content.x, content.y] : [];
}

function figuresIn(content: SlotContent): readonly RawFigure[] {
  return quantitiesIn(content).flatMap(figuresOf);
}

function figuresOf(quantity: RawQuantity): readonly RawFigure[] {
  const { first, second, tolerance, deviations, other } = quantity;
  return [...first, ...second, ...tolerance, ...(deviations ?? []), ...(other ? figuresOf(other) : [])];
}
