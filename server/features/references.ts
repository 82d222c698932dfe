/**
 * Every use of a name, in all files of the project; and those of one file, to be made visible in it.
 */
import type { Position } from "../../grammar";
import type { Place, Project } from "../model";
import { targetAt } from "./cursor";
import { declarationOf, type Mention, mentionsIn } from "./mentions";

/** Where the name at a position is used, file by file; first its declaration, if asked for. */
export function references(
  project: Project,
  path: string,
  position: Position,
  declaration: boolean,
): readonly Place[] {
  const file = project.files.get(path);
  const target = file && targetAt(file, position);
  if (!target) return [];
  const own = declaration ? declarationOf(target) : undefined;
  const found = [...project.files.values()].flatMap((f) => mentionsIn(f, target));
  const used = found.filter((m) => !m.declares).map((m) => m.place);
  return own ? [own, ...used] : used;
}

/** Where the name at a position stands in the same file, its declaration told apart. */
export function highlights(project: Project, path: string, position: Position): readonly Mention[] {
  const file = project.files.get(path);
  const target = file && targetAt(file, position);
  return target && target.kind !== "file" ? mentionsIn(file, target) : [];
}
