/**
 * How alike two nodes are, and the longest run of what two lists share.
 */

/** The words of a text, small, without signs. */
export function wordsIn(text: string): readonly string[] {
  return text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
}

/** How much two bags share, from 0 to 1 (the measure of Sørensen and Dice). Two empty ones share nothing. */
export function shared(a: readonly string[], b: readonly string[]): number {
  const left = new Map<string, number>();
  for (const one of a) left.set(one, (left.get(one) ?? 0) + 1);
  let common = 0;
  for (const one of b) {
    const count = left.get(one) ?? 0;
    if (count > 0) {
      common++;
      left.set(one, count - 1);
    }
  }
  return a.length + b.length === 0 ? 0 : (2 * common) / (a.length + b.length);
}

/**
 * The pairs of places at which two lists say the same, in order, as many as can be (longest common subsequence). What
 * both begin and end with is taken off first.
 */
export function commonRun(
  a: readonly string[],
  b: readonly string[],
): readonly (readonly [number, number])[] {
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let end = 0;
  while (end < Math.min(a.length, b.length) - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;
  const rows = a.length - start - end;
  const columns = b.length - start - end;
  const pairs: [number, number][] = [];
  for (let i = 0; i < start; i++) pairs.push([i, i]);
  const best = tableOf(rows, columns, (i, j) => a[start + i] === b[start + j]);
  for (let i = 0, j = 0; i < rows && j < columns; ) {
    if (a[start + i] === b[start + j]) pairs.push([start + i++, start + j++]);
    else if (best(i + 1, j) >= best(i, j + 1)) i++;
    else j++;
  }
  for (let i = end; i > 0; i--) pairs.push([a.length - i, b.length - i]);
  return pairs;
}

/** How long the longest run is from each pair of places on. */
function tableOf(
  rows: number,
  columns: number,
  same: (i: number, j: number) => boolean,
): (i: number, j: number) => number {
  const width = columns + 1;
  const table = new Uint32Array((rows + 1) * width);
  for (let i = rows - 1; i >= 0; i--)
    for (let j = columns - 1; j >= 0; j--)
      table[i * width + j] = same(i, j)
        ? (table[(i + 1) * width + j + 1] as number) + 1
        : Math.max(table[(i + 1) * width + j] as number, table[i * width + j + 1] as number);
  return (i, j) => table[i * width + j] as number;
}

/** Which of some places, read in a new order, may stay where they are, so that the rest weighs least. */
export function staying(order: readonly number[], weights: readonly number[]): ReadonlySet<number> {
  const best: number[] = [];
  const before: number[] = [];
  let last = -1;
  for (let i = 0; i < order.length; i++) {
    best[i] = weights[i] as number;
    before[i] = -1;
    // Mostly the one just before is the best there is, and nothing further back need be looked at.
    for (let j = i - 1; j >= 0; j--) {
      if ((order[j] as number) > (order[i] as number)) continue;
      const sum = (best[j] as number) + (weights[i] as number);
      if (sum > (best[i] as number)) {
        best[i] = sum;
        before[i] = j;
      }
    }
    if (last < 0 || (best[i] as number) > (best[last] as number)) last = i;
  }
  const kept = new Set<number>();
  for (let i = last; i >= 0; i = before[i] as number) kept.add(i);
  return kept;
}
