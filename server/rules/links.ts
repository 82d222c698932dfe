/**
 * What the rules about paths to other files share: the links of a file that have one problem.
 */
import type { FileModel, Link, Place } from "../model";
import type { Fault } from "./types";

/** One fault for each link with this problem. */
export function linkFaults(file: FileModel, problem: Link["problem"]): Fault<Place>[] {
  return file.links
    .filter((link) => link.problem === problem)
    .map(({ path, place }) => ({ place, args: { path } }));
}
