/**
 * The rank of a bundle of edits, by what differs in each.
 */

import { wordsIn } from "./alike";
import { sameAmount } from "./amounts";
import { FILE, isClause, namesOf, type Own, PROSE, SETTING, sameData, textOf } from "./form";
import { type Bundle, facetOf } from "./gather";
import { CAUTIONS, type Matching } from "./match";
import { type Node, nearest, within } from "./node";
import { isAct, isDeclaration } from "./numbers";
import { gravest, type Rank, rankRow, slotRank, wordsRank } from "./ranks";

/** What differs between what a node said and says. */
export interface Difference {
  /** The role of the place; `words` for fixed words and the kind of line. */
  readonly role: string;
  readonly rank: Rank;
  /** A quantity that means the same, written otherwise. */
  readonly sameAmount: boolean;
}

/** What differs in a node that is on both sides; names that mean the same thing do not. */
export function differences({ before, now }: Matching, old: Node, fresh: Node): readonly Difference[] {
  const found: Difference[] = [];
  if (old.kind !== fresh.kind || !sameData(old.words, fresh.words))
    found.push({ role: "words", rank: wordsRank(fresh), sameAmount: false });
  const roles = new Set([...old.slots, ...fresh.slots].map(({ role }) => role));
  for (const role of roles) {
    const [was, is] = [old, fresh].map((node) => node.slots.find((slot) => slot.role === role)?.value);
    if (sameData(was, is) || meansSame(role)) continue;
    const same = was?.kind === "quantity" && is?.kind === "quantity" && sameAmount(was, is);
    const point =
      was?.kind === "point" &&
      is?.kind === "point" &&
      was.at.every((one, i) => one && is.at[i] && sameAmount(one, is.at[i]));
    const alike = same || point === true;
    found.push({ role, rank: alike ? "wording" : slotRank(fresh, role), sameAmount: alike });
  }
  return found;

  function meansSame(role: string): boolean {
    const names = [namesOf(old, role), namesOf(fresh, role)];
    if (names[0]?.length !== names[1]?.length || role === "name" || role === "face" || names[0]?.length === 0)
      return false;
    return (names[0] ?? []).every((name, i) => {
      const other = names[1]?.[i];
      const [a, b] = [meaning(old, name), meaning(fresh, other ?? "")];
      const node = a && before.byThing.get(a);
      return (
        name === other || (b !== null && node !== undefined && node !== null && now.get(node)?.thing === b)
      );
    });
  }
  function meaning(node: Node, name: string): Node["thing"] {
    return node.meant.find((one) => one.name === name)?.thing ?? null;
  }
}

/** The rank of the facts of a line, a thing or an act that have changed. */
export function rankOfFacts(matching: Matching, { old, fresh, steps }: Bundle): Rank {
  const unit = fresh ?? old;
  if (unit && CAUTIONS.includes(unit.kind)) return old && fresh ? rankOfCaution(old, fresh) : "safety";
  return gravest(steps.flatMap((step) => ranksOfStep(matching, step.old, step.fresh)));
}

function ranksOfStep(matching: Matching, old: Node | null, fresh: Node | null): readonly Rank[] {
  if (old && fresh) {
    const found = differences(matching, old, fresh);
    // A clause that only moved among its like has another order.
    return found.length > 0 ? found.map(({ rank }) => rank) : [rankRow(fresh.kind).changed];
  }
  const node = fresh ?? old;
  return node ? [rankRow(node.kind)[fresh ? "added" : "removed"]] : [];
}

/** A caution of which the words stay, signs and capitals aside, is as it was. */
function rankOfCaution(old: Node, fresh: Node): Rank {
  const said = (node: Node): string =>
    JSON.stringify([
      node.kind,
      namesOf(node, "hazard"),
      ...within(node)
        .slice(1)
        .map((one) => [one.kind, ...one.slots.map(({ role }) => wordsIn(textOf(one, role)))]),
    ]);
  return said(old) === said(fresh) ? "wording" : "safety";
}

/** Lines of a check that come with it: what they are is said by the check. */
const OF_A_CHECK: ReadonlySet<string> = new Set([
  "limit",
  "place",
  "marks",
  "observe",
  "choose",
  "record",
  "proves",
  "check-again",
]);

/** The rank of what came, or went, as a whole: the gravest of what is in it and did so too. */
export function rankOfWhole({ now, earlier }: Matching, top: Node, happened: "added" | "removed"): Rank {
  const other = happened === "added" ? earlier : now;
  const own = within(top).filter((node) => !other.has(node) && !isClause(node));
  return gravest(
    own.map((node) => {
      if (isDeclaration(node) && node !== top && isDeclaration(top)) return "layout";
      if (node.kind === PROSE) return inCaution(node) ? "safety" : "wording";
      if (
        happened === "added" &&
        OF_A_CHECK.has(node.kind) &&
        nearest(node, ({ kind }) => kind === "check") !== null &&
        node !== top
      )
        return "content";
      if (node.kind === FILE) return "layout";
      return rankRow(node.kind)[happened];
    }),
  );
}

const inCaution = ({ parent }: Node): boolean => CAUTIONS.includes(parent?.kind ?? "");

/** The rank of something that is done earlier or later than before. */
export function rankOfMove(fresh: Node): Rank {
  if (fresh.kind === PROSE) return "wording";
  const inside = within(fresh);
  if (inside.some((node) => isAct(node) || node.kind === "check" || CAUTIONS.includes(node.kind)))
    return "safety";
  return isDeclaration(fresh) ? "content" : rankRow(fresh.kind).changed;
}

const SEVERITIES = ["off", "hint", "warning", "error"];

/** The rank of a setting that has changed; null stands for none. A severity that is not set is the usual one. */
export function rankOfSetting(
  key: string,
  before: string | null,
  after: string | null,
  usual: string | undefined,
): Rank {
  if (key.startsWith("severities.")) {
    const [was, is] = [before ?? usual, after ?? usual].map((one) => SEVERITIES.indexOf(one ?? ""));
    return (is ?? 0) < (was ?? 0) ? "safety" : "content";
  }
  // What is skipped is not checked; a hazard of the house that is gone is not asked about.
  if (key.startsWith("skip.")) return after === null ? "content" : "safety";
  if (key.startsWith("hazards.")) return before === null ? "content" : "safety";
  return "content";
}

/** The facts of one facet of a node: of the whole, the node itself. */
export function factsOf(node: Node, facet: string): readonly Node[] {
  return facet === "" ? [node] : node.children.filter((child) => isClause(child) && facetOf(child) === facet);
}

/** Whether a line says the same quantity otherwise, and nothing else. */
export function onlyWrittenOtherwise(matching: Matching, { steps }: Bundle): boolean {
  return steps.every(({ old, fresh }) => {
    const found = old && fresh ? differences(matching, old, fresh) : [];
    return found.length > 0 && found.every((one) => one.sameAmount);
  });
}

/** Settings nodes of a bundle as texts. */
export function settingValue(node: Node | null): string | null {
  return node?.kind === SETTING ? textOf(node, "value") : null;
}

/** Which places of a line differ, names that mean the same aside. */
export function rolesThatDiffer(matching: Matching, old: Node, fresh: Node): readonly string[] {
  return differences(matching, old, fresh).map(({ role }) => role);
}

export type { Own };
