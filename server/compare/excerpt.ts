/**
 * Where two texts differ, with a few words around: long prose is not said twice for one word.
 */

/** Words kept on each side of what differs. */
const AROUND = 4;

/** The stretch of each text in which they differ. */
export function excerpts(before: string, after: string): readonly [string, string] {
  const [a, b] = [before.split(/\s+/), after.split(/\s+/)];
  const least = Math.min(a.length, b.length);
  let start = 0;
  while (start < least && a[start] === b[start]) start++;
  let end = 0;
  while (end < least - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;
  const from = Math.max(0, start - AROUND);
  const left = Math.max(0, end - AROUND);
  const cut = (words: readonly string[]): string => {
    const text = words.slice(from, words.length - left).join(" ");
    return `${from > 0 ? "… " : ""}${text}${left > 0 ? " …" : ""}`;
  };
  return [cut(a), cut(b)];
}
