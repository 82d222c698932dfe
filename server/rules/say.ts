/**
 * What the messages of several rules are made of: titles, kinds and contexts in words, a line as it would be repaired.
 */
import { type Context, constructs, elementsOf, type Line, type Span } from "../../grammar";
import type { Thing } from "../model";
import { thingsInWords } from "../phrases/problems";
import type { Docs } from "./types";

/** What a thing is called on the sheet; its name where it has no title. */
export function titleOf(thing: Thing): string {
  return shortened(thing.title || thing.name);
}

const LONGEST_TITLE = 48;

/** A text short enough to be quoted within a sentence. */
export function shortened(text: string): string {
  return text.length <= LONGEST_TITLE ? text : `${text.slice(0, LONGEST_TITLE - 1).trimEnd()}…`;
}

/** Words as a list: `a, b or c`. */
export function listed(words: readonly string[], and: "and" | "or"): string {
  const [last = "", ...before] = [...words].reverse();
  return before.length === 0 ? last : `${before.reverse().join(", ")} ${and} ${last}`;
}

const LONGEST_LINE = 120;

/** A line with a text put in place of a stretch, as a hint quotes it: without indentation, brace and comment. */
export function repaired(line: Line, span: Span, text: string): string {
  const end = Math.max(line.comment?.start ?? line.text.length, span.end);
  const whole = line.text.slice(0, span.start) + text + line.text.slice(span.end, end);
  const plain = whole
    .replace(/\{\s*$/, "")
    .replace(/\s+/g, " ")
    .trim();
  return plain.length <= LONGEST_LINE ? plain : `${plain.slice(0, LONGEST_LINE - 1)}…`;
}

/** What a thing is, in words: `a hose`, `a part`. */
export function kindOf(thing: Thing): string {
  const own = thing.kind === "line" || thing.kind === "belt" ? `a ${thing.entry.construct}` : undefined;
  return own ?? thingsInWords([thing.kind]);
}

const CONTEXTS: Readonly<Record<Context, string>> = {
  file: "at the top of a file",
  machine: "in a machine",
  part: "in a part",
  fastener: "in a fastener",
  fluid: "in a fluid",
  consumable: "in a consumable",
  line: "in a cable, hose or tap",
  shaft: "in a shaft",
  belt: "in a belt",
  pulley: "in a pulley",
  hazard: "in a hazard",
  procedure: "in a procedure, outside its steps",
  kit: "in a kit",
  temporary: "in a temporary",
  tool: "in a tool",
  state: "in what a job starts or ends with",
  choices: "among the answers of a condition",
  section: "in a section",
  note: "in a note",
  acts: "in a step or an outcome",
  check: "in a check",
  tightening: "in a tightening",
  caution: "in a caution",
};

/** A context in words: `in a step or an outcome`. */
export function contextInWords(context: Context): string {
  return CONTEXTS[context];
}

/** The word with which a construct, or a clause with `+` before its id, begins. */
export function headWord(id: string): string {
  const first = elementsOf(id)[0];
  return first?.type === "word" ? first.word : id;
}

/** The constructs that take a clause, by the words they begin with. */
export function takersOf(clause: string): string[] {
  return [
    ...new Set([...constructs.values()].filter((c) => c.clauses.includes(clause)).map((c) => headWord(c.id))),
  ];
}

/**
 * The two examples of a page: a text, and the same with the line that holds `fault` repaired. The texts are ours, so a
 * slip in them throws.
 * @throws Error when the text does not hold `fault` exactly once
 */
export function twins(text: string, fault: string, repair: string): Pick<Docs, "example" | "instead"> {
  if (text.split(fault).length !== 2) throw new Error(`the example does not hold “${fault}” once`);
  return { example: text, instead: text.replace(fault, () => repair) };
}
