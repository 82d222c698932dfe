/**
 * What a kind of wrong change is, and the little edits of lines that they are made of.
 */
import { ACTS, type ActRow, type Departure } from "../../server/walk";
import { enumerate } from "../walk/plainly";
import type { Instruction } from "../walk/programs";
import type { Texts } from "./generate";
import { withoutMember } from "./machine";
import { bareLine } from "./nodes";
import { ELSEWHERE, readProcedure } from "./reader";
import { type Source, TABLE } from "./sources";

/** One wrong change, with what must be found: any of these codes at any of these lines (from 0) of this file. */
export interface Change {
  readonly texts: Texts;
  readonly codes: readonly string[];
  readonly file: string;
  readonly lines: readonly number[];
}

/** A place where a change may be made; null where it turns out to be none that is surely wrong. */
export type Site = () => Change | null;

export interface Kind {
  readonly name: string;
  /** Why such a change is surely wrong. */
  readonly proof: string;
  readonly sites: (source: Source) => Site[];
}

/** Lines by number, each with what stands there now; null takes the line away but leaves its place. */
export type Edits = ReadonlyMap<number, string | null>;

/** The texts with one file's lines changed. An edit may hold several lines: what stands below then moves. */
export function edited(source: Source, file: string, edits: Edits): Texts {
  const lines = linesOf(source, file).map((line, i) => (edits.has(i) ? (edits.get(i) ?? "") : line));
  return { ...source.texts, [file]: lines.join("\n") };
}

export function linesOf(source: Source, file: string): string[] {
  return (source.texts[file] as string).split("\n");
}

/** The lines of a file that look so, without their texts and comments. */
export function matches(
  source: Source,
  file: string,
  pattern: RegExp,
): { at: number; match: RegExpExecArray }[] {
  return linesOf(source, file).flatMap((line, at) => {
    const match = pattern.exec(bareLine(line).replace(/ +/g, " "));
    return match ? [{ at, match }] : [];
  });
}

/** The first and the last line of the block whose head stands at a line; the line itself where it has none. */
export function blockAt(lines: readonly string[], head: number): number {
  let depth = 0;
  for (let at = head; at < lines.length; at++) {
    const bare = bareLine(lines[at] as string);
    if (bare.endsWith("{")) depth++;
    if (bare === "}") depth--;
    if (depth === 0) return at;
  }
  return head;
}

/** The heads of the blocks around a line, from the innermost. */
export function headsAround(lines: readonly string[], line: number): number[] {
  const heads: number[] = [];
  let depth = 0;
  for (let at = line - 1; at >= 0; at--) {
    const bare = bareLine(lines[at] as string);
    if (bare === "}") depth++;
    else if (bare.endsWith("{") && depth-- === 0) {
      heads.push(at);
      depth = 0;
    }
  }
  return heads;
}

/** Edits that take a line away, with its block. */
export function dropped(lines: readonly string[], at: number): Map<number, null> {
  const last = blockAt(lines, at);
  return new Map(Array.from({ length: last - at + 1 }, (_, i) => [at + i, null] as const));
}

export const indentOf = (line: string): string => /^\s*/.exec(line)?.[0] ?? "";

/** What an act does, by its row in the table. */
const DOES: Readonly<Record<string, (row: ActRow, act: Act) => boolean>> = {
  "part-left-off": (row) => row.makes === "off",
  "finger-tight-left": (row, { stage }) =>
    row.fastener === "placed" || row.fastener === "loose" || (row.fastener === "tightened" && stage !== null),
};

type Act = Extract<Instruction, { does: "act" }>;

function broughtAbout(code: string, act: Act): boolean {
  const row = ACTS[act.verb] as ActRow;
  const does = DOES[code];
  if (does) return does(row, act);
  return row.makes !== undefined && TABLE.departures[row.makes as Departure].left === code;
}

/** Whether some way leads from an act to the end without another act on its thing that tells of the same. */
function isLast(instructions: readonly Instruction[], act: number): boolean {
  const done = instructions[act] as Act;
  const row = ACTS[done.verb] as ActRow;
  const isAgain = (verb: string): boolean => {
    const { makes, ends, fastener } = ACTS[verb] as ActRow;
    return [makes, ends].some((d) => d !== undefined && d === row.makes) || Boolean(fastener && row.fastener);
  };
  const open = [act + 1];
  const seen = new Set<number>();
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    const now = instructions[at];
    if (!now || seen.has(at)) continue;
    seen.add(at);
    if (now.does === "end") return true;
    if (now.does === "end-job" || (now.does === "act" && now.thing === done.thing && isAgain(now.verb)))
      continue;
    if (now.does === "jump" || now.does === "back") open.push(now.to);
    if (now.does === "test") open.push(now.past);
    if (now.does !== "jump") open.push(at + 1);
  }
  return false;
}

const isOf = (name: string, thing: string): boolean => withoutMember(thing) === name;

/**
 * A change to the main file that the plain enumeration finds wrong with this code. The place is the act that shows it,
 * or, where it shows at the end of the job, the acts that brought it about.
 */
export function proved(
  source: Source,
  texts: Texts,
  codes: readonly string[],
  thing?: string,
): Change | null {
  const read = readProcedure(texts, source.main);
  if (typeof read === "string") return null;
  const faults = enumerate(read.instructions, TABLE, read.world).map((fault) => fault.split(" "));
  const [code, of, where] =
    faults.find(([found = "", name = ""]) => codes.includes(found) && (!thing || isOf(thing, name))) ?? [];
  if (!code || !of || !where) return null;
  const acts = read.instructions.flatMap((i, at) =>
    i.does === "act" && i.thing === of && broughtAbout(code, i) && isLast(read.instructions, at)
      ? [i.line]
      : [],
  );
  const lines =
    where === "end"
      ? acts
      : faults.filter(([found, name]) => found === code && name === of).map(([, , line]) => Number(line));
  // What shows in a procedure that is followed shows in another file.
  if (lines.some((line) => line >= ELSEWHERE)) return null;
  return { texts, codes: [code], file: source.main, lines: [...new Set(lines)] };
}

/** Whether the plain enumeration finds anything of these codes wrong. */
export function isProvedWrong(source: Source, texts: Texts, codes: readonly string[]): boolean {
  const read = readProcedure(texts, source.main);
  if (typeof read === "string") return false;
  return enumerate(read.instructions, TABLE, read.world).some((fault) =>
    codes.includes(fault.split(" ")[0] as string),
  );
}
