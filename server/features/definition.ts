/**
 * From a name to where it is declared, and from a path to the file it leads to.
 */
import type { Position } from "../../grammar";
import type { Place, Project } from "../model";
import { targetAt } from "./cursor";
import { declarationOf } from "./mentions";

/** The stretch that was pointed at, and where it leads. */
export interface Definition {
  readonly from: Place;
  readonly to: Place;
}

/** Where the name at a position is declared; null where there is no name, or none of that name. */
export function definition(project: Project, path: string, position: Position): Definition | null {
  const file = project.files.get(path);
  const target = file && targetAt(file, position);
  if (!target) return null;
  if (target.kind === "file")
    return { from: target.place, to: { file: target.file, line: 0, start: 0, end: 0 } };
  const to = declarationOf(target);
  return to ? { from: target.place, to } : null;
}
