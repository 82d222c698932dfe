/**
 * The rows of a drawing of the ways on as many drawings as they need: each as full as can be, and ended where few ways lead
 * across.
 */
import { type All, pageOf, type WaysPage } from "./ways-lay";
import type { WaysRow } from "./ways-rows";

/** Lays rows out on as many drawings as they need, none taller than can be if no row by itself is. */
export function layWays(rows: readonly WaysRow[], tallest: number): readonly WaysPage[] {
  const all: All = { rows, wanted: wantedIn(rows) };
  const pages: WaysPage[] = [];
  for (let first = 0; first < rows.length; ) {
    const last = lastOf(all, first, tallest);
    pages.push(pageOf(all, first, last));
    first = last;
  }
  return pages;
}

/**
 * The row before which a drawing that begins at a row ends: as many rows as are not too tall together, found by halving;
 * one row alone stays, however tall it is.
 */
function lastOf(all: All, first: number, tallest: number): number {
  const { rows } = all;
  if (pageOf(all, first, rows.length).height <= tallest) return rows.length;
  let [low, high] = [first + 1, rows.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (pageOf(all, first, middle).height <= tallest) low = middle;
    else high = middle - 1;
  }
  for (let earlier = low; earlier > first; earlier--) {
    if (pageOf(all, first, earlier).height < tallest * FULL_ENOUGH) break;
    if (!isLedAcross(rows, earlier)) return earlier;
  }
  return low;
}

/** A drawing may end so early, in parts of the height, where no way then leads from one drawing into another. */
const FULL_ENOUGH = 0.5;

/** Whether a way other than the straight one leads from the rows before an index to those from it on, or back. */
function isLedAcross(rows: readonly WaysRow[], index: number): boolean {
  const leads = (some: readonly WaysRow[], others: readonly WaysRow[]): boolean => {
    const wanted = wantedIn(some);
    return others.some(({ id }) => wanted.has(id));
  };
  const [before, after] = [rows.slice(0, index), rows.slice(index)];
  return leads(before, after) || leads(after, before);
}

/** Every row that some answer leads to, and every question after which an answer joins again. */
function wantedIn(rows: readonly WaysRow[]): Set<string> {
  const wanted = new Set<string>();
  const look = (row: WaysRow): void => {
    if (row.kind === "lead") wanted.add(row.to);
    if (row.kind !== "question") return;
    for (const branch of row.branches) {
      if (branch.leads.kind === "to") wanted.add(branch.leads.to);
      if (branch.leads.kind === "on") wanted.add(`after ${row.id}`);
      branch.rows.forEach(look);
    }
  };
  rows.forEach(look);
  return wanted;
}
