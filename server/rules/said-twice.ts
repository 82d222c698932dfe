/** One fact said twice of one thing: only one of the two can hold. */
import type { At, Detail, Entry } from "../facts";
import { headWord, twins } from "./say";
import type { BlockRule } from "./types";

/** Clauses that add to what was said before. */
const ADDING: ReadonlySet<string> = new Set([
  "behind",
  "can",
  "carries",
  "contains",
  "face",
  "hole",
  "holes",
  "like",
  "locked-by",
  "meshes",
  "never",
  "only-on",
  "or-tool",
  "pulley",
  "raised-by",
  "secures",
  "serial",
  "so",
  "stage",
  "through",
  "with",
]);

/** Clauses whose form has several facts in it: each may be said once. */
const SEVERAL_FACTS: ReadonlySet<string> = new Set(["renew", "reuse"]);

/** Lines that a procedure or a check can have only one of. */
const SINGLE: Readonly<Record<string, readonly string[]>> = {
  procedure: ["on", "document", "status", "working-time", "starts", "ends"],
  check: ["record"],
};

export const saidTwice: BlockRule = {
  code: "said-twice",
  severity: "error",
  group: "names and shape",
  grain: "block",
  messages: {
    main: "“{word}” is said twice, and only one of the two can hold.",
    hint: "Keep the one that is right, and take the other out.",
    first: "“{word}” was first said here.",
  },
  docs: {
    what: "A fact is said twice of one thing, in two lines or twice on one.",
    why: "Two values for one fact: a reader takes the first, another the second, and one of them is wrong.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    class 8.8
    class 10.9
  }
}
`,
      "    class 10.9",
      "    count 4",
    ),
  },
  check(entry, report) {
    const tell = (word: string, first: At, place: At): void =>
      report({ place, args: { word }, related: [{ place: first, message: "first", args: { word } }] });
    twiceIn(entry.details, tell);
    for (const detail of entry.details) twiceIn(detail.details, tell);
    lines(entry, tell);
  },
};

type Tell = (word: string, first: At, place: At) => void;

function twiceIn(details: readonly Detail[], tell: Tell): void {
  const first = new Map<string, At>();
  for (const { clause, words, at } of details) {
    if (ADDING.has(clause) || clause === "") continue;
    const key = SEVERAL_FACTS.has(clause) ? [clause, ...words].join(" ") : clause;
    const before = first.get(key);
    if (before) tell(headWord(`+${clause}`), before, at);
    else first.set(key, at);
  }
}

function lines(entry: Entry, tell: Tell): void {
  for (const construct of SINGLE[entry.construct] ?? []) {
    const [first, ...more] = entry.children.filter((c) => c.entry.construct === construct);
    const at = (child: typeof first): At => ({
      row: (child?.row ?? 0) + (child?.entry.form.at.row ?? 0),
      span: child?.entry.form.at.span ?? { start: 0, end: 0 },
    });
    for (const again of more) tell(headWord(construct), at(first), at(again));
  }
}
