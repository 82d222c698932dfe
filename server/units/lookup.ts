/**
 * From a spelling to its unit, and from a misspelling to the unit probably meant.
 */

import type { Kind } from "./dimension";
import { normaliseSpelling } from "./spelling";
import { allUnits } from "./table";
import type { Unit } from "./unit";

/** Spelling to units. More than one where `°C` may be a point or a difference; the usual one first. */
const bySpelling = new Map<string, Unit[]>();
const byId = new Map<string, Unit>();
const names = new Map<Unit, Set<string>>();
for (const unit of allUnits) {
  byId.set(unit.id, unit);
  const all = new Set([unit.print, unit.plural ?? unit.print, ...unit.spellings].map(normaliseSpelling));
  names.set(unit, all);
  for (const name of all) bySpelling.set(name, [...(bySpelling.get(name) ?? []), unit]);
}

/** The most words a spelling has (`US fl oz`). */
export const longestUnitWords = Math.max(...[...bySpelling.keys()].map((name) => name.split(" ").length));

/** The unit with this id; undefined where there is none. */
export function unitById(id: string): Unit | undefined {
  return byId.get(id);
}

/**
 * The unit a spelling stands for. With a kind, the reading of that kind is taken where the spelling has
 * several (`°C` as a difference); without it, or where none is of that kind, the usual reading.
 */
export function findUnit(text: string, kind?: Kind): Unit | undefined {
  const found = bySpelling.get(normaliseSpelling(text));
  return found?.find((unit) => unit.kind === kind) ?? found?.[0];
}

/**
 * The unit at the beginning of some words, and how many of them it takes (`US`, `fl`, `oz`; `lb`, `ft`).
 * With a kind, the longest reading of that kind wins; else the longest reading. Undefined where none fits.
 */
export function readUnit(words: readonly string[], kind?: Kind): { unit: Unit; taken: number } | undefined {
  let usual: { unit: Unit; taken: number } | undefined;
  for (let taken = Math.min(words.length, longestUnitWords); taken > 0; taken -= 1) {
    const unit = findUnit(words.slice(0, taken).join(" "), kind);
    if (unit !== undefined && (kind === undefined || unit.kind === kind)) return { unit, taken };
    if (unit !== undefined) usual ??= { unit, taken };
  }
  return usual;
}

/** The unit that measures a difference in this unit: itself, but for points on the temperature scale. */
export function differenceUnit(unit: Unit): Unit {
  return byId.get(`${unit.id} difference`) ?? unit;
}

/**
 * The unit probably meant by a spelling that is none, for "did you mean": the same letters in another case
 * or without its dots and signs, else the nearest by edits, one edit for each three letters. Of equally near
 * ones the first of the wanted kind, else the first in the table. Undefined where nothing is that near.
 */
export function nearestUnit(text: string, kind?: Kind): Unit | undefined {
  const wanted = fold(text);
  if (wanted === "") return undefined;
  const allowed = Math.floor(Math.min(wanted.length, 12) / 3);
  let best: Unit | undefined;
  let least = 2 * (allowed + 1);
  for (const [unit, spellings] of names) {
    const otherKind = kind === undefined || unit.kind === kind ? 0 : 1;
    for (const spelling of spellings) {
      const distance = 2 * editDistance(wanted, fold(spelling), allowed + 1) + otherKind;
      if (distance < least) [best, least] = [unit, distance];
    }
  }
  return best;
}

/** A spelling without what people leave out or get wrong first: case, dots, spaces, degree signs. */
function fold(text: string): string {
  return normaliseSpelling(text)
    .toLowerCase()
    .replace(/[·. °]/g, "")
    .replace(/µ/g, "u");
}

/** Edits (insert, drop, replace) between two texts; `limit` or more once it is sure to be that many. */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const replaced = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? limit;
}
