/**
 * Numbers of steps and checks: one series through the procedure as it is printed, procedures it follows included.
 * Sheet, messages and comparison all number by this.
 */
import { type Entry, namesIn } from "../facts";
import type { Procedure, Thing } from "./types";

/** A step or check with its number. */
export interface Numbered {
  /** From 1. */
  readonly number: number;
  readonly file: string;
  /** The absolute line of its head. */
  readonly line: number;
  readonly entry: Entry;
  /** The lines of the `follow`s that lead there from the procedure; empty for its own. */
  readonly through: readonly number[];
}

/** Procedures that follow many that follow many are joined in until there are so many steps. */
const MOST_STEPS = 100_000;

/** Steps and checks in the order they are printed. A procedure is not joined in again from within itself. */
export function numbering(procedure: Procedure): readonly Numbered[] {
  const numbered: Numbered[] = [];
  const visit = (
    entry: Entry,
    file: string,
    line: number,
    through: readonly number[],
    open: readonly Thing[],
  ): void => {
    for (const child of entry.children) {
      const at = line + child.row;
      if (isNumbered(child.entry)) {
        numbered.push({ number: numbered.length + 1, file, line: at, entry: child.entry, through });
      }
      const other = joinedBy(procedure, child.entry, open, numbered.length);
      if (other) visit(other.entry, other.file, other.line, [...through, at], [...open, other]);
      else visit(child.entry, file, at, through, open);
    }
  };
  const { thing } = procedure;
  visit(thing.entry, thing.file, thing.line, [], [thing]);
  return numbered;
}

/** Whether an entry has a number in the series. */
export function isNumbered(entry: Entry): boolean {
  return entry.construct === "step" || entry.construct === "check";
}

/** The numbers of the procedure's own steps and checks, by the line of their head. */
export function numbersByLine(procedure: Procedure): ReadonlyMap<number, number> {
  const own = numbering(procedure).filter((one) => one.through.length === 0);
  return new Map(own.map((one) => [one.line, one.number]));
}

/** The procedure that a `follow` line means. */
export function followed(procedure: Procedure, entry: Entry): Thing | undefined {
  const name = namesIn(entry.form, "procedure")[0]?.name;
  return name === undefined ? undefined : procedure.find(name, ["procedure"]);
}

/**
 * The procedure that an entry joins in where it stands, if it is a `follow`; `open` are those around it, `steps` how
 * many steps there are before it.
 */
export function joinedBy(
  procedure: Procedure,
  entry: Entry,
  open: readonly Thing[],
  steps: number,
): Thing | undefined {
  const other = entry.construct === "follow" && steps < MOST_STEPS ? followed(procedure, entry) : undefined;
  return other && !open.includes(other) ? other : undefined;
}
