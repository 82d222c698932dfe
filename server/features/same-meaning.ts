/**
 * Whether a project still means what it meant: every name is bound to the same thing as before. Lines stand where they
 * stood, so things are told by their place among those of their file.
 */
import { keptBy } from "../facts";
import type { Binding, FileModel, Place, Project, Thing } from "../model";
import { looseNames } from "./loose";

/** The first place where something else is meant; `thing` is what is meant there now, where that is something. */
export interface Difference {
  readonly place: Place;
  readonly why: "unreadable" | "mistaken" | "changes";
  readonly thing: Thing | null;
}

const orderOf = keptBy(
  (file: FileModel): ReadonlyMap<Thing, number> => new Map(file.things.map((t, i) => [t, i])),
);

/** Tells things of one project from each other, and finds them again in the other. */
function keyIn(project: Project, thing: Thing | null): string {
  const file = thing && project.files.get(thing.file);
  return file ? `${thing.file} ${orderOf(file).get(thing) ?? ""}` : "";
}

/**
 * What differs between two projects of the same lines; null where nothing does. A name that meant nothing and now means
 * `welcome` is no difference.
 */
export function difference(before: Project, after: Project, welcome: Thing | null): Difference | null {
  for (const [path, now] of after.files) {
    const then = before.files.get(path);
    if (!then || then === now) continue;
    const found = lineDifference(then, now) ?? nameDifference(before, then, after, now, welcome);
    if (found) return found;
  }
  return null;
}

function lineDifference(then: FileModel, now: FileModel): Difference | null {
  const lines = now.document.lines;
  const at = lines.findIndex((line, i) => {
    const old = then.document.lines[i];
    return old !== line && (old?.kind !== line.kind || old.head !== line.head);
  });
  return at < 0 ? null : { place: lineOf(now, at), why: "unreadable", thing: null };
}

const lineOf = ({ path }: FileModel, line: number): Place => ({ file: path, line, start: 0, end: 0 });

function nameDifference(
  before: Project,
  then: FileModel,
  after: Project,
  now: FileModel,
  welcome: Thing | null,
): Difference | null {
  const same = (a: Thing | null, b: Thing | null): boolean => keyIn(before, a) === keyIn(after, b);
  const expected = keyIn(before, welcome);
  for (const [i, was] of then.bindings.entries()) {
    const is = now.bindings[i];
    if (!is || !sameUse(was, is)) return { place: was.place, why: "changes", thing: null };
    if (same(was.thing, is.thing) && (was.thing !== null || same(was.misfit, is.misfit))) continue;
    const met = was.thing === null && was.misfit === null && keyIn(after, is.thing ?? is.misfit) === expected;
    if (!met) return { place: is.place, why: "mistaken", thing: is.thing ?? is.misfit };
  }
  for (const [i, was] of looseNames(then).entries()) {
    const is = looseNames(now)[i];
    if (!is || is.kind !== was.kind || !same(was.thing, is.thing))
      return { place: was.place, why: "changes", thing: null };
  }
  const extra = now.bindings[then.bindings.length] ?? looseNames(now)[looseNames(then).length];
  return extra ? { place: extra.place, why: "changes", thing: null } : machineDifference(then, now);
}

const sameUse = (a: Binding, b: Binding): boolean =>
  a.place.line === b.place.line && a.role === b.role && a.within === b.within;

/** A procedure must be for the same machine. */
function machineDifference(then: FileModel, now: FileModel): Difference | null {
  const other = now.procedures.find((p, i) => {
    const old = then.procedures[i];
    return (
      p.machine?.thing.file !== old?.machine?.thing.file || p.machine?.thing.line !== old?.machine?.thing.line
    );
  });
  return other ? { place: other.thing.place, why: "changes", thing: null } : null;
}
