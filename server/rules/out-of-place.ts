/** A line where it has no meaning: an act in a machine, a torque in a step. */
import { type Construct, type Context, clausesWithin, constructs } from "../../grammar";
import type { At, Child, Detail, Entry } from "../facts";
import { placeAt } from "../model";
import { contextInWords, headWord, listed, takersOf, twins } from "./say";
import type { Args, FileRule } from "./types";

interface Misplaced {
  readonly at: At;
  readonly message?: string;
  readonly args: Args;
}

export const outOfPlace: FileRule = {
  code: "out-of-place",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "“{word}” has no place {where}.",
    hint: "A “{word}” line stands {places}.",
    clause: "“{word}” says nothing {where}.",
    "clause-hint": "“{word}” belongs to {places}.",
    otherwise: "“otherwise” follows no “when” block.",
    "otherwise-hint": "Put it right behind the “}” of the “when” block whose other case it is.",
  },
  docs: {
    what: "A line stands in a block of a kind that cannot hold it.",
    why: "What a machine is and what is done to it are kept apart, so that one machine file serves many procedures.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
  remove drum
}
`,
      "  remove drum",
      `  part rope "Rope"`,
    ),
  },
  check(file, report) {
    const faults = misplacedIn(file.entries, "file");
    for (const { at, ...fault } of faults) report({ ...fault, place: placeAt(file.path, 0, at) });
  },
};

/** Looks through the lines of a block of this context; of a lost one nothing is known. */
function misplacedIn(children: readonly Child[], context: Context | null): Misplaced[] {
  return children.flatMap(({ row, entry }, i) => {
    const own = entryFault(entry, context, children[i - 1]?.entry);
    return [...own, ...inside(entry, context)].map((m) => ({ ...m, at: { ...m.at, row: m.at.row + row } }));
  });
}

const kept = new WeakMap<Entry, Map<Context | null, readonly Misplaced[]>>();

/** What is misplaced within an entry that stands in this context; kept, since a block rarely changes. */
function inside(entry: Entry, outer: Context | null): readonly Misplaced[] {
  if (!entry.hasBlock) return [];
  const byContext = kept.get(entry) ?? new Map<Context | null, readonly Misplaced[]>();
  kept.set(entry, byContext);
  const known = byContext.get(outer);
  if (known) return known;
  const holds = constructs.get(entry.construct)?.holds ?? null;
  const context = holds === "same" ? outer : holds;
  const made = [
    ...entry.details.flatMap((d) => clauseFaults(d, context)),
    ...misplacedIn(entry.children, context),
  ];
  byContext.set(outer, made);
  return made;
}

function entryFault(entry: Entry, context: Context | null, before: Entry | undefined): Misplaced[] {
  if (!context || entry.construct === "") return [];
  if (entry.construct === "clause") return clauseFault(entry.form, context);
  const construct = constructs.get(entry.construct);
  if (!construct || entry.line === null) return [];
  if (construct.within.length > 0 && !construct.within.includes(context))
    return [misplaced(construct, entry.form.at, context)];
  const orphan = construct.id === "otherwise" && before?.construct !== "when" && before?.construct !== "";
  return orphan ? [{ at: entry.form.at, message: "otherwise", args: {} }] : [];
}

function misplaced(construct: Construct, at: At, context: Context): Misplaced {
  const places = listed(construct.within.map(contextInWords), "or");
  return { at, args: { word: headWord(construct.id), where: contextInWords(context), places } };
}

/** Clauses on the head's own line are those of its form; only those on lines of the block can be out of place. */
function clauseFaults(detail: Detail, context: Context | null): Misplaced[] {
  if (detail.clause === "pulley")
    return detail.details.flatMap((d) => (d.at.row > detail.at.row ? clauseFault(d, "pulley") : []));
  return context && detail.at.row > 0 ? clauseFault(detail, context) : [];
}

function clauseFault({ clause, at }: Detail, context: Context): Misplaced[] {
  if (clause === "" || clausesWithin.get(context)?.has(clause)) return [];
  const places = listed(
    takersOf(clause)
      .slice(0, 5)
      .map((word) => `“${word}”`),
    "and",
  );
  return [
    { at, message: "clause", args: { word: headWord(`+${clause}`), where: contextInWords(context), places } },
  ];
}
