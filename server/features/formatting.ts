/**
 * Formatting: the least edits that bring a text into the form in which it is printed.
 */
import type { Edit } from "../../grammar";
import type { FileModel } from "../model";

/** The edits that format a file; none where it is formatted already. */
export function formatting(_file: FileModel): readonly Edit[] {
  return [];
}
