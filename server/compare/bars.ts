/**
 * Where the sheet of a procedure shows a bar in its margin: the lines that have changed, those that name what has, and
 * those beside which something stood that is gone.
 */
import { jobOf, type Procedure, type Project, type Thing } from "../model";
import type { Change, Comparison } from "./change";
import type { Lines } from "./node";
import { reachOf } from "./touches";

/** What is marked on a sheet. */
export interface Bars {
  /** Lines of the text, by `lineKey`. */
  readonly lines: ReadonlySet<string>;
  /** What is gone, in the order of the comparison. */
  readonly removed: readonly Change[];
}

/** A line of a file as a key, lines from 0. */
export function lineKey(file: string, line: number): string {
  return `${line} ${file}`;
}

/** Works out the bars of a procedure of the new side. What is only laid out or named otherwise has none. */
export function barsOf({ changes }: Comparison, project: Project, procedure: Procedure): Bars {
  const job = jobOf(project, procedure);
  const inJob = new Set(job.spots.map(({ file, line }) => lineKey(file, line)));
  const here = new Set(job.procedures.map(({ file }) => file));
  const { naming } = reachOf(project);
  const things = thingsById(project);
  const lines = new Set<string>();
  const removed: Change[] = [];
  for (const change of changes.filter(({ rank, kind }) => rank !== "layout" && kind !== "renamed")) {
    const { after, before } = change.places;
    const touchesIt = change.touches.some(({ procedure: one }) => one.id === procedure.thing.id);
    if (after) for (const key of keysOf(after)) lines.add(key);
    if (change.gap) lines.add(lineKey(change.gap.file, change.gap.line));
    const thing = things.get(change.concerns?.id ?? "");
    if (thing && !isWork(thing)) lines.add(lineKey(thing.file, thing.line));
    if (thing && touchesIt && !isWork(thing))
      for (const { file, line, entry } of naming(thing)) {
        const key = lineKey(file, line);
        if (inJob.has(key) && shows(change, entry.construct)) lines.add(key);
      }
    const isGone = before && !after && (touchesIt || (change.gap !== null && here.has(change.gap.file)));
    if (isGone) removed.push(change);
  }
  return { lines, removed };
}

/** The acts that show a fact of a fastener; any other change is marked at every line that names the thing. */
const SHOWN_AT: { readonly [kind in Change["kind"]]?: readonly string[] } = {
  tightening: ["tighten"],
  order: ["tighten", "loosen", "remove"],
  "thread-state": ["tighten", "lubricate", "seal"],
  renewal: ["fit", "remove", "item"],
};

const shows = ({ kind }: Change, construct: string): boolean => SHOWN_AT[kind]?.includes(construct) ?? true;

/** Whether a thing is a part of the work, of which a line that changes is marked by itself. */
function isWork({ kind }: Thing): boolean {
  return ["procedure", "machine", "section", "step", "check"].includes(kind);
}

function thingsById(project: Project): ReadonlyMap<string, Thing> {
  return new Map(
    [...project.files.values()].flatMap((file) => file.things.map((thing) => [thing.id, thing] as const)),
  );
}

function keysOf({ file, line, endLine }: Lines): readonly string[] {
  return Array.from({ length: endLine - line + 1 }, (_, i) => lineKey(file, line + i));
}
