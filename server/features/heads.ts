/**
 * The words with which a line may begin where it stands: constructs, and clauses of the block's head.
 */
import {
  CONSTRUCTS,
  type Construct,
  clausesWithin,
  constructs,
  type Element,
  elementsOf,
} from "../../grammar";
import { clauses } from "../../grammar/constructs";
import type { Entry } from "../facts";
import { REPEATED } from "./expected";
import type { Offer } from "./offer";
import { nearestAbove, type Site } from "./site";
import { bodyWithStops, plainBody, snippetsIn } from "./snippets";

/** Constructs of which a block has one at most. */
const ONCE: ReadonlySet<string> = new Set([
  "torquil",
  "on",
  "document",
  "status",
  "working-time",
  "qualification",
  "starts",
  "ends",
  "record",
]);

/** Clauses of which at most one of a group is said. */
const ONE_OF: readonly (readonly string[])[] = [
  ["dry", "oiled", "locked", "as-supplied"],
  ["toothed", "ribbed", "vee", "flat"],
  ["keep", "discard"],
  ["crosswise", "from-middle", "from-ends", "order"],
  ["by-hand", "loosely"],
];

/** Whether a clause may still be said beside those that were. */
export function stillFree(clause: string, said: readonly string[]): boolean {
  if (clause === "tighten-to" && said.includes("stage")) return false;
  if (clause === "stage" && said.includes("tighten-to")) return false;
  if (said.includes(clause)) return REPEATED.has(clause);
  return !ONE_OF.some((group) => group.includes(clause) && group.some((other) => said.includes(other)));
}

/** The words that may begin the line: clauses of the block's head, acts, then the rest in the order of the table. */
export function headOffers(site: Site): readonly Offer[] {
  const inside = site.above.at(-1);
  const before = inside?.children.filter((c) => site.innerRow + c.row !== site.row) ?? [];
  const said = new Set(before.map((c) => c.entry.construct));
  const own = CONSTRUCTS.filter(
    (c) => mayStand(c, site) && !(ONCE.has(c.id) && said.has(c.id)) && makesSense(c.id, site),
  );
  const ranked = [
    ...own.filter((c) => c.act),
    ...own.filter((c) => !c.act && c.within.length > 0),
    ...own.filter((c) => c.within.length === 0),
  ];
  const plain = [...clauseHeads(site, inside), ...ranked.map((c) => headOffer(c.id, c.about))];
  return plain.flatMap((offer) => {
    const forms = formsToFill(site, offer.label);
    // A word that is never written without its block is rarely wanted without it.
    return constructs.get(offer.label)?.block === "must" ? [...forms, offer] : [offer, ...forms];
  });
}

/** The forms to fill in that begin with a word. */
function formsToFill({ context }: Site, word: string): Offer[] {
  return snippetsIn(context)
    .filter((one) => one.word === word)
    .map(({ shape, body, about }) => ({
      label: `${word} ${shape}`,
      text: plainBody(body),
      snippet: bodyWithStops(body),
      filter: word,
      kind: "snippet",
      detail: "",
      about,
    }));
}

/** Some constructs need another before or around them. */
function makesSense(id: string, site: Site): boolean {
  if (id === "go-on" || id === "check-again") return nearestAbove(site, "if") !== undefined;
  if (id !== "otherwise") return true;
  const siblings = site.above.at(-1)?.children ?? site.file.entries;
  return siblings.findLast((c) => site.innerRow + c.row < site.row)?.entry.construct === "when";
}

/** Whether a construct may stand at a site. */
export function mayStand(construct: Construct, { context }: Site): boolean {
  return context === undefined || construct.within.length === 0 || construct.within.includes(context);
}

/** Whether a clause may stand alone, on a line of its own, at a site. */
export function clauseMayStand(clause: string, site: Site): boolean {
  return clausesOfBlock(site, site.above.at(-1)).includes(clause);
}

function clauseHeads(site: Site, inside: Entry | undefined): Offer[] {
  const said =
    inside?.details.filter((d) => site.innerRow + d.at.row !== site.row).map((d) => d.clause) ?? [];
  return clausesOfBlock(site, inside)
    .filter((id) => stillFree(id, said))
    .map((id) => headOffer(`+${id}`, clauses.get(id)?.about ?? ""));
}

/** The clauses of the block's own head, with those that the context adds for blocks of any head. */
function clausesOfBlock({ context }: Site, inside: Entry | undefined): readonly string[] {
  if (context === undefined) return [];
  const within = [...(clausesWithin.get(context) ?? [])];
  const own = inside && constructs.get(inside.construct)?.clauses;
  if (!own) return within;
  const ofAny = new Set(CONSTRUCTS.filter((c) => c.holds === context).flatMap((c) => c.clauses));
  return within.filter((id) => own.includes(id) || !ofAny.has(id));
}

function headOffer(id: string, about: string): Offer {
  const elements = elementsOf(id);
  const words = leadingWords(elements);
  const label = words.join(" ");
  return {
    label,
    text: elements.length > words.length ? `${label} ` : label,
    kind: id.startsWith("+") ? "clause" : "word",
    detail: "",
    about,
  };
}

function leadingWords(elements: readonly Element[]): string[] {
  const words: string[] = [];
  for (const element of elements) {
    if (element.type !== "word") break;
    words.push(element.word);
  }
  return words;
}
