/**
 * The act table as the language reference prints it: how things can differ from normal, what each act needs, makes and
 * raises, and what takes a hazard away and brings it back. Made from the tables that the walk-through itself reads.
 */
import { ACTS, type ActRow, DEPARTURES, FACTS, FASTENER_STATES, HAZARDS } from "../walk";

type FactRow = (typeof FACTS)[keyof typeof FACTS];

const BEGIN =
  "<!-- The act table, written by `npm run generate` from server/walk/acts.ts and hazards.ts. -->";

const END = "<!-- End of the act table. -->";

/** The reference with its act table as it is now. Throws where the two marks between which it stands are not there. */
export function withActTable(reference: string): string {
  const [from, to] = [reference.indexOf(BEGIN), reference.indexOf(END)];
  if (from < 0 || to < from)
    throw new Error(`grammar/README.md has lost the marks of the act table: ${BEGIN}`);
  return `${reference.slice(0, from + BEGIN.length)}\n\n${actTable()}\n\n${reference.slice(to)}`;
}

/** The tables as Markdown. */
function actTable(): string {
  return [
    "**How things can differ from normal.** Normal is on, closed, full, at rest. Each is left by the acts that end it, and must be before the end unless `ends with` says so.",
    departures(),
    `**Fasteners** are ${FASTENER_STATES.join(", ")}. A group is partly so where only some of its holes are named.`,
    [
      "**Acts.** _Clear_: what stands in front of the thing is off. _Free_: what secures it is out. _Empty_: what is in it has been drained, or is caught.",
      "_Held_: what it bears is held, and it itself where it is too heavy for one. _Whole_: everything the job has had its hands on is back. _A grip_: what the fastener secures, if that is one thing, is on. _Unlocked_: its lock nut is slackened. Where a row is empty, the act needs nothing, changes nothing.",
    ].join("\n"),
    acts(),
    "**Hazards**, by what raises them. A caution on the hazard must be read before, and again once it has been gone and is back.",
    hazards(),
  ].join("\n\n");
}

function departures(): string {
  const rows = Object.entries(DEPARTURES).map(([name, row]) => [
    name,
    row.of.join(", "),
    code(row.said),
    verbs(({ makes }) => makes === name),
    verbs(({ ends }) => ends === name),
    row.stopsStart ? "no" : "yes",
  ]);
  const head = [
    "state",
    "of a",
    "in `starts with`, `ends with`",
    "brought about by",
    "ended by",
    "may be so at a start",
  ];
  return table([head, ...rows]);
}

function acts(): string {
  const rows = Object.entries(ACTS).map(([verb, row]) => [
    code(verb),
    needs(row).join("; "),
    makes(row).join("; "),
    row.repeatable ? "yes" : "no",
    raised(row),
  ]);
  return table([["act", "needs", "makes", "may be done once more", "raises"], ...rows]);
}

function needs(row: ActRow): string[] {
  const said: [boolean | undefined, string][] = [
    [row.reach, "clear"],
    [row.released, "free"],
    [row.emptied, "empty"],
    [row.held, "held"],
    [row.clamps, "a grip"],
    [row.unlocked, "unlocked"],
    [row.whole, "whole"],
  ];
  // What bears repeating also does no harm where there is nothing to end.
  const ended = row.ends && !row.repeatable ? [row.ends] : [];
  const own = row.makes ? [`not ${row.makes}`] : ended;
  return [...own, ...said.flatMap(([is, words]) => (is ? [words] : []))];
}

/** What an act does to a fastener. */
const FASTENED: Readonly<Record<NonNullable<ActRow["fastener"]>, string>> = {
  out: "a fastener out",
  placed: "a fastener placed, or in by hand",
  loose: "a fastener loose",
  tightened: "a fastener tight, or at the stage that is named",
  set: "a setting",
};

function makes({ makes, ends, fastener, opensJoint }: ActRow): string[] {
  return [
    ...(makes ? [makes] : []),
    ...(ends ? [`not ${ends}`] : []),
    ...(fastener ? [FASTENED[fastener]] : []),
    ...(opensJoint ? ["a joint, open until the part is fitted"] : []),
  ];
}

function raised({ raises }: ActRow): string {
  const byHazard = new Map<string, string[]>();
  for (const [hazard, fact] of raises) byHazard.set(hazard, [...(byHazard.get(hazard) ?? []), fact]);
  return [...byHazard].map(([hazard, facts]) => `${code(hazard)} (${facts.join(", ")})`).join("; ");
}

function hazards(): string {
  const rows = Object.entries(FACTS).map(([fact, row]) => [
    fact,
    hazardsOf(fact),
    gone(row),
    back(row),
    row.atStart ? "yes" : "no",
  ]);
  return table([
    ["raised by", "hazard, and the least signal word", "gone after", "back after", "there at the start"],
    ...rows,
  ]);
}

function hazardsOf(fact: string): string {
  const own = Object.entries(HAZARDS).filter(([hazard]) =>
    Object.values(ACTS).some(({ raises }) => raises.some(([h, f]) => h === hazard && f === fact)),
  );
  // That an impact wrench is ruled out is said of a tool, not of an act.
  const all = own.length > 0 ? own : Object.entries(HAZARDS).filter(([hazard]) => hazard === "damage");
  return all.map(([hazard, { least }]) => `${code(hazard)}, ${least}`).join("; ");
}

const gone = ({ quiet, evenIfGone }: FactRow): string => (evenIfGone ? "never" : listed(quiet));

const back = ({ wakes, wakesAll }: FactRow): string =>
  [listed(wakes), wakesAll.length > 0 ? `${listed(wakesAll)} of the machine` : ""]
    .filter((s) => s !== "")
    .join(", ");

const listed = (words: readonly string[]): string => words.map(code).join(", ");

const code = (word: string): string => `\`${word}\``;

const verbs = (is: (row: ActRow) => boolean): string =>
  listed(Object.entries(ACTS).flatMap(([verb, row]) => (is(row) ? [verb] : [])));

/** A table in Markdown, its columns padded. */
function table([head, ...rows]: readonly (readonly string[])[]): string {
  const all = [head as readonly string[], ...rows];
  const widths = (head as readonly string[]).map((_, i) =>
    Math.max(...all.map((row) => (row[i] as string).length)),
  );
  const line = (row: readonly string[]): string =>
    `| ${row.map((cell, i) => cell.padEnd(widths[i] as number)).join(" | ")} |`;
  const rule = `|${widths.map((width) => "-".repeat(width + 2)).join("|")}|`;
  return [line(head as readonly string[]), rule, ...rows.map(line)].join("\n");
}
