/**
 * How a text is laid out: whether its indentation can be trusted, and by how much a block stands deeper than its head.
 */
import type { Line } from "./statement";

export interface Layout {
  /** Indentation says where a line belongs. */
  readonly indented: boolean;
  /** Columns by which a block stands deeper than its head. */
  readonly step: number;
}

/** Whether a line says anything about where it stands. */
export function isSaid(line: Line): boolean {
  return line.kind !== "blank" && line.kind !== "comment";
}

/** A text's layout is judged by so many lines at its start. */
const LOOKED_AT = 4000;

/** Looks at a text's closing braces and first lines of blocks. */
export function layoutOf(text: readonly Line[]): Layout {
  const lines = text.slice(0, LOOKED_AT);
  const open: number[] = [];
  const steps = new Map<number, number>();
  let closes = 0;
  let matched = 0;
  let head: Line | null = null;
  for (const line of lines) {
    if (!isSaid(line)) continue;
    if (head && line.kind !== "close" && line.indent > head.indent) count(steps, line.indent - head.indent);
    head = line.opens ? line : null;
    if (line.opens) open.push(line.indent);
    if (line.kind !== "close") continue;
    closes++;
    while (open.length > 0 && (open[open.length - 1] as number) > line.indent) open.pop();
    if (open[open.length - 1] !== line.indent) continue;
    matched++;
    open.pop();
  }
  return { indented: steps.size > 0 && matched * 5 >= closes * 4, step: mostCommon(steps) };
}

function count(counts: Map<number, number>, value: number): void {
  counts.set(value, (counts.get(value) ?? 0) + 1);
}

function mostCommon(counts: ReadonlyMap<number, number>): number {
  let best = 2;
  let most = 0;
  for (const [value, times] of counts) if (times > most) [best, most] = [value, times];
  return best;
}
