/**
 * What is said of a line that cannot be read, in English: a message and a hint for each id of `grammar/slips.ts`, as
 * templates with `{argument}`s, and what would have fitted in plain words.
 */

/** What is wrong, and what to do about it. */
export interface ProblemPhrase {
  readonly message: string;
  readonly hint: string;
}

/**
 * The hint where the repair is certain (the problem has a `replace`): `{line}` is the writer's line with it made. It
 * stands in place of the phrase's own hint.
 */
export const REPAIR_HINT = "Write “{line}”.";

/** By message id. `{wanted}` is `expectationWords` of the argument `expected`, `{example}` is `expectationHint` of it. */
export const PROBLEM_PHRASES = {
  "line-too-long": {
    message: "This line is longer than {most} signs, so it is not read.",
    hint: "Split it into several lines.",
  },
  "after-prose": {
    message: "A line of text ends with its closing quote; here “{found}” follows.",
    hint: 'Give it a line of its own, or take it away. A quote within the text is written “\\"”.',
  },
  "quote-not-closed": {
    message: "The closing quote is missing.",
    hint: "Close the text with a quote.",
  },
  "head-missing": {
    message: "A brace stands here without the words that say what the block is.",
    hint: "Write the words before it, such as “note”, or take the brace away.",
  },
  "brace-not-alone": {
    message: "The “{brace}” is not in its place.",
    hint: "An opening brace stands last on its line, a closing one alone on its line.",
  },
  "stray-sign": {
    message: "“{found}” has no meaning here.",
    hint: "Take it away. Names are written with letters, digits and hyphens, text for the reader in quotes.",
  },
  "unknown-word": {
    message: "No line begins with “{found}”.",
    hint: "A line begins with a word such as “part”, “remove” or “step”; text for the reader stands in quotes.",
  },
  "unknown-word-near": {
    message: "No line begins with “{found}”. Did you mean “{near}”?",
    hint: "Begin the line with “{near}”.",
  },
  "expected-found": {
    message: "After “{after}” comes {wanted}, not “{found}”.",
    hint: "{example}",
  },
  "expected-end": {
    message: "After “{after}” comes {wanted}.",
    hint: "{example}",
  },
  "not-understood": {
    message: "“{found}” is not understood here, after “{after}”.",
    hint: "What may follow: {may}. Anything else stands on a line of its own.",
  },
  "not-understood-near": {
    message: "“{found}” is not understood here. Did you mean “{near}”?",
    hint: "Write “{near}” in its place.",
  },
  "nothing-more": {
    message: "The line is complete before “{found}”.",
    hint: "Take the rest away, or give it a line of its own.",
  },
  "decimal-comma": {
    message: "A decimal is written with a point: {instead}, not {found}.",
    hint: "Write {instead}.",
  },
  "share-before-unit": {
    message: "The unit stands behind its number, before a tolerance in per cent: {instead}, not {found}.",
    hint: "Write {instead}.",
  },
  "tolerance-in-brackets": {
    message: "A value and its tolerance need no brackets: {instead}.",
    hint: "Write {instead}.",
  },
  deviations: {
    message: "A tolerance with two sides is written {instead}, not {found}.",
    hint: "Write {instead}.",
  },
  "mixed-fraction": {
    message: "A whole number and its fraction are parted by a space: {instead}, not {found}.",
    hint: "Write {instead}.",
  },
  "inch-mark": {
    message: "Inches are written “in”: {instead}, not {found}.",
    hint: "Write {instead}.",
  },
  "left-hand-mark": {
    message: "A left-hand thread is said by a word of its own, not by “{found}” behind “{thread}”.",
    hint: "Give “left-hand” a line of its own.",
  },
  "length-behind-thread": {
    message: "A thread is its size and pitch; the bolt’s length does not belong to it.",
    hint: "End it at “thread {thread}”. Where lengths differ, say “holes 1, 2  length 40 mm”.",
  },
  "range-by-dash": {
    message: "A range is written with “to”: {instead}, not {found}.",
    hint: "Write {instead}.",
  },
  "one-deviation": {
    message: "“{found}” says how far the value may lie on one side alone.",
    hint: "Say both sides, such as {instead}; for as far either way write ±.",
  },
  "second-limit": {
    message: "“{found}” sets a second limit beside “{word}”.",
    hint: "Write a value with its tolerance, or a range, or a bound; not two of them.",
  },
} as const satisfies Readonly<Record<string, ProblemPhrase>>;

/** A message id of a line that cannot be read. */
export type ProblemId = keyof typeof PROBLEM_PHRASES;

/** Kinds of thing that are not called by a plain article and their own word. */
const THINGS: Readonly<Record<string, string>> = {
  line: "a cable, hose, pipe or tap",
  consumable: "a supply",
  temporary: "a temporary item",
  option: "an option",
  "one-of": "a condition with several answers",
  member: "a member of a set",
};

/** Kinds of thing in words: `a part or a fastener`. */
export function thingsInWords(kinds: readonly string[]): string {
  return listed(kinds.map((thing) => THINGS[thing] ?? `a ${thing}`));
}

const MEASURES: Readonly<Record<string, string>> = {
  angle: "an angle",
  length: "a length",
  mass: "a weight",
  pressure: "a pressure",
  temperature: "a temperature",
  time: "a time",
  torque: "a torque",
  voltage: "a voltage",
  volume: "a volume",
};

const PLACES: Readonly<Record<string, string>> = {
  NAME: "a name",
  NAMES: "a name",
  TEXT: "a text in quotes",
  QUANTITY: "a figure with its unit",
  COUNT: "a whole number",
  NUMBER: "a number",
  HOLES: "the number of a hole",
  POINT: "a place, two lengths with a comma between",
  DATE: "a date",
  THREAD: "a thread",
  GRADE: "a class",
  OUTCOME: "how it turned out",
};

/**
 * What would have fitted, in plain words: `NAMES part fastener` is “the name of a part or a fastener”, `word again` is
 * “again” in quotes, `QUANTITY torque or TEXT` is “a torque or a text in quotes”.
 *
 * @param expected the argument `expected` of a problem
 */
export function expectationWords(expected: string): string {
  const words = expected.split(" or ").map(wanted);
  return listed([...new Set(words)]);
}

function wanted(expected: string): string {
  const [kind = "", ...accepts] = expected.split(" ");
  if (kind === "word" || kind === "CHOICE") return listed(accepts.map((word) => `“${word}”`));
  if (accepts.length === 0) return PLACES[kind] ?? "something more";
  if (kind === "QUANTITY") return listed(accepts.map((measure) => MEASURES[measure] ?? `a ${measure}`));
  return `the name of ${thingsInWords(accepts)}`;
}

/** Words as a list: `a, b or c`. */
function listed(words: readonly string[]): string {
  const before = words.slice(0, -1);
  const last = words[words.length - 1] ?? "";
  return before.length > 0 ? `${before.join(", ")} or ${last}` : last;
}

const FIGURES: Readonly<Record<string, string>> = {
  angle: "90°",
  length: "25 mm",
  mass: "4 kg",
  pressure: "2.5 bar",
  temperature: "40 °C",
  time: "3 h 30 min",
  torque: "22 N·m",
  voltage: "12 V",
  volume: "4.2 L",
};

/** Kinds of quantity in words, each with an example: `a torque, such as 22 N·m`. */
export function measuresInWords(kinds: readonly string[]): string {
  const words = kinds.map((kind) => {
    const example = FIGURES[kind] ? `, such as ${FIGURES[kind]}` : "";
    return `${MEASURES[kind] ?? `a ${kind.replace("-", " ")}`}${example}`;
  });
  return words.join(", or ");
}

const EXAMPLES: Readonly<Record<string, string>> = {
  TEXT: "Text stands in quotes, and both quotes on this line.",
  COUNT: "Write “4”, or a word from “two” to “twelve”.",
  NUMBER: "Write “2”, “0.5” or “1/2”.",
  HOLES: "Write “3”, “1 to 4” or “1, 2, 4”.",
  POINT: "Write “110 mm, 240 mm”.",
  DATE: "Write the year first: “2026-11-20”.",
  THREAD: "Write “M8”, “M12 x 1.25” or “1/2-13”.",
  GRADE: "Write “8.8” or “A2-70”.",
  OUTCOME: "Write “over”, “under”, “met”, “not met”, “yes” or “no”.",
};

/** How the first of what would have fitted is written. */
export function expectationHint(expected: string): string {
  const [kind = "", first = ""] = (expected.split(" or ")[0] ?? "").split(" ");
  if (kind === "word" || kind === "CHOICE") return `Write “${first}” behind it.`;
  if (kind === "QUANTITY") return `Write the figure with its unit, such as “${FIGURES[first] ?? "25 mm"}”.`;
  if (kind === "NAME" || kind === "NAMES")
    return "Write the name, a word with hyphens, not the title in quotes.";
  return EXAMPLES[kind] ?? "The line is not complete.";
}
