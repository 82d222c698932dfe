/**
 * Text of one line → line. A line is read without knowing any other, so the same text always gives the same,
 * interned, line.
 */
import type { IToken } from "chevrotain";
import { type Context, formsByHead, type LineForm } from "./constructs";
import { parseForm, type Reading } from "./parser";
import { afterProse, headProblem, lineTooLong, quoteNotClosed, spanOf, stopProblem } from "./slips";
import type { Line, LineKind, NameValue, Problem } from "./statement";
import type { Span } from "./text";
import * as t from "./tokens";
import { fits } from "./tree";
import { unquote } from "./values";

/** Lines of a generation; a line not asked for during a whole generation is forgotten. */
const GENERATION = 150_000;
let interned = new Map<string, Line>();
let older = new Map<string, Line>();

/** Reads one line; equal texts give the same object. Never throws. */
export function parseLine(text: string): Line {
  const known = interned.get(text);
  if (known) return known;
  if (interned.size >= GENERATION) {
    older = interned;
    interned = new Map();
  }
  const line = older.get(text) ?? readLine(text);
  interned.set(line.text, line);
  return line;
}

/** The longest line that is read, in UTF-16 units; a longer one is one problem. */
export const LONGEST_LINE = 20_000;

function readLine(text: string): Line {
  if (text.length > LONGEST_LINE)
    return makeLine(text, null, "broken", { problems: [lineTooLong(LONGEST_LINE)] });
  const lexed = t.lexLine(text);
  const last = lexed[lexed.length - 1];
  const comment = last?.tokenType === t.Comment ? spanOf(last) : null;
  if (comment) lexed.pop();
  const head = lexed[0];
  if (!head) return makeLine(text, comment, comment ? "comment" : "blank", {});
  if (lexed.length === 1 && head.tokenType === t.Text)
    return makeLine(text, comment, "prose", { prose: unquote(head.image) });
  if (lexed.length === 1 && head.tokenType === t.Close) return makeLine(text, comment, "close", {});
  return readTokens(text, comment, lexed, head);
}

const NO_PROBLEMS: readonly Problem[] = [];
const NO_NAMES: readonly NameValue[] = [];

/** Every line has the same fields in the same order, which keeps reading them fast. */
function makeLine(text: string, comment: Span | null, kind: LineKind, more: Partial<Line>): Line {
  return {
    text,
    kind,
    indent: text.length - text.trimStart().length,
    head: more.head ?? "",
    statement: more.statement ?? null,
    problems: more.problems ?? NO_PROBLEMS,
    prose: more.prose ?? "",
    opens: more.opens ?? false,
    comment,
    perhaps: more.perhaps ?? NO_NAMES,
  };
}

function readTokens(text: string, comment: Span | null, all: IToken[], head: IToken): Line {
  const last = all[all.length - 1] as IToken;
  // A string that was not closed swallows the brace behind it: the brace is still meant.
  const swallowed = last.tokenType === t.OpenText && /\{\s*(?:\/\/[\s\S]*)?$/.test(last.image);
  const opens = last.tokenType === t.Open || swallowed;
  if (last.tokenType === t.Open) all.pop();
  const broken = (id: string, problem: Problem): Line =>
    makeLine(text, comment, "broken", { head: id, problems: [problem], opens, perhaps: namesOf(all) });
  if (head.tokenType === t.Text) return broken("", afterProse(all, last));
  if (head.tokenType === t.OpenText) return broken("", quoteNotClosed(head));
  const forms = formsByHead.get(head.image);
  if (!forms || all.length === 0) return broken("", headProblem(all[0], last));
  const { form, phrases, stop } = bestReading(forms, all);
  const id = idOf(form);
  if (stop) return broken(id, stopProblem(form, stop, all));
  const statement = { construct: form.clause ? "" : form.id, phrases };
  return makeLine(text, comment, "statement", { head: id, statement, opens });
}

/**
 * A line read again where the block it stands in tells that another form of its word is meant: `on crank` in a mark is
 * the mark's shaft, not a procedure's machine. The line itself where its own reading fits, or none does.
 */
export function readIn(line: Line, context: Context | undefined): Line {
  if (!context || line.kind !== "statement" || fits(line, context)) return line;
  const tokens = t
    .lexLine(line.text)
    .filter(({ tokenType }) => tokenType !== t.Comment && tokenType !== t.Open);
  for (const form of formsByHead.get(tokens[0]?.image ?? "") ?? []) {
    const head = idOf(form);
    if (head === line.head || !fits({ ...line, head }, context)) continue;
    const { phrases, stop } = parseForm(form, tokens);
    if (!stop) return { ...line, head, statement: { construct: form.clause ? "" : form.id, phrases } };
  }
  return line;
}

const idOf = (form: LineForm): string => (form.clause ? `+${form.id}` : form.id);

type FormReading = Reading & { readonly form: LineForm };

/** The first form that reads the whole line, else the one that reads furthest. */
function bestReading(forms: readonly LineForm[], tokens: IToken[]): FormReading {
  let best: FormReading | undefined;
  for (const form of forms) {
    const reading = { form, ...parseForm(form, tokens) };
    if (!reading.stop) return reading;
    if (!best || reach(reading) > reach(best)) best = reading;
  }
  return best as FormReading;
}

const reach = (reading: Reading): number => reading.stop?.after?.startOffset ?? 0;

/** Every word of a broken line, since any could be a name. */
function namesOf(tokens: readonly IToken[]): NameValue[] {
  return tokens
    .filter(
      ({ tokenType, image }) => tokenType !== t.OpenText && tokenType !== t.Text && /[\p{L}_]/u.test(image),
    )
    .map((token) => ({ name: token.image.normalize("NFC"), span: spanOf(token) }));
}
