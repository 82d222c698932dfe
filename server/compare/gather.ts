/**
 * Gathers edits that a reader takes for one change: all that was done to a fastener's stages, to one act, to one caution;
 * a block that came with all that is in it; a name with all its uses.
 */
import type { Step } from "./edits";
import { FILE, isClause, PROSE, SETTING, SETTINGS } from "./form";
import { CAUTIONS, type Matching } from "./match";
import { type Node, nearest, within } from "./node";
import { isAct, isDeclaration, isTarget } from "./numbers";

/** How edits belong together. */
export type BundleKind =
  | "facts" // facts of one facet of a thing, a line or an act
  | "added"
  | "removed"
  | "moved"
  | "regrouped" // elsewhere, and done in the same order as before
  | "reordered" // elsewhere, where the order means nothing
  | "renamed"
  | "use"
  | "setting"
  | "file";

export interface Bundle {
  readonly kind: BundleKind;
  /** Of the facts of a thing: which; else empty. */
  readonly facet: string;
  readonly old: Node | null;
  readonly fresh: Node | null;
  readonly steps: readonly Step[];
}

type Growing = Omit<Bundle, "steps"> & { readonly steps: Step[] };

/** Clauses that say one fact together. */
const FACETS: Readonly<Record<string, string>> = {
  "+stage": "tightening",
  "+tighten-to": "tightening",
  "+dry": "thread-state",
  "+oiled": "thread-state",
  "+locked": "thread-state",
  "+as-supplied": "thread-state",
  "+crosswise": "order",
  "+from-middle": "order",
  "+from-ends": "order",
  "+order": "order",
  "+renew": "renewal",
  "+reuse": "renewal",
};

/** The facet that a clause is part of. */
export const facetOf = ({ kind }: Node): string => FACETS[kind] ?? kind;

/** The node of which a reader would say that it has changed, and which facet of it; empty for the whole. */
export function unitOf(node: Node): { readonly unit: Node; readonly facet: string } {
  let clause: Node | null = null;
  let unit = node;
  while (isClause(unit) && unit.parent) {
    clause = unit;
    unit = unit.parent;
  }
  if (unit.kind === PROSE && unit.parent && CAUTIONS.includes(unit.parent.kind))
    return { unit: unit.parent, facet: "" };
  return { unit, facet: clause && isDeclaration(unit) ? facetOf(clause) : "" };
}

/** Gathers the edits of a comparison. */
export function gather(matching: Matching, steps: readonly Step[]): readonly Bundle[] {
  const bundles = new Map<string, Growing>();
  for (const step of steps) {
    const target = targetOf(matching, step);
    if (!target) continue;
    const { kind, old, fresh, facet } = target;
    const key = `${kind} ${old?.number ?? ""} ${old ? "" : (fresh?.number ?? "")} ${facet}`;
    const known = bundles.get(key) ?? { ...target, steps: [] };
    known.steps.push(step);
    bundles.set(key, known);
  }
  return [...bundles.values()];
}

/** The bundle that an edit belongs to. */
type Target = Omit<Bundle, "steps">;

function target(kind: BundleKind, old: Node | null, fresh: Node | null, facet = ""): Target {
  return { kind, old, fresh, facet };
}

function targetOf(matching: Matching, { old, fresh, edit }: Step): Target | null {
  if (edit.op === "add" && fresh) return targetOfWhole(matching, fresh, "added");
  if (edit.op === "remove" && old) return targetOfWhole(matching, old, "removed");
  if (!old || !fresh) return null;
  if (edit.op === "move") return targetOfMove(matching, old, fresh);
  if (old.kind === FILE || old.kind === SETTINGS) return target("file", old, fresh);
  if (old.kind === SETTING) return target("setting", old, fresh);
  if (old.kind === "use") return target("use", fileOf(old), fileOf(fresh));
  const renamed = matching.saidBy(old) === matching.saidBy(fresh) ? renamedIn(matching, old, fresh) : null;
  if (renamed) return target("renamed", renamed, matching.now.get(renamed) ?? null);
  return targetOfFacts(matching, fresh);
}

/** The thing of which a line that means the same has a new name. */
function renamedIn({ now, before }: Matching, old: Node, fresh: Node): Node | null {
  if (old.thing && old.thing.name !== fresh.thing?.name) return old;
  for (const [i, { name, thing }] of old.meant.entries()) {
    const node = thing && before.byThing.get(thing);
    if (node && fresh.meant[i]?.name !== name && now.has(node)) return node;
  }
  return null;
}

const fileOf = (node: Node): Node | null => nearest(node, ({ kind }) => kind === FILE);

/** What came or went as a whole belongs to the outermost node that did. */
function targetOfWhole(matching: Matching, node: Node, kind: "added" | "removed"): Target {
  const { now, earlier } = matching;
  const isPaired = (one: Node): boolean => (kind === "added" ? earlier : now).has(one);
  let top = node;
  while (top.parent && !isPaired(top.parent)) top = top.parent;
  const [old, fresh] = kind === "added" ? [null, top] : [top, null];
  const file = fileOf(top);
  if (top.kind === SETTING || top.kind === SETTINGS) return target("setting", old, fresh);
  if (top.kind === "use" && file)
    return kind === "added"
      ? target("use", earlier.get(file) ?? null, file)
      : target("use", file, now.get(file) ?? null);
  const inCaution = top.kind === PROSE && CAUTIONS.includes(top.parent?.kind ?? "");
  if (!isClause(top) && !inCaution) return target(top.kind === FILE ? "file" : kind, old, fresh);
  return targetOfFacts(matching, top);
}

function targetOfFacts({ now, earlier }: Matching, node: Node): Target {
  const { unit, facet } = unitOf(node);
  const old = now.has(unit) ? unit : (earlier.get(unit) ?? null);
  return target("facts", old, now.get(unit) ?? unit, facet);
}

function targetOfMove(matching: Matching, old: Node, fresh: Node): Target {
  if (isClause(fresh)) return targetOfFacts(matching, fresh);
  const { earlier, now } = matching;
  const [from, to] = [old.parent, fresh.parent];
  const sameParent = from !== null && now.get(from) === to;
  if (hasNoOrder(fresh) && sameParent) return target("reordered", fileOf(old), fileOf(fresh));
  const isSplit = to !== null && !earlier.has(to);
  const isJoined = from !== null && !now.has(from);
  const staysInTurn = isInTurn(fresh) ? overtaken(matching, old, fresh).length === 0 : isSplit || isJoined;
  if (!staysInTurn && !hasNoOrder(fresh)) return target("moved", old, fresh);
  // What stands in a new block, or stood in one that is gone, goes with that block.
  if (isSplit) return targetOfWhole(matching, to, "added");
  if (isJoined) return targetOfWhole(matching, from, "removed");
  const sameOwner = from && to && ownerOf(from, now) === ownerOf(to, null);
  return target(hasNoOrder(fresh) && !sameOwner ? "moved" : "regrouped", old, fresh);
}

/** Whether it matters for a node what it comes before and after. */
function isInTurn(node: Node): boolean {
  return CAUTIONS.includes(node.kind) || isTarget(node) || within(node).some(isAct);
}

function ownerOf(node: Node, now: ReadonlyMap<Node, Node> | null): Node | null {
  const owner = nearest(node, (at) => at.thing?.owns != null);
  return owner && now ? (now.get(owner) ?? owner) : owner;
}

/** Lines of which the order among others means nothing. */
const UNORDERED: ReadonlySet<string> = new Set([
  ..."torquil use machine procedure on document status working-time qualification wear kit item starts ends".split(
    " ",
  ),
  ..."off loose drained disconnected opened isolated supported inserted running proves record place".split(
    " ",
  ),
]);

function hasNoOrder(node: Node): boolean {
  return UNORDERED.has(node.kind) || isDeclaration(node);
}

/**
 * The acts that came after something and now come before it, or the other way round. Of a caution or another line that
 * is no act, what it passed on its way.
 */
export function overtaken(matching: Matching, old: Node, fresh: Node): readonly Node[] {
  const root = nearest(fresh, (at) => at.thing?.owns != null);
  if (!root) return [];
  const inside = new Set(within(fresh));
  const wasInside = new Set(within(old));
  return within(root).filter((other) => {
    const was = matching.earlier.get(other);
    if (!was || inside.has(other) || wasInside.has(was) || !isPassed(other)) return false;
    return was.number < old.number !== other.number < fresh.number;
  });
}

/** Whether it matters that something passes a node: an act, what a check measures, a caution. */
function isPassed(node: Node): boolean {
  return (
    isAct(node) ||
    CAUTIONS.includes(node.kind) ||
    ["limit", "marks", "observe", "choose", "repeat", "check-again", "end-job"].includes(node.kind)
  );
}
