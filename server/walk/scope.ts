/**
 * Names as seen from a procedure, and from a procedure that it follows: there its own things come first.
 */
import { constructs } from "../../grammar";
import { type Entry, namesIn, textIn } from "../facts";
import { fits, type Procedure, placeAt, type Thing, type ThingKind } from "../model";

export interface Scope {
  readonly procedure: Thing;
  readonly find: (name: string, accepts?: readonly string[]) => Thing | undefined;
}

/** Kinds of thing that names of the graph are looked up as. */
export const KINDS = {
  check: ["check"],
  target: ["step", "check", "section"],
  event: ["step", "check", "consumable"],
  procedure: ["procedure"],
  condition: ["symptom", "bulletin", "option", "choice", "variant", "check"],
  version: ["variant", "option", "bulletin"],
  supply: ["consumable", "tool", "temporary"],
  tool: ["tool"],
} as const;

/** The names a procedure sees. */
export function scopeOf(procedure: Procedure): Scope {
  return { procedure: procedure.thing, find: remembering(procedure.find) };
}

/** Looks each name up once for each list of kinds; the lists are those of the forms, so there are few. */
function remembering(find: Procedure["find"]): Scope["find"] {
  const byKinds = new Map<readonly string[], Map<string, Thing | undefined>>();
  return (name, accepts = ANY) => {
    let known = byKinds.get(accepts);
    if (!known) {
      known = new Map();
      byKinds.set(accepts, known);
    }
    let thing = known.get(name);
    if (thing === undefined && !known.has(name)) {
      thing = find(name, accepts);
      known.set(name, thing);
    }
    return thing;
  };
}
const ANY: readonly string[] = [];

/** The names seen in a procedure that another follows: its own, then those the other sees. */
export function scopeWithin(caller: Scope, procedure: Thing): Scope {
  const own = ownThings(procedure);
  const find: Scope["find"] = (name, accepts = []) => {
    const thing = own.get(name)?.find((t) => accepts.length === 0 || fits(t, accepts));
    const seen = caller.find(name, accepts);
    // What the caller sees as well, a temporary that is left in, is one and the same.
    return thing && seen?.id === thing.id && seen.line === thing.line ? seen : (thing ?? seen);
  };
  return { procedure, find };
}

const kept = new WeakMap<Thing, ReadonlyMap<string, readonly Thing[]>>();

function ownThings(procedure: Thing): ReadonlyMap<string, readonly Thing[]> {
  const known = kept.get(procedure);
  if (known) return known;
  const things = new Map<string, Thing[]>();
  const visit = (entry: Entry, line: number): void => {
    const kind = constructs.get(entry.construct)?.declares as ThingKind | undefined;
    const thing = kind && ownThing(procedure, entry, line, kind);
    if (thing) things.set(thing.name, [...(things.get(thing.name) ?? []), thing]);
    for (const child of entry.children) visit(child.entry, line + child.row);
  };
  for (const child of procedure.entry.children) visit(child.entry, procedure.line + child.row);
  kept.set(procedure, things);
  return things;
}

function ownThing(procedure: Thing, entry: Entry, line: number, kind: ThingKind): Thing | undefined {
  const name = namesIn(entry.form, "name")[0];
  if (!name) return undefined;
  const { file } = procedure;
  return {
    kind,
    name: name.name,
    title: textIn(entry.form, "title"),
    id: [file, procedure.name, kind, name.name].join("/"),
    place: placeAt(file, line, name.at),
    file,
    line,
    entry,
    owner: procedure.owns,
    owns: null,
    named: true,
    doubtful: entry.doubtful,
  };
}
