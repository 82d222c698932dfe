/**
 * Two projects compared by meaning: which things, steps and lines are the same, what has become of them, and how grave
 * that is. The changes together make the new form of the old one; layout aside, nothing is left out.
 */
import type { Change, Comparison } from "./change";
import { applyEdits, stepsOf } from "./edits";
import type { Form } from "./form";
import { type Bundle, gather } from "./gather";
import { laidOutOtherwise } from "./layout";
import { type Matching, matchSides } from "./match";
import { formOf, type Node } from "./node";
import { namedAs, numbersOf } from "./numbers";
import { RANKS } from "./ranks";
import { type Given, readSide } from "./read";
import { change, changesIn, renamed, shadowed, type Telling } from "./tell";
import { reachOf } from "./touches";

export { type Bars, barsOf, lineKey } from "./bars";
export type * from "./change";
export { CHANGE_KINDS } from "./change";
export type { Edit } from "./edits";
export type { Form } from "./form";
export type { Lines, Piece } from "./node";
export { graver, RANKS, type Rank } from "./ranks";
export type { Given } from "./read";

/** How two projects are compared. */
export interface CompareOptions {
  /** Files that are the same, whatever their paths: old and new. */
  readonly sameFiles?: readonly (readonly [string, string])[];
  /** The usual severity of each code, against which settings are seen. */
  readonly severities?: Readonly<Record<string, string>>;
  /** Whether other line ends are a change: not between a repository, which may keep its own, and a disk. */
  readonly lineEnds?: "compare" | "ignore";
}

/** Compares two projects. Never throws: what cannot be read is compared as it is written. */
export function compareProjects(before: Given, after: Given, options: CompareOptions = {}): Comparison {
  const matching = matchSides(readSide(before), readSide(after), options.sameFiles);
  const steps = stepsOf(matching);
  const telling: Telling = {
    matching,
    numbers: { before: numbersOf(matching.before), after: numbersOf(matching.after) },
    reach: { before: reachOf(before.project), after: reachOf(after.project) },
    usual: options.severities ?? {},
  };
  const bundles = gather(matching, steps);
  const found = [
    ...bundles.flatMap((bundle) => changesIn(telling, bundle)),
    ...renames(telling, bundles),
    ...shadowed(telling),
    ...laidOutOtherwise(matching, steps, options.lineEnds ?? "compare").map(([old, fresh]) =>
      laidOut(telling, old, fresh),
    ),
  ];
  return { changes: sorted(matching, found) };
}

/** The normal form of a project. */
export function normalForm(given: Given): Form {
  return formOf(readSide(given).root);
}

/**
 * The new form of a project from the old one and all changes between them.
 * @throws Error when the changes are not those of this form
 */
export function applyChanges(form: Form, changes: readonly Change[]): Form {
  return applyEdits(
    form,
    changes.flatMap(({ edits }) => edits),
  );
}

/** Things with another name of which no line has changed by that alone. */
function renames(telling: Telling, bundles: readonly Bundle[]): readonly Change[] {
  const { matching } = telling;
  const told = new Set(bundles.filter(({ kind }) => kind === "renamed").map(({ old }) => old));
  return matching.before.nodes.flatMap((old) => {
    const fresh = matching.now.get(old);
    const hasNames = old.thing?.named && fresh?.thing?.named;
    if (!fresh || !hasNames || told.has(old) || old.thing?.name === fresh.thing?.name) return [];
    return [renamed(telling, old, fresh, [])];
  });
}

function laidOut(telling: Telling, old: Node, fresh: Node): Change {
  const bundle: Bundle = { kind: "file", facet: "", old, fresh, steps: [] };
  const made = change(telling, bundle, "laid-out", "layout", { before: null, after: null }, "file");
  return { ...made, concerns: namedAs(fresh) };
}

/** By rank, earlier by file and line of the new text; what is gone where it stood. */
function sorted({ before, after }: Matching, changes: readonly Change[]): readonly Change[] {
  const files = [...after.root.children, ...before.root.children].map(({ place }) => place.file);
  const order = ({ rank, places }: Change): readonly number[] => {
    const place = places.after ?? places.before;
    return [RANKS.indexOf(rank), place ? files.indexOf(place.file) : -1, place?.line ?? -1];
  };
  const known = changes.map((one, i) => ({ one, key: [...order(one), i] }));
  known.sort((a, b) => {
    const at = a.key.findIndex((value, i) => value !== b.key[i]);
    return at < 0 ? 0 : (a.key[at] as number) - (b.key[at] as number);
  });
  return known.map(({ one }) => one);
}
