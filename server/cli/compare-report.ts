/**
 * What every report of a comparison is made from: changes with the names of their files, and how they are counted.
 */
import { type Change, type Lines, RANKS, type Rank } from "../features/compare";
import type { OpenProblem } from "./open";

/** A change, and how the files of either side are called, as seen from the folder of the command. */
export interface Shown {
  readonly change: Change;
  readonly before: (file: string) => string;
  readonly after: (file: string) => string;
}

/** A whole comparison, by rank and then in the order of files and places. */
export interface CompareReport {
  readonly names: { readonly before: string; readonly after: string };
  readonly shown: readonly Shown[];
  readonly problems: readonly OpenProblem[];
}

/** How many changes there are of each rank. */
export function countsOf({ shown }: CompareReport): Readonly<Record<Rank, number>> {
  const count = (rank: Rank): number => shown.filter(({ change }) => change.rank === rank).length;
  return Object.fromEntries(RANKS.map((rank) => [rank, count(rank)])) as Record<Rank, number>;
}

/** The ranks that have changes, gravest first, with them. */
export function byRank({ shown }: CompareReport): readonly (readonly [Rank, readonly Shown[]])[] {
  return RANKS.map((rank) => [rank, shown.filter(({ change }) => change.rank === rank)] as const).filter(
    ([, some]) => some.length > 0,
  );
}

/** Where a change is written on both sides, as short as it can be told: `pump.torquil:12 → 14`. */
export function placesText({ change, before, after }: Shown): string {
  const { places } = change;
  const whole =
    change.what === "file" ||
    change.kind === "reordered" ||
    change.kind === "severity" ||
    change.kind === "setting";
  const told = (place: Lines, nameOf: (file: string) => string): readonly [string, string] => [
    nameOf(place.file),
    whole ? "" : `:${place.line + 1}`,
  ];
  const old = places.before && told(places.before, before);
  const fresh = places.after && told(places.after, after);
  if (!old || !fresh) return old ? `was ${old.join("")}` : (fresh ?? []).join("");
  if (old[0] !== fresh[0]) return `${old.join("")} → ${fresh.join("")}`;
  return old[1] === fresh[1] ? fresh.join("") : `${old.join("")} → ${fresh[1].slice(1)}`;
}
