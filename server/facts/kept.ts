/**
 * Keeps what was worked out for an entry as long as the entry lives.
 */
import type { Entry } from "./entry";

/** Makes a pure function of an entry remember its outcome by entry. */
export function keptByEntry<T>(work: (entry: Entry) => T): (entry: Entry) => T {
  const kept = new WeakMap<Entry, T>();
  return (entry) => {
    const known = kept.get(entry);
    if (known !== undefined) return known;
    const made = work(entry);
    kept.set(entry, made);
    return made;
  };
}
