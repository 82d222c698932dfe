/**
 * Which procedure's sheet is meant by a place in a text: the one it stands in, or one that rests on what stands there.
 */
import type { FileModel, Procedure, Project } from "../model";
import { reachedFrom } from "../model/reached";

/** A sheet that is shown already. */
export interface Shown {
  readonly file: string;
  /** The procedure's name. */
  readonly procedure: string;
}

/**
 * The procedure that a line stands in; else the one that is shown, where it is of this file or uses it; else the one that
 * ends before the line, or the file's first. Null where the file has none and what is shown does not rest on it.
 *
 * @param line from 0; null where nothing is said but the file
 */
export function procedureFor(
  project: Project,
  file: string,
  line: number | null,
  shown: Shown | null,
): Procedure | null {
  const own = project.files.get(file)?.procedures ?? [];
  const around = own.find((one) => line !== null && linesOf(one).first <= line && line <= linesOf(one).last);
  if (around) return around;
  const kept = shown && namedIn(project.files.get(shown.file), shown.procedure);
  if (kept && (shown.file === file || reaches(project, shown.file, file))) return kept;
  return own.findLast(({ thing }) => line !== null && thing.line <= line) ?? own[0] ?? null;
}

/** The procedures of other files that use a file, in the order of the files. */
export function proceduresUsing(project: Project, file: string): Procedure[] {
  return [...project.files.values()].flatMap((one) =>
    one.path !== file && reaches(project, one.path, file) ? one.procedures : [],
  );
}

/** The lines that a procedure takes in its file, from 0, both ends in it. */
export function linesOf({ thing: { line, entry } }: Procedure): {
  readonly first: number;
  readonly last: number;
} {
  return { first: line, last: line + entry.lineCount - 1 };
}

/** Whether a procedure, or its machine, has lines that cannot be read: a sheet of it would lack what they say. */
export function isUnread({ thing, machine }: Procedure): boolean {
  return thing.entry.brokenInside || (machine?.thing.entry.brokenInside ?? false);
}

function namedIn(model: FileModel | undefined, name: string): Procedure | undefined {
  return model?.procedures.find(({ thing }) => thing.name === name);
}

function reaches({ files }: Project, from: string, to: string): boolean {
  return reachedFrom(from, files).has(to);
}
