/**
 * Times and what is read from them.
 */

/** Milliseconds that some work takes. */
export async function timed(work: () => unknown): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/** The value that a share of all values lies at or under. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

/** Milliseconds with as many digits as mean something. */
export function shown(milliseconds: number): string {
  return milliseconds < 10 ? milliseconds.toFixed(2) : milliseconds.toFixed(milliseconds < 100 ? 1 : 0);
}

/** Rows as a table: the first row heads it, the first column to the left, the others to the right. */
export function table(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? "").length)),
  );
  const line = (row: readonly string[]): string =>
    row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0))).join("  ");
  const [head = [], ...rest] = rows;
  return [line(head), widths.map((w) => "-".repeat(w)).join("  "), ...rest.map(line)].join("\n");
}
