/**
 * The nearest of some words, for "did you mean".
 */
import { distance } from "fastest-levenshtein";

/** The word nearest to `text`, if it is near enough to be a slip of the fingers; ties go to the first in order. */
export function nearest(text: string, words: readonly string[]): string | undefined {
  const most = text.length <= 2 ? 0 : text.length <= 4 ? 1 : text.length <= 8 ? 2 : 3;
  let best: string | undefined;
  let least = most + 1;
  for (const word of words) {
    if (Math.abs(word.length - text.length) >= Math.max(least, 2)) continue;
    const d = sameLetters(text, word) ? 1 : distance(text, word);
    if (d < least) {
      least = d;
      best = word;
    }
  }
  return best;
}

/** Two letters swapped is one slip, not two. */
function sameLetters(a: string, b: string): boolean {
  return a.length === b.length && [...a].sort().join("") === [...b].sort().join("");
}
