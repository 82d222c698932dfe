/**
 * What a change comes to: which way a figure went, which acts something now comes before, which act a caution warns of.
 */
import { courseOf, sameAmount } from "./amounts";
import type { Effect } from "./change";
import { isClause, type Own, PROSE, type QuantityValue } from "./form";
import { type Bundle, overtaken } from "./gather";
import { CAUTIONS, type Matching } from "./match";
import { type Node, type Piece, within } from "./node";
import { isAct, isTarget } from "./numbers";

/** So many acts are named; the rest are counted. */
const MOST_NAMED = 3;

/** What the edits of a bundle come to. */
export function effectsOf(matching: Matching, bundle: Bundle): readonly Effect[] {
  const { kind, old, fresh } = bundle;
  if (kind === "facts") return amountEffect(bundle);
  if (kind === "moved" && old && fresh)
    return [...passingEffects(matching, old, fresh), ...warning("warns-of", fresh)];
  // Of a block that was split off, what is in it was there before.
  const isWhole = bundle.steps.every(({ edit }) => edit.op !== "move") || !isTarget(fresh ?? (old as Node));
  if (kind === "added" && fresh) return [...warning("warns-of", fresh), ...(isWhole ? holding(fresh) : [])];
  if (kind === "removed" && old) return [...warning("warned-of", old), ...(isWhole ? holding(old) : [])];
  return [];
}

/** Which way the one figure went that has changed; nothing where several did. */
function amountEffect({ steps }: Bundle): readonly Effect[] {
  const found = steps.flatMap(({ edit }) =>
    edit.op === "set" ? amountsIn(edit.before, edit.after) : [null],
  );
  const [only] = found;
  const course = found.length === 1 && only ? courseOf(only[0], only[1]) : null;
  return course ? [{ id: "amount", ...course }] : [];
}

/** The quantities that differ between what two nodes say; null for another difference. */
function amountsIn(before: Own, after: Own): readonly ([QuantityValue, QuantityValue] | null)[] {
  return after.slots.flatMap(({ role, value }) => {
    const was = before.slots.find((slot) => slot.role === role)?.value;
    if (JSON.stringify(was) === JSON.stringify(value)) return [];
    if (was?.kind !== "quantity" || value.kind !== "quantity") return [null];
    return sameAmount(was, value) ? [] : [[was, value]];
  });
}

function passingEffects(matching: Matching, old: Node, fresh: Node): readonly Effect[] {
  const act = toldAs(fresh);
  const all = overtaken(matching, old, fresh);
  const acts = all.filter(isAct);
  const passed = acts.length > 0 ? acts : all;
  const nearby = new Set(within(fresh).flatMap(({ meant }) => meant.map(({ thing }) => thing)));
  const related = (node: Node): number =>
    node.meant.some(({ thing }) => thing && nearby.has(thing)) ? 0 : 1;
  return (["before", "after"] as const).flatMap((id): Effect[] => {
    const here = passed.filter((other) => other.number > fresh.number === (id === "before"));
    if (here.length === 0) return [];
    // What has to do with the same things is named first, earlier what is nearest.
    const sorted = [...here].sort(
      (a, b) =>
        related(a) - related(b) || Math.abs(a.number - fresh.number) - Math.abs(b.number - fresh.number),
    );
    const named = new Set(sorted.slice(0, MOST_NAMED));
    const others = here.filter((one) => named.has(one)).map(toldAs);
    return [{ id, act, others, more: here.length - others.length }];
  });
}

/** So many lines of a block that came or went are told. */
const MOST_TOLD = 6;

/** What is done in a block. */
function holding(block: Node): readonly Effect[] {
  const acts = within(block).filter((node) => node !== block && isDone(node));
  if (acts.length === 0) return [];
  return [
    { id: "holds", others: acts.slice(0, MOST_TOLD).map(toldAs), more: Math.max(0, acts.length - MOST_TOLD) },
  ];
}

const isDone = (node: Node): boolean =>
  isAct(node) || ["limit", "marks", "observe", "choose", "item", "end-job"].includes(node.kind);

/** The act that a caution stands before. */
function warning(id: "warns-of" | "warned-of", caution: Node): readonly Effect[] {
  if (!CAUTIONS.includes(caution.kind)) return [];
  const siblings = caution.parent?.children ?? [];
  const next = siblings
    .slice(siblings.indexOf(caution) + 1)
    .find(({ kind }) => kind !== PROSE && kind !== "allow" && !CAUTIONS.includes(kind));
  const act = next && (within(next).find(isAct) ?? next);
  return act ? [{ id, act: toldAs(act) }] : [];
}

/** A line with its clauses, as it is told. */
export function toldAs(node: Node): readonly Piece[] {
  const says = (child: Node): boolean => isClause(child) || (child.kind === PROSE && isCaution(node));
  // A caution's text stands before what it can do and how to avoid it.
  const parts = node.children
    .filter(says)
    .sort((a, b) => rankOfPart(a) - rankOfPart(b) || a.place.line - b.place.line || a.column - b.column);
  return [...node.pieces, ...parts.flatMap((part) => [{ text: " " }, ...toldAs(part)])];
}

const isCaution = ({ kind }: Node): boolean => CAUTIONS.includes(kind) || kind === "note";
const rankOfPart = ({ kind }: Node): number => (kind === PROSE ? 0 : 1);
