/**
 * Which files a file rests on.
 */
import type { FileModel } from "./types";

/** A file and all it uses, and what those use, in the order in which they are reached. */
export function reachedFrom(path: string, files: ReadonlyMap<string, FileModel>): ReadonlySet<string> {
  const reached = new Set([path]);
  // A set that is gone through also gives what is added to it meanwhile.
  for (const one of reached)
    for (const { kind, file } of files.get(one)?.links ?? [])
      if (kind === "use" && file !== null) reached.add(file);
  return reached;
}
