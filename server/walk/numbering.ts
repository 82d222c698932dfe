/**
 * Numbers of steps and checks: one series through the procedure as it is printed, procedures it follows included.
 */
import { type Entry, namesIn } from "../facts";
import type { Procedure, Thing } from "../model";

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

/** Steps and checks in the order they are printed. A procedure that follows itself is taken up once only. */
export function numbering(procedure: Procedure): readonly Numbered[] {
  const numbered: Numbered[] = [];
  const visit = (entry: Entry, file: string, line: number, through: readonly number[], open: readonly Thing[]): void => {
    for (const child of entry.children) {
      const at = line + child.row;
      if (child.entry.construct === "step" || child.entry.construct === "check") {
        numbered.push({ number: numbered.length + 1, file, line: at, entry: child.entry, through });
      }
      const other = child.entry.construct === "follow" ? followed(procedure, child.entry) : undefined;
      if (other && !open.includes(other)) visit(other.entry, other.file, other.line, [...through, at], [...open, other]);
      else visit(child.entry, file, at, through, open);
    }
  };
  const { thing } = procedure;
  visit(thing.entry, thing.file, thing.line, [], [thing]);
  return numbered;
}

/** The numbers of the procedure's own steps and checks, by the line of their head. */
export function numbersByLine(procedure: Procedure): ReadonlyMap<number, number> {
  return new Map(numbering(procedure).filter((n) => n.through.length === 0).map((n) => [n.line, n.number]));
}

/** The procedure that a `follow` line means. */
export function followed(procedure: Procedure, entry: Entry): Thing | undefined {
  const name = namesIn(entry.form, "procedure")[0]?.name;
  return name === undefined ? undefined : procedure.find(name, ["procedure"]);
}
