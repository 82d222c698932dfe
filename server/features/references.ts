/**
 * Every use of a name, in all files of the project.
 */
import type { Position } from "../../grammar";
import type { FileModel, Place, Project, Thing } from "../model";
import { stagePlace, type Target, targetAt } from "./cursor";

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
  const found = [...project.files.values()].flatMap((f) => usesIn(f, target));
  return own ? [own, ...found.filter((p) => !same(p, own))] : found;
}

const same = (a: Place, b: Place): boolean => a.file === b.file && a.line === b.line && a.start === b.start;

function declarationOf(target: Target): Place | undefined {
  if (target.kind === "file") return undefined;
  return target.kind === "stage" ? stagePlace(target.thing, target.stage) : target.thing.place;
}

function usesIn(file: FileModel, target: Target): Place[] {
  if (target.kind === "file") return file.links.filter((l) => l.file === target.file).map((l) => l.place);
  const bound = file.bindings.filter((b) => b.thing !== null && sameThing(b.thing, target.thing));
  if (target.kind === "thing") return bound.filter((b) => b.accepts[0] !== "stage").map((b) => b.place);
  return bound.filter((b) => b.accepts[0] === "stage" && b.name === target.stage).map((b) => b.place);
}

const sameThing = (a: Thing, b: Thing): boolean => a === b || same(a.place, b.place);
