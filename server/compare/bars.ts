/**
 * Where the sheet of a procedure shows a bar in its margin: the ids of the job's lines that have changed, or name what has.
 */
import { jobOf, type Procedure, type Project, type Spot } from "../model";
import type { Change, Comparison } from "./change";
import type { Lines } from "./node";

/** What is marked on a sheet. */
export interface Bars {
  /** Ids of lines of the job, as `jobOf` gives them. */
  readonly ids: ReadonlySet<string>;
  /** Lines of the text that have changed, by `file:line` from 0. */
  readonly lines: ReadonlySet<string>;
  /** Ids of things whose facts have changed. */
  readonly things: ReadonlySet<string>;
  /** Changes that left nothing to stand beside, in the order of the comparison. */
  readonly removed: readonly Change[];
}

/** Works out the bars of a procedure of the new side. What is only laid out otherwise has none. */
export function barsOf({ changes }: Comparison, project: Project, procedure: Procedure): Bars {
  const job = jobOf(project, procedure);
  const shown = changes.filter(({ rank }) => rank !== "layout");
  const here = new Set(job.procedures.map(({ file }) => file));
  const lines = new Set<string>();
  const ids = new Set<string>();
  const things = new Set<string>();
  const removed: Change[] = [];
  for (const change of shown) {
    const { after, before } = change.places;
    if (after) for (const key of keysOf(after)) lines.add(key);
    if (change.touches.length > 0 && change.concerns) things.add(change.concerns.id);
    const isGone =
      !after &&
      before &&
      (here.has(before.file) || change.touches.some(({ procedure: one }) => one.id === procedure.thing.id));
    if (isGone) removed.push(change);
  }
  const wasIn = new Set(removed.flatMap(({ steps }) => (steps.after ? [steps.after.number] : [])));
  for (const spot of job.spots) {
    const own = ownLines(spot);
    if (own.some((line) => lines.has(`${spot.file}:${line}`))) ids.add(spot.id);
    if (spot.number !== null && wasIn.has(spot.number)) ids.add(spot.id);
  }
  return { ids, lines, things, removed };
}

function keysOf({ file, line, endLine }: Lines): readonly string[] {
  return Array.from({ length: endLine - line + 1 }, (_, i) => `${file}:${line + i}`);
}

/** The lines of a place that are not those of something in it. */
function ownLines({ line, entry, children }: Spot): readonly number[] {
  const inner = new Set(
    children.flatMap((child) => Array.from({ length: child.entry.lineCount }, (_, i) => child.line + i)),
  );
  const last = entry.children.length === 0 ? entry.lineCount - 1 : 0;
  return Array.from({ length: last + 1 }, (_, i) => line + i).filter((at) => !inner.has(at));
}
