/** A line that cannot be read. */
import type { Line, Problem } from "../../grammar";
import type { At } from "../facts";
import { expectationHint, expectationWords, PROBLEM_PHRASES, REPAIR_HINT } from "../phrases/problems";
import { hasLookAlikes } from "./look-alike-letter";
import { repaired, shortened, twins } from "./say";
import type { Args, Fault, LineRule } from "./types";

/** The problems of the grammar but those that have a code of their own. */
const PHRASES = Object.entries(PROBLEM_PHRASES).filter(([id]) => id !== "decimal-comma");

/** Where the nearest word or the spelling here is known the hint is always the repaired line. */
const HINTED = PHRASES.filter(([id, { hint }]) => !id.endsWith("-near") && hint !== "Write {instead}.");

export const notUnderstood: LineRule = {
  code: "not-understood",
  severity: "error",
  group: "names and shape",
  grain: "line",
  messages: {
    ...Object.fromEntries(PHRASES.map(([id, { message }]) => [id, message])),
    ...Object.fromEntries(HINTED.map(([id, { hint }]) => [`${id}-hint`, hint])),
    repair: REPAIR_HINT,
    fix: "Write {text}",
  },
  docs: {
    what: "A line does not read as any line of the language: a word is mistyped or missing, a quote is open, something stands where it has no meaning.",
    why: "Nothing on such a line can be checked or printed. Every other line is read as if it were in order.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum" wieght 80 kg
}
`,
      "wieght",
      "weight",
    ),
  },
  check(line, report) {
    // A letter of another alphabet, or a sign that cannot be seen, is told by a rule of its own.
    if (line.problems.length === 0 || hasLookAlikes(line)) return;
    for (const problem of line.problems)
      if (problem.message !== "decimal-comma") report(faultOf(line, problem));
  },
};

function faultOf(line: Line, { message, args, span, replace }: Problem): Fault<At> {
  const place = { row: 0, span };
  const said: Args = { ...shortArgs(args), ...wanted(args.expected) };
  if (!replace) return { place, message, args: said };
  const repair = { ...said, line: repaired(line, replace.span, replace.text), text: shortened(replace.text) };
  const fix = {
    title: { id: "fix", args: repair },
    safe: false,
    changes: [{ place: { row: 0, span: replace.span }, text: replace.text }],
  };
  return { place, message, args: repair, hint: "repair", fixes: [fix] };
}

function wanted(expected: string | undefined): Args {
  return expected === undefined
    ? {}
    : { wanted: expectationWords(expected), example: expectationHint(expected) };
}

const shortArgs = (args: Args): Args =>
  Object.fromEntries(
    Object.entries(args).map(([name, text]) => [name, name === "may" ? text : shortened(text)]),
  );
