/**
 * Every place where something is named, its declaration among them: what references, highlighting and renaming share.
 */
import type { FileModel, Place, Thing } from "../model";
import { lineAt, scopeAt, stagePlace, type Target } from "./cursor";
import { looseNames } from "./loose";

/** One place where a target is named. */
export interface Mention {
  readonly place: Place;
  /** It is declared here. */
  readonly declares: boolean;
}

/** Where a target is named in a file, in the order of its text. */
export function mentionsIn(file: FileModel, target: Target): readonly Mention[] {
  const own = declarationOf(target);
  const found = [
    ...(own?.file === file.path ? [{ place: own, declares: true }] : []),
    ...usesIn(file, target).map((place) => ({ place, declares: false })),
  ];
  const first = found.filter((m, i) => found.findIndex((other) => samePlace(other.place, m.place)) === i);
  return first.sort((a, b) => a.place.line - b.place.line || a.place.start - b.place.start);
}

/** Whether two places begin at the same sign. */
export function samePlace(a: Place, b: Place): boolean {
  return a.file === b.file && a.line === b.line && a.start === b.start;
}

/** Where a target is declared; undefined for a file. */
export function declarationOf(target: Target): Place | undefined {
  switch (target.kind) {
    case "file":
      return undefined;
    case "thing":
      return target.thing.place;
    case "stage":
      return stagePlace(target.thing, target.stage);
    default:
      return loosePlace(target);
  }
}

/** A place in the file of the thing itself, told by the thing's block. */
function loosePlace(target: Extract<Target, { kind: "outcome" | "way" }>): Place | undefined {
  const { thing, kind, name } = target;
  const details =
    kind === "way"
      ? [{ row: 0, details: thing.entry.details.filter((d) => d.clause === "way-round") }]
      : thing.entry.children
          .filter((c) => c.entry.construct === "choose")
          .map((c) => ({ row: c.row, details: [c.entry.form] }));
  for (const { row, details: list } of details) {
    const names = list.flatMap((d) => d.slots.flatMap((s) => (ROLES.has(s.role) ? s.names : [])));
    const found = names.find((n) => n.name === name);
    if (found) return { file: thing.file, line: thing.line + row + found.at.row, ...found.at.span };
  }
  return undefined;
}
const ROLES: ReadonlySet<string> = new Set(["choice", "direction"]);

function usesIn(file: FileModel, target: Target): Place[] {
  if (target.kind === "file") return file.links.filter((l) => l.file === target.file).map((l) => l.place);
  if (target.kind === "outcome" || target.kind === "way")
    return looseNames(file)
      .filter((l) => l.kind === target.kind && l.name === target.name && sameThing(l.thing, target.thing))
      .map((l) => l.place);
  const bound = file.bindings.filter((b) => b.thing !== null && sameThing(b.thing, target.thing));
  if (target.kind === "stage")
    return bound.filter((b) => b.accepts[0] === "stage" && b.name === target.stage).map((b) => b.place);
  const loose = looseNames(file).filter((l) => l.kind === "thing" && sameThing(l.thing, target.thing));
  return [...bound.filter((b) => b.accepts[0] !== "stage"), ...loose].map((b) => b.place);
}

const sameThing = (a: Thing, b: Thing): boolean => a === b || samePlace(a.place, b.place);

/** Words on lines that could not be read which name the thing there, as far as anybody can tell. */
export function perhapsIn(file: FileModel, thing: Thing): readonly Place[] {
  return file.document.lines.flatMap((_, line) =>
    (lineAt(file, line)?.perhaps ?? [])
      .filter((word) => word.name === thing.name)
      .filter(() => {
        const meant = scopeAt(file, line).find(thing.name);
        return meant !== undefined && sameThing(meant, thing);
      })
      .map((word) => ({ file: file.path, line, ...word.span })),
  );
}
