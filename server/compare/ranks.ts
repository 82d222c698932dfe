/**
 * How grave a change is: a table of everything that can be written, with the rank of a change in it. Common practice, no
 * source: a reviewer should be able to read and correct it.
 *
 * **safety** is what a fitter can be hurt by or a machine can fail by when it is wrong; **content** what else is done or
 * used; **wording** prose and titles; **layout** what is not seen on any sheet.
 */
import { type Own, PROSE, SETTING, UNREAD } from "./form";

export const RANKS = ["safety", "content", "wording", "layout"] as const;
export type Rank = (typeof RANKS)[number];

/** The graver of two ranks. */
export function graver(a: Rank, b: Rank): Rank {
  return RANKS.indexOf(a) <= RANKS.indexOf(b) ? a : b;
}

/** The gravest of some ranks; layout where there is none. */
export function gravest(ranks: readonly Rank[]): Rank {
  return ranks.reduce(graver, "layout");
}

export interface RankRow {
  readonly changed: Rank;
  readonly added: Rank;
  readonly removed: Rank;
}

const row = (changed: Rank, added: Rank = changed, removed: Rank = added): RankRow => ({
  changed,
  added,
  removed,
});
const rows = (rank: RankRow, ids: string): Record<string, RankRow> =>
  Object.fromEntries(ids.split(/\s+/).map((id) => [id, rank]));

const SAFETY = row("safety");
const CONTENT = row("content");
const WORDING = row("wording");
const LAYOUT = row("layout");

/** By construct, and by clause with `+` before it. */
const TABLE: Readonly<Record<string, RankRow>> = {
  // Files
  ...rows(LAYOUT, "torquil use"),
  allow: row("safety", "safety", "content"),
  [PROSE]: WORDING,
  [UNREAD]: CONTENT,
  [SETTING]: CONTENT,

  // The machine: what is there is content; from where it is seen, and what raises a hazard, is not.
  ...rows(CONTENT, "machine fluid consumable cable wire hose pipe connector tap circuit part gear clip"),
  ...rows(CONTENT, "fastener shaft belt chain mark set option one-of choice"),
  ...rows(SAFETY, "view variant hazard"),
  // What a thing is
  ...rows(SAFETY, "+behind +weight +contains +carries +bears +spring-loaded +holds-own-place +handed +like"),
  ...rows(CONTENT, "+for-each +face +grade +dispose +spanner +grip +count +layout"),
  ...rows(
    SAFETY,
    "+only-on +only-if +renew +reuse +hot +pressurised +fuel +harmful +high-voltage +stores-charge +battery",
  ),
  ...rows(SAFETY, "+open-time +cure +from-to +through +bend-radius +slack"),
  // Fasteners
  ...rows(
    SAFETY,
    "+secures +thread +left-hand +class +holes +hole +order +crosswise +from-middle +from-ends +dry +oiled",
  ),
  ...rows(SAFETY, "+locked +as-supplied +setting +threads-into +locked-by +stage +tighten-to"),
  // What turns and runs
  ...rows(
    SAFETY,
    "+turns +belt-off +ratio +toothed +ribbed +vee +flat +crossed +pitch +teeth +length +thickness +path +pulley",
  ),
  ...rows(
    SAFETY,
    "+diameter +centre +on-shaft +back-of-belt +travel +loaded +meshes +at-angle +seen-at +raised-by +least",
  ),

  // The head of a procedure
  procedure: CONTENT,
  on: SAFETY,
  "+serial": SAFETY,
  ...rows(CONTENT, "document revision status working-time kit item symptom bulletin"),
  ...rows(SAFETY, "qualification person wear tool temporary starts ends"),
  ...rows(SAFETY, "off loose drained disconnected opened isolated supported inserted running"),
  ...rows(SAFETY, "+rating +or-tool +in-line +angled +right-angle +impact +proves-dead +into +over"),
  "+ask-before": CONTENT,

  // The work
  ...rows(WORDING, "section note figure"),
  ...rows(CONTENT, "step hand-back if otherwise"),
  check: row("content", "content", "safety"),
  ...rows(SAFETY, "when for follow"),
  ...rows(SAFETY, "limit place marks choose proves check-again repeat +at-temperature +held"),
  ...rows(CONTENT, "observe record go-on go-to end-job"),
  ...rows(SAFETY, "danger warning caution notice +can +so"),

  // Acts: those that hold, cut off, set or let go; the others are content
  ...rows(
    SAFETY,
    "tighten loosen support release raise lower isolate restore drain bleed lubricate seal lay-on run align",
  ),
  ...rows(SAFETY, "turn insert pull wait start stop run-in adjust prove label"),
  ...rows(
    CONTENT,
    "remove fit connect disconnect open close fill clean press grind drill chisel scrape blow-out charge",
  ),
  ...rows(CONTENT, "throw-away put-by"),
  // How an act is done
  ...rows(
    SAFETY,
    "+with +holding +while-turning +by-hand +loosely +by-people +never +within-time +watched-by +without",
  ),
  ...rows(SAFETY, "+own-place +way-round +keep +discard +to-stage +on-wheels +at-most-time"),
};

/** The rank of a change in a construct, or in a clause with `+` before its id. */
export function rankRow(kind: string): RankRow {
  return TABLE[kind] ?? CONTENT;
}

/** Whether the table has a row for this; a test asks it for everything that can be written. */
export function hasRank(kind: string): boolean {
  return Object.hasOwn(TABLE, kind);
}

/** Places of a line that hold words for a reader, and no figure or name that matters. */
const WORDS_ONLY: ReadonlySet<string> = new Set(["title", "caption", "name", "face"]);
const REASONS: ReadonlySet<string> = new Set(["end-job", "revision", "allow"]);

/** The rank of a change in one place of a line. */
export function slotRank(own: Own, role: string): Rank {
  if (WORDS_ONLY.has(role)) return "wording";
  if (role === "reason" && REASONS.has(own.kind)) return "wording";
  return rankRow(own.kind).changed;
}

/** The rank of a change in the fixed words of a line: `fit new` or `fit`, `if still`. */
export function wordsRank(own: Own): Rank {
  return own.kind === "fit" ? "safety" : rankRow(own.kind).changed;
}
