/**
 * What the drawing of the ways shows: rows for what is done one after the other, a question for each check and condition
 * that parts the ways, with what is done on each answer and where it leads.
 */
import type { WaysPicture, WaysRow } from "../drawings";
import { namesIn, textIn } from "../facts";
import { type Spot, stepAround } from "../model";
import { say } from "../phrases/sheet";
import { type WaysWord, waysWord } from "../phrases/ways";
import { leadOf } from "./build-checks";
import { type Build, refsOf, stepsWords, targetOf, titleOf } from "./build-context";
import { textOf } from "./fill";
import type { Answer, Parting, Piece } from "./partings";
import { answerWords, doneWords, leadWords, questionWords } from "./ways-words";

/** What a page has left for a drawing beside the heading over it and the caption under it, in millimetres. */
export const TALLEST = { a4: 230, letter: 212 } as const;

/** How much a drawing shows. */
export interface Detail {
  /** Without the conditions after which the work goes on in the same step. */
  readonly briefly: boolean;
  /** Within an answer, questions in so many answers are drawn; those further in are named only. */
  readonly deepest: number;
}

/** All that can be drawn. */
export const WHOLE: Detail = { briefly: false, deepest: 2 };

/** What a drawing of a flow shows; no rows where nothing in it parts the ways. */
export function waysPicture(build: Build, pieces: readonly Piece[], detail: Detail): WaysPicture {
  const { language, paper } = build;
  const targets = targetsIn(build, pieces);
  const maker: Maker = { build, targets, detail, wordy: [], small: [], questions: 0 };
  const rows = rowsOf(maker, pieces, 0);
  const isParted = rows.some(({ kind }) => kind === "question" || kind === "lead");
  const begin: WaysRow = { kind: "begin", id: "begin", head: waysWord(language, "begin"), lines: [] };
  const end: WaysRow = { kind: "end", id: "end", head: waysWord(language, "end"), lines: [] };
  return {
    rows: isParted ? [begin, ...rows, end] : [],
    tallest: TALLEST[paper],
    notes: notesOf(maker),
    language,
  };
}

interface Maker {
  readonly build: Build;
  /** Steps and checks that some answer leads to: a row begins at each. */
  readonly targets: ReadonlySet<Spot>;
  readonly detail: Detail;
  /** Steps with conditions that are left out: because only words stand under them, and because they are small. */
  readonly wordy: Spot[];
  readonly small: Spot[];
  questions: number;
}

/** The row that a step begins. */
const rowAt = (spot: Spot): string => `step ${spot.number}`;

function targetsIn(build: Build, pieces: readonly Piece[]): ReadonlySet<Spot> {
  const targets = new Set<Spot>();
  const look = (piece: Piece): void => {
    if (piece.kind === "parting") for (const answer of piece.answers) answer.pieces.forEach(look);
    const target = piece.kind === "lead" ? leadTarget(build, piece.spot) : null;
    if (target) targets.add(target);
  };
  pieces.forEach(look);
  return targets;
}

/** The step that a line leads to; null where it goes on or ends the job. */
function leadTarget(build: Build, spot: Spot): Spot | null {
  if (spot.entry.construct === "check-again") return stepAround(spot);
  const target = targetOf(build, spot, namesIn(spot.entry.form, "target")[0]);
  return target ?? null;
}

function rowsOf(maker: Maker, pieces: readonly Piece[], depth: number): WaysRow[] {
  const rows: WaysRow[] = [];
  let run: Spot[] = [];
  let work: Spot[] = [];
  let named = false;
  const flush = (): void => {
    if (run.length > 0) rows.push(runRow(maker, run));
    run = [];
    const lines = depth > 0 && work.length > 0 ? doneWords(maker.build, work) : [];
    if (lines.length > 0) rows.push(workRow(`work ${rows.length}`, lines));
    work = [];
  };
  pieces.forEach((piece, index) => {
    if (piece.kind === "place") {
      const { spot } = piece;
      // What is done in a step that the row names is in the step's own words.
      if (spot.number === null) {
        if (!named) work.push(spot);
        return;
      }
      named = true;
      const next = pieces
        .slice(index + 1)
        .find((other) => other.kind !== "place" || other.spot.number !== null);
      const asks = next?.kind === "parting" && next.of === "check" && next.spot === spot;
      if (asks || maker.targets.has(spot) || work.length > 0) flush();
      if (!asks) run.push(spot);
      return;
    }
    if (piece.kind === "lead") {
      flush();
      const row = leadRow(maker, piece.spot, `lead ${index}`);
      if (row) rows.push(row);
      return;
    }
    const step = stepAround(piece.spot);
    const left = isWordy(piece)
      ? maker.wordy
      : maker.detail.briefly && depth === 0 && isSmall(piece)
        ? maker.small
        : null;
    if (left && step) {
      left.push(step);
      return;
    }
    flush();
    rows.push(questionRow(maker, piece, depth));
  });
  flush();
  return rows;
}

/** Whether nothing but words stands in any answer to a condition. */
const isWordy = ({ of, answers }: Parting): boolean =>
  of === "condition" && answers.every(({ pieces }) => pieces.length === 0);

/** Whether a condition is about acts in one step alone, after which that step goes on. */
const isSmall = ({ of, answers }: Parting): boolean =>
  of === "condition" && answers.every(({ pieces }) => pieces.every(isAct));

const isAct = (piece: Piece): boolean =>
  piece.kind === "place" ? piece.spot.number === null : piece.kind === "parting" && isSmall(piece);

function runRow({ build, targets }: Maker, steps: readonly Spot[]): WaysRow {
  const [first, last] = [steps[0] as Spot, steps.at(-1) as Spot];
  const word = (id: WaysWord, args: Readonly<Record<string, string>>): string =>
    waysWord(build.language, id, args);
  const head =
    first === last
      ? word("step", { number: `${first.number}` })
      : word("steps", { from: `${first.number}`, to: `${last.number}` });
  const id = targets.has(first) ? rowAt(first) : `run ${first.number}`;
  if (steps.length <= 2) {
    const titles = steps.map((step) => titled(step));
    return steps.length === 1
      ? { kind: "run", id, head: `${head}: ${titles[0]}`, lines: [] }
      : { kind: "run", id, head, lines: steps.map((step, i) => `${step.number} ${titles[i]}`) };
  }
  const sections = new Map<Spot | null, Spot[]>();
  for (const step of steps) {
    const section = sectionOf(step);
    sections.set(section, [...(sections.get(section) ?? []), step]);
  }
  const lines = [...sections].map(([section, own]) => {
    const title = section?.thing ? titleOf(section.thing) : titled(own[0] as Spot);
    const [from, to] = [own[0]?.number, own.at(-1)?.number];
    if (sections.size === 1) return title;
    return `${from === to ? from : `${from}–${to}`} ${title}`;
  });
  return { kind: "run", id, head, lines };
}

const titled = (step: Spot): string => (step.thing ? titleOf(step.thing) : textIn(step.entry.form, "title"));

function sectionOf(spot: Spot): Spot | null {
  for (let at = spot.parent; at; at = at.parent) if (at.entry.construct === "section") return at;
  return null;
}

/** A line that leads elsewhere, in the middle of the work; null for one that only goes on. */
function leadRow({ build }: Maker, spot: Spot, id: string): WaysRow | null {
  const lead = leadOf(build, spot);
  if (lead.kind === "end")
    return { kind: "end", id, head: say(build.language, "lead.end"), lines: leadWords(build, spot) };
  const target = leadTarget(build, spot);
  if (lead.kind === "go-on" || !target) return null;
  const [head = ""] = leadWords(build, spot);
  return { kind: "lead", id, head, lines: [], to: rowAt(target), number: `${target.number}` };
}

function questionRow(maker: Maker, parting: Parting, depth: number): WaysRow {
  const { build, targets } = maker;
  const { head, lines } = questionWords(build, parting);
  const isTarget = parting.of === "check" && targets.has(parting.spot);
  const id = isTarget ? rowAt(parting.spot) : `question ${++maker.questions}`;
  if (depth >= maker.detail.deepest) return { kind: "run", id, head, lines };
  const straight = parting.answers.find(goesStraight);
  const branches = parting.answers
    .filter((answer) => answer !== straight && !goesStraight(answer))
    .map((answer) => ({
      label: answerWords(build, parting, answer),
      ...branchRows(maker, answer, depth + 1),
    }));
  const along = parting.answers.filter(goesStraight).map((answer) => answerWords(build, parting, answer));
  return { kind: "question", id, head, lines, straight: along.join(", ") || null, branches };
}

/** Whether nothing is done on an answer, and the way goes on. */
const goesStraight = ({ pieces, spot }: Answer): boolean =>
  pieces.every((piece) => piece.kind === "lead" && piece.spot.entry.construct === "go-on") &&
  (spot === null || spot.entry.paragraphs.length === 0);

function branchRows(
  maker: Maker,
  { spot, pieces }: Answer,
  depth: number,
): Pick<Extract<WaysRow, { kind: "question" }>["branches"][number], "rows" | "leads"> {
  const { build } = maker;
  const last = pieces.at(-1);
  const lead = last?.kind === "lead" ? last.spot : null;
  const rows = rowsOf(maker, lead ? pieces.slice(0, -1) : pieces, depth);
  if (rows.length === 0 && spot && spot.entry.paragraphs.length > 0 && !endsJob(lead))
    rows.push(workRow("words", doneWords(build, [], spot)));
  const row = lead && leadRow(maker, lead, "lead");
  if (!lead || !row) return { rows: rows.length > 0 ? rows : [emptyRow(build)], leads: { kind: "on" } };
  if (row.kind === "end") {
    const only = rows.length === 1 && rows[0]?.kind === "run" && rows[0].head === "" ? rows[0] : null;
    // What is done before it is shown in the same shape.
    const ended = only ? [{ ...row, before: only.lines.join(" ") }] : [...rows, row];
    return { rows: ended, leads: { kind: "end" } };
  }
  const [foot = ""] = leadWords(build, lead);
  const before = rows.at(-1);
  // Where it leads is said in the last box, under what is done there.
  if (before?.kind === "run") rows[rows.length - 1] = { ...before, foot };
  else rows.push({ kind: "run", id: "lead", head: foot, lines: [] });
  const target = leadTarget(build, lead) as Spot;
  return { rows, leads: { kind: "to", to: rowAt(target), number: `${target.number}` } };
}

/** The step tells all of it: a drawing shows what it is about. */
const MOST_LINES = 4;

const workRow = (id: string, lines: readonly string[]): WaysRow => ({
  kind: "run",
  id,
  head: "",
  lines: [lines.join(" ")],
  most: MOST_LINES,
});

const endsJob = (lead: Spot | null): boolean => lead?.entry.construct === "end-job";

const emptyRow = ({ language }: Build): WaysRow => ({
  kind: "run",
  id: "on",
  head: "",
  lines: [say(language, "lead.go-on")],
});

function notesOf({ build, wordy, small }: Maker): readonly string[] {
  const note = (spots: readonly Spot[], one: WaysWord, more: WaysWord): readonly string[] =>
    spots.length === 0
      ? []
      : [
          waysWord(build.language, spots.length === 1 ? one : more, {
            steps: textOf(stepsWords(build, refsOf(spots))),
          }),
        ];
  return [...note(wordy, "note-word", "note-words"), ...note(small, "note-small", "note-smalls")];
}
