/**
 * What keeps the procedures of a file from being printed: the errors in it, and in all that it uses.
 */
import type { FileModel } from "../model";
import { reachedFrom } from "../model/reached";
import type { Finding } from "../rules";

/** The errors that a sheet made from a file would rest on, in the order in which the files are reached. */
export function errorsBehind(
  path: string,
  files: ReadonlyMap<string, FileModel>,
  found: ReadonlyMap<string, readonly Finding[]>,
): Finding[] {
  return [...reachedFrom(path, files)]
    .flatMap((one) => found.get(one) ?? [])
    .filter((one) => one.severity === "error");
}
