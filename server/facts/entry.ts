/**
 * What one block says, as plain data: its form, its clauses (whether on the head's line or alone in the block), the
 * constructs in it, its prose. A pure function of the block, so it is kept by block; places are relative to the
 * entry's first line.
 */
import {
  type Block,
  contextOf,
  type Line,
  type NameValue,
  type Node,
  type Phrase,
  phraseLike,
  readIn,
  type SlotValue,
  type Span,
} from "../../grammar";
import type { Quantity } from "../units/quantity";
import { type QuantityProblem, readQuantity } from "./quantity";

/** A place in an entry: lines down from its head, and the stretch of that line. */
export interface At {
  readonly row: number;
  readonly span: Span;
}

/** A name as used or declared. */
export interface NameAt {
  readonly name: string;
  readonly at: At;
}

/** One place of a form, filled in. Fields that do not belong to its kind are empty. */
export interface Slot {
  readonly role: string;
  /** For names: the kinds of thing that fit (empty: the name is not a reference). For quantities: kinds of quantity. */
  readonly accepts: readonly string[];
  readonly at: At;
  readonly names: readonly NameAt[];
  /** Text of a string; the word of a choice, thread, grade, date, outcome, number. */
  readonly text: string;
  readonly count: number | null;
  readonly holes: readonly number[];
  readonly quantity: Quantity | null;
  readonly point: readonly [Quantity | null, Quantity | null] | null;
  readonly problems: readonly QuantityProblem[];
}

/** A form or a clause with what was filled in. */
export interface Detail {
  /** The clause's id; empty for the entry's own form. */
  readonly clause: string;
  /** The fixed words said: `new`, `still`, `back`, `every`, `time`. */
  readonly words: readonly string[];
  readonly slots: readonly Slot[];
  readonly at: At;
  /** Clauses said on the same line as this one, where it stands alone in a block (`stage snug … with torque-wrench`). */
  readonly details: readonly Detail[];
}

export interface Paragraph {
  readonly row: number;
  readonly rows: number;
  readonly text: string;
}

export interface Child {
  readonly row: number;
  readonly entry: Entry;
}

/** A line or block, read. */
export interface Entry {
  /** The construct's id; `clause` for a clause that stands where its block cannot take it in; empty for a lost head. */
  readonly construct: string;
  readonly line: Line | null;
  readonly form: Detail;
  /** Clauses on the head's line and in the block, in order. */
  readonly details: readonly Detail[];
  /** Constructs in the block, in order; broken lines are among them with an empty construct and no children. */
  readonly children: readonly Child[];
  readonly paragraphs: readonly Paragraph[];
  readonly hasBlock: boolean;
  readonly lineCount: number;
  /** The head or a line directly in the block could not be read. */
  readonly doubtful: boolean;
  /** Some line anywhere in it could not be read. */
  readonly brokenInside: boolean;
}

const kept = new WeakMap<Node, Entry>();

/** Reads a line or block; the same node gives the same entry. */
export function readEntry(node: Node): Entry {
  const known = kept.get(node);
  if (known) return known;
  const entry = "children" in node ? readBlock(node) : readSingle(node);
  kept.set(node, entry);
  return entry;
}

const NO_SPAN: Span = { start: 0, end: 0 };
const EMPTY: Detail = { clause: "", words: [], slots: [], at: { row: 0, span: NO_SPAN }, details: [] };

function readSingle(line: Line): Entry {
  const [form = EMPTY, ...details] = detailsOf(line, 0);
  const broken = line.kind === "broken";
  return {
    construct: broken ? "" : constructOf(line),
    line,
    form: broken ? { ...EMPTY, at: { row: 0, span: whole(line) } } : form,
    details,
    children: [],
    paragraphs: [],
    hasBlock: false,
    lineCount: 1,
    doubtful: broken,
    brokenInside: broken,
  };
}

const constructOf = (line: Line): string => (line.head.startsWith("+") ? "clause" : line.head);
const whole = (line: Line): Span => ({ start: line.indent, end: line.text.trimEnd().length });

function detailsOf(line: Line, row: number): Detail[] {
  if (!line.statement) return [];
  return line.statement.phrases.map((phrase) => detailOf(phrase, row));
}

function detailOf(phrase: Phrase, row: number): Detail {
  return {
    clause: phrase.clause,
    words: phrase.words,
    slots: phrase.slots.map((slot) => slotOf(slot, row)),
    at: { row, span: phrase.span },
    details: [],
  };
}

function slotOf(value: SlotValue, row: number): Slot {
  const { role, accepts, content } = value;
  const at = { row, span: value.span };
  const base: Slot = {
    role,
    accepts,
    at,
    names: [],
    text: "",
    count: null,
    holes: [],
    quantity: null,
    point: null,
    problems: [],
  };
  switch (content.kind) {
    case "names":
      return {
        ...base,
        names: content.names.map((n: NameValue) => ({ name: n.name, at: { row, span: n.span } })),
      };
    case "text":
    case "number":
      return { ...base, text: content.text };
    case "word":
      return { ...base, text: content.word };
    case "count":
      return isCounted(content.count)
        ? { ...base, count: content.count }
        : { ...base, problems: [uncounted(value.span)] };
    case "holes": {
      const holes = content.holes.filter(isCounted);
      const problems = holes.length < content.holes.length ? [uncounted(value.span)] : [];
      return { ...base, holes, problems };
    }
    case "quantity": {
      const { quantity, problems } = readQuantity(content.quantity, accepts, value.span);
      return { ...base, quantity, problems };
    }
    case "point": {
      const x = readQuantity(content.x, ["length"], content.x.span);
      const y = readQuantity(content.y, ["length"], content.y.span);
      return { ...base, point: [x.quantity, y.quantity], problems: [...x.problems, ...y.problems] };
    }
  }
}

/** Beyond this a number has lost digits, and nothing is counted to it. */
const isCounted = (count: number): boolean => Number.isSafeInteger(count);

const uncounted = (span: Span): QuantityProblem => ({ code: "bad-number", span, found: "", instead: "" });

function readBlock(block: Block): Entry {
  const head = block.head;
  const single = head ? readEntry(head) : null;
  const details: Detail[] = [...(single?.details ?? [])];
  const children: Child[] = [];
  const paragraphs: Paragraph[] = [];
  let row = head ? 1 : 0;
  let doubtful = single?.doubtful ?? true;
  let brokenInside = doubtful;
  const holds = contextOf(head);
  const context = holds === "same" ? undefined : holds;
  for (const child of block.children) {
    const node: Node = "children" in child ? child : readIn(child, context);
    const isLine = !("children" in node);
    if (isLine && node.kind === "prose") addProse(paragraphs, node, row);
    else if (isLine && phraseLike(node) && single) details.push(withOwn(detailsOf(node, row)));
    else if (!isLine && node.head?.head === "+pulley") {
      details.push(pulleyOf(node, row));
      if ([node.head, ...node.children].some((n) => "children" in n || n.kind === "broken"))
        doubtful = brokenInside = true;
    } else if (!isLine || node.kind === "statement" || node.kind === "broken") {
      const entry = readEntry(node);
      children.push({ row, entry });
      if (isLine && entry.doubtful) doubtful = true;
      if (entry.brokenInside) brokenInside = true;
    }
    row += isLine ? 1 : node.lineCount;
  }
  return {
    construct: single?.construct ?? "",
    line: head,
    form: single?.form ?? EMPTY,
    details,
    children,
    paragraphs,
    hasBlock: true,
    lineCount: block.lineCount,
    doubtful,
    brokenInside,
  };
}

/** A pulley with its facts one a line. */
function pulleyOf(block: Block, row: number): Detail {
  const lines = [block.head, ...block.children].map((n) =>
    n && !("children" in n) ? readIn(n, "pulley") : null,
  );
  return withOwn(lines.flatMap((line, i) => (line ? detailsOf(line, row + i) : [])));
}

function withOwn(details: readonly Detail[]): Detail {
  const [first = EMPTY, ...rest] = details;
  return { ...first, details: rest };
}

function addProse(paragraphs: Paragraph[], line: Line, row: number): void {
  const last = paragraphs[paragraphs.length - 1];
  if (last && last.row + last.rows === row) {
    paragraphs[paragraphs.length - 1] = {
      ...last,
      rows: last.rows + 1,
      text: `${last.text} ${line.prose}`.trim(),
    };
  } else paragraphs.push({ row, rows: 1, text: line.prose });
}

/** The first clause of an entry with this id. */
export function clauseOf(entry: { readonly details: readonly Detail[] }, clause: string): Detail | undefined {
  return entry.details.find((d) => d.clause === clause);
}

/** Every clause of an entry with this id. */
export function clausesOf(entry: { readonly details: readonly Detail[] }, clause: string): readonly Detail[] {
  return entry.details.filter((d) => d.clause === clause);
}

/** The slot of a form or clause with this role. */
export function slotIn(detail: Detail | undefined, role: string): Slot | undefined {
  return detail?.slots.find((s) => s.role === role);
}

/** The names in the slot with this role of a form or clause. */
export function namesIn(detail: Detail | undefined, role: string): readonly NameAt[] {
  return slotIn(detail, role)?.names ?? [];
}

/** The text in the slot with this role; empty where there is none. */
export function textIn(detail: Detail | undefined, role: string): string {
  return slotIn(detail, role)?.text ?? "";
}

/** The quantity in the slot with this role. */
export function quantityIn(detail: Detail | undefined, role: string): Quantity | null {
  return slotIn(detail, role)?.quantity ?? null;
}

/** The count in the slot with this role. */
export function countIn(detail: Detail | undefined, role: string): number | null {
  return slotIn(detail, role)?.count ?? null;
}

/** Every form and clause of an entry, those behind clauses included. */
export function allDetails(entry: Entry): readonly Detail[] {
  return [entry.form, ...entry.details.flatMap((d) => [d, ...d.details])];
}

/** Whether an entry has a clause. */
export function hasClause(entry: Entry, clause: string): boolean {
  return clauseOf(entry, clause) !== undefined;
}

/** The names in the slot with this role of every clause of this id. */
export function namesOfClause(entry: Entry, clause: string, role: string): readonly NameAt[] {
  return clausesOf(entry, clause).flatMap((d) => namesIn(d, role));
}
