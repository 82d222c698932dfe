/**
 * What each check and condition of a procedure decides: its question, and for each answer what is done on it alone, where
 * it leads, and how many ways take it.
 */
import { timesOf } from "../facts";
import { type Place, placeAt, type Spot, stepAround } from "../model";
import { waysPhrase as say } from "../phrases/ways";
import { isLead, leadOf, nextStep } from "../sheet/build-checks";
import type { Build } from "../sheet/build-context";
import { type Answer, type Parting, type Piece, partingsIn } from "../sheet/partings";
import { answerWords, doneWords, leadWords, questionWords } from "../sheet/ways-words";
import type { Branch } from "../walk";
import { countWords } from "./count-words";

/** A place where the ways part. */
export interface PlaceTold {
  readonly kind: "check" | "condition";
  /** The printed number of the check, or of the step that the condition stands in; null for one that stands in none. */
  readonly number: number | null;
  /** The check's number and title, or the condition. */
  readonly title: string;
  /** What is asked or measured; empty where the title says it. */
  readonly question: string;
  readonly place: Place;
  /** Of a place within an answer to another: what is answered there, outermost first. */
  readonly after: readonly string[];
  readonly answers: readonly AnswerTold[];
}

export interface AnswerTold {
  readonly answer: string;
  /** Numbers of the steps and checks that are done on this answer alone. */
  readonly steps: readonly number[];
  /** What else is done on it, as sentences; where nothing is, what is said there. */
  readonly does: readonly string[];
  readonly leads: LeadTold;
  /** How many ways take it at least once, as digits; null where they are not counted. */
  readonly ways: string | null;
}

/** Where an answer leads. */
export interface LeadTold {
  readonly kind: "on" | "go-to" | "check-again" | "repeat" | "end";
  /** The step that it leads to, or that comes next; null where that has no number, and at an end. */
  readonly to: number | null;
  /** How many returns are allowed; null for what is no return, and where nothing bounds it. */
  readonly times: number | null;
  /** All of it in words. */
  readonly words: string;
}

/** Tells the places of a flow; `through` says how many ways take a branch. */
export function placesTold(
  build: Build,
  pieces: readonly Piece[],
  through: (branch: Branch) => bigint | null,
): { readonly told: readonly PlaceTold[]; readonly partings: readonly Parting[] } {
  const told: PlaceTold[] = [];
  const tell = (all: readonly Piece[], after: readonly string[]): void => {
    for (const piece of all) {
      if (piece.kind !== "parting") continue;
      told.push(placeTold(build, piece, after, through));
      for (const answer of piece.answers)
        tell(answer.pieces, [...after, decisionWords(build, piece, answerWords(build, piece, answer))]);
    }
  };
  tell(pieces, []);
  return { told, partings: partingsIn(pieces) };
}

/** A decision: `35 Valve clearances: Outside the limits`, `Is this fitted: Cab? Yes`. */
export function decisionWords(build: Build, parting: Parting, answer: string): string {
  const { title } = namesOf(build, parting);
  return say(title.endsWith("?") ? "decision-asked" : "decision", { question: title, answer });
}

/** What a parting is called, and what is asked there if that says more. */
export function namesOf(
  build: Build,
  parting: Parting,
): { readonly title: string; readonly question: string } {
  const { head, lines } = questionWords(build, parting);
  if (parting.of === "condition") return { title: lines[0] ?? head, question: "" };
  return { title: head, question: lines.join("; ") };
}

function placeTold(
  build: Build,
  parting: Parting,
  after: readonly string[],
  through: (branch: Branch) => bigint | null,
): PlaceTold {
  const { spot, of, answers } = parting;
  return {
    kind: of,
    number: stepAround(spot)?.number ?? null,
    ...namesOf(build, parting),
    place: placeAt(spot.file, spot.line, spot.entry.form.at),
    after,
    answers: answers.map((answer) => {
      const ways = through(answer.branch);
      return {
        answer: answerWords(build, parting, answer),
        ...doneOn(build, answer),
        leads: leadTold(build, parting, answer),
        ways: ways === null ? null : `${ways}`,
      };
    }),
  };
}

function doneOn(build: Build, { pieces, spot }: Answer): Pick<AnswerTold, "steps" | "does"> {
  const steps: number[] = [];
  const work: Spot[] = [];
  for (const piece of pieces) {
    if (piece.kind !== "place") continue;
    if (piece.spot.number !== null) steps.push(piece.spot.number);
    // What is done in a step is told by its number.
    else if (steps.length === 0) work.push(piece.spot);
  }
  const isBare = pieces.every(({ kind }) => kind === "lead");
  return { steps, does: doneWords(build, work, spot && isBare ? spot : undefined) };
}

function leadTold(build: Build, { spot: place, of }: Parting, { pieces }: Answer): LeadTold {
  const last = pieces.at(-1);
  const line = last?.kind === "lead" && isLead(last.spot) ? last.spot : null;
  const lead = line && leadOf(build, line);
  const own = stepAround(line ?? place);
  if (!line || !lead || lead.kind === "go-on") {
    // Within a step comes the rest of it; the sheet says what comes after a check.
    const next = of === "check" || own === null ? nextStep(place) : undefined;
    const to = next?.number ?? null;
    const isLast = of === "check" && own?.number === build.job.steps.length;
    const words = to === null ? say(isLast ? "on-to-end" : "on") : say("on-to", { to: `${to}` });
    return { kind: "on", to, times: null, words };
  }
  if (lead.kind === "end") {
    const [reason] = leadWords(build, line);
    const words = reason ? say("ends-because", { reason }) : say("ends");
    return { kind: "end", to: null, times: null, words };
  }
  const to = Number(lead.to.number);
  if (lead.kind === "go-to")
    return { kind: "go-to", to, times: null, words: goToWords(own?.number ?? to, to) };
  const times = timesOf(line.entry);
  const bound =
    times === null
      ? say("unbounded")
      : times === 1
        ? say("at-most-one")
        : say("at-most", { times: `${times}` });
  return { kind: lead.kind, to, times, words: say(lead.kind, { to: `${to}`, times: bound }) };
}

function goToWords(from: number, to: number): string {
  const [first, last] = [from + 1, to - 1];
  if (last < first) return say("go-to", { to: `${to}` });
  const left = stepsWords(first === last ? `${first}` : `${first}–${last}`);
  return say("go-to-past", { to: `${to}`, left });
}

/** `step 4`, `steps 4–6`. */
const stepsWords = (numbers: string): string =>
  say(/^\d+$/.test(numbers) ? "does-step" : "does-steps", { numbers });

/** Numbers of steps in short: `4–6, 9`. */
export function numbersInShort(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const n of numbers) {
    const last = runs.at(-1);
    if (last && last[1] === n - 1) last[1] = n;
    else runs.push([n, n]);
  }
  return stepsWords(runs.map(([a, b]) => (a === b ? `${a}` : `${a}–${b}`)).join(", "));
}

/** How many ways, in words. */
export function waysWords(ways: string): string {
  if (ways === "0") return say("ways-none");
  return ways === "1" ? say("ways-one") : say("ways", { ways: countWords(BigInt(ways)) });
}
