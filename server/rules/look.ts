/**
 * A plain look through a procedure, as the text goes: its acts with the blocks they stand in. Rules that need no ways
 * use it; those that do go by the walk.
 */
import { constructs } from "../../grammar";
import { type Act, type At, actOf, type Entry, type NameAt } from "../facts";
import { type Part, type Place, type Procedure, placeAt, type Thing } from "../model";

/** An entry with the line of its head, absolute in the procedure's file. */
export interface EntryAt {
  readonly entry: Entry;
  readonly line: number;
}

/** An act where it stands. */
export interface ActAt extends EntryAt {
  readonly act: Act;
  /** The blocks it stands in, outermost first, the procedure's own head aside. */
  readonly blocks: readonly EntryAt[];
  /** A place in the act's lines. */
  readonly place: (at: At) => Place;
  /** The place of the act's own words. */
  readonly head: Place;
}

const kept = new WeakMap<Procedure, readonly ActAt[]>();

/** The acts of a procedure in the order of the text; those of procedures it follows are not among them. */
export function actsOf(procedure: Procedure): readonly ActAt[] {
  let acts = kept.get(procedure);
  if (!acts) {
    acts = actsIn(procedure.thing);
    kept.set(procedure, acts);
  }
  return acts;
}

/**
 * Makes a look at the acts of a procedure go part by part: what a part gave is kept while nothing in it, and nothing it
 * names, has changed. The work may rest on the part's acts and on what its names mean, and on nothing else.
 */
export function partByPart<T>(
  work: (procedure: Procedure, acts: readonly ActAt[]) => readonly T[],
): (procedure: Procedure) => readonly T[] {
  const byPart = new WeakMap<Part, readonly T[]>();
  return (procedure) =>
    procedure.parts.flatMap((part) => {
      let found = byPart.get(part);
      if (!found) {
        found = work(procedure, actsInPart(part.entry, part.line, procedure.thing.file));
        byPart.set(part, found);
      }
      return found;
    });
}

/** The acts in the entry of a procedure's thing. */
export function actsIn({ entry, line, file }: Thing): readonly ActAt[] {
  return entry.children.flatMap((child) => actsInPart(child.entry, line + child.row, file));
}

const keptParts = new WeakMap<
  Entry,
  { readonly line: number; readonly file: string; readonly acts: readonly ActAt[] }
>();

/** The acts in a section or step that stands right under the procedure; kept while it stands where it stood. */
export function actsInPart(entry: Entry, line: number, file: string): readonly ActAt[] {
  const known = keptParts.get(entry);
  if (known?.line === line && known.file === file) return known.acts;
  const acts: ActAt[] = [];
  const visit = (at: EntryAt, blocks: readonly EntryAt[]): void => {
    if (constructs.get(at.entry.construct)?.act) acts.push(actAt(file, at, blocks));
    if (at.entry.children.length === 0) return;
    const inside = [...blocks, at];
    for (const child of at.entry.children) visit({ entry: child.entry, line: at.line + child.row }, inside);
  };
  visit({ entry, line }, []);
  keptParts.set(entry, { line, file, acts });
  return acts;
}

function actAt(file: string, { entry, line }: EntryAt, blocks: readonly EntryAt[]): ActAt {
  const place = (at: At): Place => placeAt(file, line, at);
  return { entry, line, blocks, act: actOf(entry), place, head: place(entry.form.at) };
}

/** The declared things of some names, of these kinds; names of anything else are left out. */
export function thingsNamed(
  procedure: Procedure,
  names: readonly NameAt[],
  kinds: readonly string[],
): { readonly thing: Thing; readonly at: At }[] {
  return names.flatMap(({ name, at }) => {
    const thing = procedure.find(name, kinds);
    return thing ? [{ thing, at }] : [];
  });
}
