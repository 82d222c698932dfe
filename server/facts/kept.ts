/**
 * Keeps what was worked out for something as long as it lives.
 */
import type { Entry } from "./entry";

/** Makes a pure function of an object remember its outcome by that object. */
export function keptBy<K extends object, T>(work: (key: K) => T): (key: K) => T {
  const kept = new WeakMap<K, T>();
  return (key) => {
    const known = kept.get(key);
    if (known !== undefined || kept.has(key)) return known as T;
    const made = work(key);
    kept.set(key, made);
    return made;
  };
}

/** Makes a pure function of an entry remember its outcome by entry. */
export function keptByEntry<T>(work: (entry: Entry) => T): (entry: Entry) => T {
  return keptBy(work);
}
