/**
 * The one table of constructs and clauses, with its patterns read and its indexes made.
 */
import { type Element, readPattern, wordsOf } from "../pattern";
import { ACT_CONSTRUCTS } from "./acts";
import { CLAUSES } from "./clauses";
import { MACHINE_CONSTRUCTS } from "./machine";
import { PROCEDURE_CONSTRUCTS } from "./procedure";
import type { Clause, Construct, Context } from "./types";

export type { Clause, Construct, Context } from "./types";

export const CONSTRUCTS: readonly Construct[] = [
  ...MACHINE_CONSTRUCTS,
  ...PROCEDURE_CONSTRUCTS,
  ...ACT_CONSTRUCTS,
];

export const constructs: ReadonlyMap<string, Construct> = new Map(CONSTRUCTS.map((c) => [c.id, c]));
export const clauses: ReadonlyMap<string, Clause> = new Map(CLAUSES.map((c) => [c.id, c]));

const patterns = new Map<string, readonly Element[]>();
for (const construct of CONSTRUCTS) patterns.set(construct.id, readPattern(construct.form));
for (const clause of CLAUSES) patterns.set(`+${clause.id}`, readPattern(clause.form));

/** The elements of a construct's form, or of a clause's with `+` before its id. */
export function elementsOf(id: string): readonly Element[] {
  return patterns.get(id) ?? [];
}

/** A form that a line may have: a construct, or a clause standing alone in a block. */
export interface LineForm {
  readonly id: string;
  readonly clause: boolean;
  readonly follow: readonly string[];
}

/** The forms that begin with a word. */
export const formsByHead: ReadonlyMap<string, readonly LineForm[]> = (() => {
  const map = new Map<string, LineForm[]>();
  const add = (form: LineForm): void => {
    const first = elementsOf(form.clause ? `+${form.id}` : form.id)[0];
    if (first?.type !== "word") throw new Error(`form ${form.id} does not begin with a word`);
    map.set(first.word, [...(map.get(first.word) ?? []), form]);
  };
  for (const c of CONSTRUCTS) add({ id: c.id, clause: false, follow: c.clauses });
  for (const c of CLAUSES) add({ id: c.id, clause: true, follow: c.follow });
  return map;
})();

/** Words that mean something inside a quantity, a count or an outcome. */
const SLOT_WORDS = ["over", "under", "about", "at", "least", "most", "to", "not", "met", "one"];

/** Every word that means something somewhere in a form. */
export const KEYWORDS: ReadonlySet<string> = new Set([
  ...SLOT_WORDS,
  ...[...patterns.values()].flatMap(wordsOf),
]);

/** The clauses that may stand alone, one a line, in a block of each context. */
export const clausesWithin: ReadonlyMap<Context, ReadonlySet<string>> = (() => {
  const map = new Map<Context, Set<string>>();
  for (const c of CONSTRUCTS) {
    if (c.block === "never" || !c.holds || c.holds === "same") continue;
    const own = map.get(c.holds) ?? new Set<string>();
    for (const id of c.clauses) own.add(id);
    map.set(c.holds, own);
  }
  map.set("tightening", new Set([...(map.get("tightening") ?? []), "stage", "with", "holding"]));
  map.set("pulley", new Set(clauses.get("pulley")?.follow ?? []));
  return map;
})();

/** The words that begin a clause, and so cannot be taken for a unit, on a line of this form. */
export function stopWords(form: LineForm): ReadonlySet<string> {
  const key = (form.clause ? "+" : "") + form.id;
  let stops = stopCache.get(key);
  if (!stops) {
    const own = elementsOf(key).slice(1);
    stops = new Set(["to", ...wordsOf(own), ...form.follow.flatMap((id) => wordsOf(elementsOf(`+${id}`)))]);
    stopCache.set(key, stops);
  }
  return stops;
}
const stopCache = new Map<string, ReadonlySet<string>>();
