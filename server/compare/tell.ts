/**
 * Bundles of edits → changes: what kind each is, how grave, what it is about, what it says before and after.
 */
import type { Both, Change, ChangeKind, Effect, Said } from "./change";
import type { Edit } from "./edits";
import { effectsOf, toldAs } from "./effects";
import { FILE, isClause, PROSE, SETTING, textOf } from "./form";
import { type Bundle, unitOf } from "./gather";
import {
  factsOf,
  onlyWrittenOtherwise,
  rankOfFacts,
  rankOfMove,
  rankOfSetting,
  rankOfWhole,
  rolesThatDiffer,
  settingValue,
} from "./grade";
import { CAUTIONS, type Matching } from "./match";
import { formOf, type Lines, type Node, nearest, within } from "./node";
import { concernOf, isDeclaration, isTarget, type Numbers, namedAs, stepOf } from "./numbers";
import type { Rank } from "./ranks";
import type { Reach } from "./touches";

/** What changes are told with. */
export interface Telling {
  readonly matching: Matching;
  readonly numbers: Both<Numbers>;
  readonly reach: Both<Reach>;
  /** The usual severity of a code. */
  readonly usual: Readonly<Record<string, string>>;
}

/** What a bundle comes to; several where a line both has another title and says something else. */
export function changesIn(telling: Telling, bundle: Bundle): readonly Change[] {
  switch (bundle.kind) {
    case "facts":
      return factChanges(telling, bundle);
    case "added":
    case "removed":
      return [wholeChange(telling, bundle, bundle.kind)];
    case "moved":
      return [change(telling, bundle, "moved", rankOfMove(bundle.fresh as Node), said(bundle))];
    case "regrouped":
      return [
        change(
          telling,
          bundle,
          "regrouped",
          isDeclaration(bundle.fresh as Node) ? "layout" : "wording",
          said(bundle),
        ),
      ];
    case "reordered":
      return [change(telling, bundle, "reordered", "layout", NO_VALUES)];
    case "renamed":
      return [renamed(telling, bundle.old as Node, bundle.fresh as Node, editsOf(bundle))];
    case "use":
      return [useChange(telling, bundle)];
    case "setting":
      return settingChanges(telling, bundle);
    case "file":
      return [fileChange(telling, bundle)];
  }
}

const editsOf = (bundle: Bundle): readonly Edit[] => bundle.steps.map(({ edit }) => edit);
const NO_VALUES: Both<readonly Said[]> = { before: null, after: null };

/** A line with its clauses, as told and as data. */
export function saidAs(node: Node): Said {
  return { pieces: toldAs(node), form: formOf(node) };
}

function said({ old, fresh }: Bundle): Both<readonly Said[]> {
  return { before: old && [saidAs(old)], after: fresh && [saidAs(fresh)] };
}

/** A change about the nodes of a bundle. */
export function change(
  { matching, numbers, reach }: Telling,
  bundle: Bundle,
  kind: ChangeKind,
  rank: Rank,
  values: Both<readonly Said[]>,
  what = (bundle.fresh ?? bundle.old)?.kind ?? "",
): Change {
  const { old, fresh } = bundle;
  const node = (fresh ?? old) as Node;
  const inside = concernOf(node);
  const before = old ?? (fresh && whereItCame(matching.earlier, fresh));
  const after = fresh ?? (old && whereItCame(matching.now, old));
  const touches = fresh ? reach.after?.touchedBy(fresh) : old && reach.before?.touchedBy(old);
  return {
    rank,
    kind,
    what,
    concerns: inside && namedAs(inside),
    values,
    places: { before: old && linesOf(bundle, old), after: fresh && linesOf(bundle, fresh) },
    gap: old && !fresh ? gapOf(matching, old) : null,
    steps: {
      before: numbers.before && stepOf(before, numbers.before),
      after: numbers.after && stepOf(after, numbers.after),
    },
    touches: (kind === "renamed" ? null : touches) ?? [],
    does: effectsOf(matching, bundle),
    edits: editsOf(bundle),
  };
}

/** The nearest node around one that is on one side only which the other side has too. */
function whereItCame(other: ReadonlyMap<Node, Node>, node: Node): Node | null {
  for (let at = node.parent; at; at = at.parent) {
    const found = other.get(at);
    if (found) return found;
  }
  return null;
}

/** Where something stood that is gone: behind the nearest thing before it that is still there, else in what is around it. */
function gapOf({ now }: Matching, old: Node): Lines | null {
  for (let at: Node = old; at.parent; at = at.parent) {
    const parent = at.parent;
    const before = parent.children
      .slice(0, parent.children.indexOf(at))
      .findLast((node) => now.has(node) && !isClause(node));
    const still = (before && now.get(before)) ?? now.get(parent);
    if (still) return still.place;
  }
  return null;
}

/** The lines of a bundle on one side: of the facts that changed, else of the whole. */
function linesOf(bundle: Bundle, node: Node): Lines {
  const { facet, kind } = bundle;
  const touched = kind === "facts" && facet !== "" ? touchedFacts(bundle, node) : [];
  const facts = touched.length > 0 ? touched : kind === "facts" ? factsOf(node, facet) : [node];
  const [first] = facts;
  if (!first || first === node) {
    const isLong =
      kind === "facts" &&
      node.children.length > 0 &&
      !CAUTIONS.includes(node.kind) &&
      (isDeclaration(node) || isTarget(node));
    return isLong ? { ...node.place, endLine: node.place.line } : node.place;
  }
  return { ...first.place, endLine: Math.max(...facts.map(({ place }) => place.endLine)) };
}

const FACET_KINDS: Readonly<Record<string, ChangeKind>> = {
  tightening: "tightening",
  "thread-state": "thread-state",
  order: "order",
  renewal: "renewal",
};

function factChanges(telling: Telling, bundle: Bundle): readonly Change[] {
  const { matching } = telling;
  const { old, fresh, facet } = bundle;
  const node = (fresh ?? old) as Node;
  const values = CAUTIONS.includes(node.kind)
    ? partsThatDiffer(bundle)
    : { before: old && factsThatDiffer(bundle, old), after: fresh && factsThatDiffer(bundle, fresh) };
  const rank = rankOfFacts(matching, bundle);
  if (node.kind === PROSE) return [change(telling, bundle, "prose", "wording", values)];
  if (onlyWrittenOtherwise(matching, bundle))
    return [
      change(
        telling,
        bundle,
        "written-otherwise",
        "wording",
        touchedValues(bundle),
        facet.startsWith("+") || facet === "" ? whatOf(bundle, node) : facet,
      ),
    ];
  if (facet === "" && old && fresh && old.thing && fresh.thing)
    return ownChanges(telling, bundle, old, fresh, rank, values);
  const kind = FACET_KINDS[facet] ?? "changed";
  return [change(telling, bundle, kind, rank, values, whatOf(bundle, node))];
}

/** The facts of a facet on one side: all stages of a tightening, else those in which something has changed. */
function factsThatDiffer(bundle: Bundle, node: Node): readonly Said[] {
  const isWhole = bundle.facet === "" || bundle.facet === "tightening";
  return (isWhole ? factsOf(node, bundle.facet) : touchedFacts(bundle, node)).map(saidAs);
}

/** The facts in which something has changed. */
function touchedFacts({ facet, steps }: Bundle, node: Node): readonly Node[] {
  return factsOf(node, facet).filter((fact) =>
    steps.some(({ old, fresh }) => [old, fresh].some((one) => nearest(one, (at) => at === fact) !== null)),
  );
}

function touchedValues(bundle: Bundle): Both<readonly Said[]> {
  const of = (node: Node | null): readonly Said[] | null =>
    node && (bundle.facet === "" ? [node] : touchedFacts(bundle, node)).map(saidAs);
  return { before: of(bundle.old), after: of(bundle.fresh) };
}

/** The parts of a caution that have changed; its head where the signal word or the hazard has. */
function partsThatDiffer({ steps }: Bundle): Both<readonly Said[]> {
  const parts = (side: "old" | "fresh"): readonly Said[] =>
    steps.flatMap((step) => {
      const node = step[side];
      return node
        ? [CAUTIONS.includes(node.kind) ? { pieces: node.pieces, form: formOf(node) } : saidAs(node)]
        : [];
    });
  return { before: parts("old"), after: parts("fresh") };
}

/** What has changed: the one clause in which something did, else the line. */
function whatOf({ facet, steps }: Bundle, node: Node): string {
  if (facet !== "" || CAUTIONS.includes(node.kind)) return facet || node.kind;
  const clauses = new Set(steps.map((step) => clauseAround(step.fresh ?? step.old)));
  const [only] = clauses;
  return clauses.size === 1 && only ? only : node.kind;
}

function clauseAround(node: Node | null): string | null {
  let clause: string | null = null;
  for (let at = node; at && isClause(at); at = at.parent) clause = at.kind;
  return clause;
}

/** What a declaration's own line says: its title and its other places apart. */
function ownChanges(
  telling: Telling,
  bundle: Bundle,
  old: Node,
  fresh: Node,
  rank: Rank,
  values: Both<readonly Said[]>,
): readonly Change[] {
  const roles = rolesThatDiffer(telling.matching, old, fresh);
  const rest = roles.filter((role) => !["title", "name", "face"].includes(role));
  const hasMore = bundle.steps.some((step) => step.fresh !== fresh);
  const found: Change[] = [];
  if (rest.length > 0 || hasMore) found.push(change(telling, bundle, "changed", rank, values));
  if (roles.includes("title")) found.push(change(telling, bundle, "retitled", "wording", values));
  // The edit belongs to one change only.
  return found.map((one, i) => (i === 0 ? one : { ...one, edits: [], does: [] }));
}

/** A thing that has another name, with every line in which nothing else has changed. */
export function renamed(telling: Telling, old: Node, fresh: Node, edits: readonly Edit[]): Change {
  const bundle: Bundle = { kind: "renamed", facet: "", old, fresh, steps: [] };
  const made = change(telling, bundle, "renamed", "wording", {
    before: [saidAs(old)],
    after: [saidAs(fresh)],
  });
  const heads = { before: headLine(old), after: headLine(fresh) };
  return { ...made, places: heads, edits };
}

const headLine = ({ place }: Node): Lines => ({ ...place, endLine: place.line });

/** Lines that are told by themselves, not as blocks that came or went. */
function wholeChange(telling: Telling, bundle: Bundle, happened: "added" | "removed"): Change {
  const node = (bundle.fresh ?? bundle.old) as Node;
  const rank = rankOfWhole(telling.matching, node, happened);
  const moved = bundle.steps.filter(({ edit }) => edit.op === "move");
  const isGrouping = moved.length > 0 && isTarget(node);
  const kind =
    node.kind === PROSE ? "prose" : isGrouping ? (happened === "added" ? "split" : "joined") : happened;
  const values = isGrouping ? groupValues(bundle, happened) : said(bundle);
  return change(telling, bundle, kind, rank, values);
}

/** Of a block that was split off or joined: itself, and the block its contents came from or went to. */
function groupValues(bundle: Bundle, happened: "added" | "removed"): Both<readonly Said[]> {
  const first = bundle.steps.find(({ edit }) => edit.op === "move");
  const from = first?.old?.parent;
  const to = first?.fresh?.parent;
  if (!from || !to) return said(bundle);
  return happened === "added"
    ? { before: [saidAs(from)], after: [saidAs(bundle.fresh as Node)] }
    : { before: [saidAs(bundle.old as Node)], after: [saidAs(to)] };
}

function useChange(telling: Telling, bundle: Bundle): Change {
  const { old, fresh } = bundle;
  const does = old && fresh ? otherMeanings(telling.matching, old, fresh) : [];
  const lines = (happened: "before" | "after"): readonly Said[] =>
    bundle.steps.flatMap((step) => {
      const node = happened === "before" ? step.old : step.fresh;
      return node ? [saidAs(node)] : [];
    });
  const made = change(
    telling,
    bundle,
    "use",
    does.length > 0 ? "safety" : "layout",
    { before: lines("before"), after: lines("after") },
    "use",
  );
  const at = (happened: "before" | "after"): Lines | null => {
    const nodes = bundle.steps.flatMap((step) => (happened === "before" ? step.old : step.fresh) ?? []);
    return nodes[0]?.place ?? null;
  };
  return {
    ...made,
    places: { before: at("before"), after: at("after") },
    does,
  };
}

/** Names that stand in a file on both sides and mean something else now, or nothing. */
function otherMeanings({ before, now }: Matching, old: Node, fresh: Node): readonly Effect[] {
  const inside = new Set(within(fresh));
  const another = new Set<string>();
  const nothing = new Set<string>();
  for (const node of within(old)) {
    const other = now.get(node);
    if (!other || !inside.has(other)) continue;
    for (const [i, { name, thing }] of node.meant.entries()) {
      const meant = other.meant[i];
      const was = thing && before.byThing.get(thing);
      if (!was || meant?.name !== name || now.get(was)?.thing === meant.thing) continue;
      (meant.thing ? another : nothing).add(name);
    }
  }
  const effects = [
    { id: "means-another" as const, names: [...another] },
    { id: "means-nothing" as const, names: [...nothing] },
  ];
  return effects.filter(({ names }) => names.length > 0);
}

function settingChanges(telling: Telling, bundle: Bundle): readonly Change[] {
  return bundle.steps
    .filter(({ old, fresh }) => (fresh ?? old)?.kind === SETTING)
    .map((step) => {
      const node = (step.fresh ?? step.old) as Node;
      const key = textOf(node, "key");
      const [before, after] = [settingValue(step.old), settingValue(step.fresh)];
      const rank = rankOfSetting(key, before, after, telling.usual[key.replace("severities.", "")]);
      const one: Bundle = { ...bundle, old: step.old, fresh: step.fresh, steps: [step] };
      const made = change(
        telling,
        one,
        key.startsWith("severities.") ? "severity" : "setting",
        rank,
        said(one),
        key,
      );
      return { ...made, concerns: null };
    });
}

function fileChange(telling: Telling, bundle: Bundle): Change {
  const { old, fresh, steps } = bundle;
  const kind = old && fresh ? "file-renamed" : fresh ? "file-added" : "file-removed";
  const node = (fresh ?? old) as Node;
  const rank = old && fresh ? "layout" : rankOfWhole(telling.matching, node, fresh ? "added" : "removed");
  const made = change(telling, bundle, kind, rank, NO_VALUES, FILE);
  return steps.length === 0 ? made : { ...made, concerns: namedAs(node) };
}

/** Whether two lines that are on both sides say something else by names alone: a name that now means another thing. */
export function shadowed(telling: Telling): readonly Change[] {
  const { matching } = telling;
  const { before, now } = matching;
  return before.nodes.flatMap((old) => {
    const fresh = now.get(old);
    if (!fresh) return [];
    const names = old.meant.flatMap(({ name, thing }, i) => {
      const meant = fresh.meant[i];
      const was = thing && now.get(before.byThing.get(thing) as Node);
      const is = meant?.thing && matching.earlier.get(matching.after.byThing.get(meant.thing) as Node);
      return meant?.name === name && was && is && was.thing !== meant.thing ? [name] : [];
    });
    if (names.length === 0) return [];
    const { unit } = unitOf(fresh);
    const bundle: Bundle = {
      kind: "facts",
      facet: "",
      old: matching.earlier.get(unit) ?? null,
      fresh: unit,
      steps: [],
    };
    const made = change(telling, bundle, "use", "safety", said(bundle), "use");
    return [{ ...made, does: [{ id: "means-another" as const, names }] }];
  });
}
