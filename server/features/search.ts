/**
 * What is declared anywhere in a project, found by some of its letters.
 */
import { constructs } from "../../grammar";
import { keptBy } from "../facts";
import type { FileModel, Place, Project } from "../model";
import { type OutlineItem, outline } from "./outline";

/** Something declared that fits what is looked for. */
export interface Hit {
  readonly label: string;
  /** The construct: `step`, `fastener`, `procedure`. */
  readonly kind: string;
  /** What it stands in; empty at the top of a file. */
  readonly container: string;
  readonly place: Place;
  /** How well it fits: less is better. */
  readonly cost: number;
}

interface Entry {
  readonly item: OutlineItem;
  readonly container: string;
  /** The texts that are looked in: name and title. */
  readonly texts: readonly string[];
}

/** More hits than this are of no use to anybody. */
const MOST_HITS = 300;

/** Everything declared whose name or title has the letters of the query in their order; best first. */
export function searchSymbols(project: Project, query: string): readonly Hit[] {
  const wanted = folded(query).replace(/\s+/gu, "");
  const hits: Hit[] = [];
  for (const file of project.files.values()) {
    for (const { item, container, texts } of entriesOf(file)) {
      const costs = texts.map((text) => costOf(text, wanted)).filter((cost) => cost !== null);
      if (costs.length === 0) continue;
      const label = item.detail === "" ? item.label : `${item.detail} — ${item.label}`;
      hits.push({ label, kind: item.kind, container, place: item.place, cost: Math.min(...costs) });
    }
  }
  return hits.sort(byCost).slice(0, MOST_HITS);
}

const byCost = (a: Hit, b: Hit): number =>
  a.cost - b.cost ||
  compare(a.label, b.label) ||
  compare(a.place.file, b.place.file) ||
  a.place.line - b.place.line;
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What is declared in a file: what only helps to find one's way in it is left out. */
const entriesOf = keptBy((file: FileModel): readonly Entry[] => {
  const entries: Entry[] = [];
  const visit = (items: readonly OutlineItem[], container: string): void => {
    for (const item of items) {
      if (constructs.get(item.kind)?.declares !== undefined)
        entries.push({
          item,
          container,
          texts: [item.detail, item.label].filter((t) => t !== "").map(folded),
        });
      visit(item.children, item.label);
    }
  };
  visit(outline(file), "");
  return entries;
});

/** Letters without marks and case, so that `oldruck` finds `Öldruck`. */
function folded(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}

/** How far a text is from what is looked for; null where a letter is missing. Letters at the start of words cost less. */
function costOf(text: string, wanted: string): number | null {
  if (wanted === "") return 0;
  const whole = text.indexOf(wanted);
  if (whole === 0) return text.length === wanted.length ? 0 : 1;
  if (whole > 0) return startsWord(text, whole) ? 2 : 10 + Math.min(whole, 40);
  let cost = 100;
  let at = 0;
  for (const letter of wanted) {
    const found = text.indexOf(letter, at);
    if (found < 0) return null;
    cost += Math.min(found - at, 20) + (startsWord(text, found) ? 0 : 1);
    at = found + letter.length;
  }
  return cost;
}

const startsWord = (text: string, at: number): boolean =>
  at === 0 || !/[\p{L}\p{N}]/u.test(text[at - 1] ?? "");
