/**
 * Binds the names of a file: its own declarations, those of the files it uses, and each use of a name to its thing.
 */
import { constructs } from "../../grammar";
import { type Entry, fastenerFacts, headerOf, keptBy, keptByEntry, type NameAt, namesIn } from "../facts";
import { type Declared, placeAt, referencesIn } from "./declare";
import type { Binding, FileModel, Link, Machine, Owner, Part, Procedure, Thing } from "./types";

const HEAD_KINDS: ReadonlySet<string> = new Set(["section", "step", "check"]);
/** Kinds that live in a procedure and are in sight only there. */
const PRIVATE_KINDS: ReadonlySet<string> = new Set([
  "tool",
  "temporary",
  "person",
  "symptom",
  "bulletin",
  "section",
  "step",
  "check",
]);

/** What a file sees: itself first, then the files it uses, nearest first. */
export function bindFile(declared: Declared, used: readonly Declared[], links: readonly Link[]): FileModel {
  const all = [declared, ...used];
  const mayDeclareMore =
    all.some((d) => d.brokenDeclaration) || links.some((l) => l.kind === "use" && l.problem !== null);
  const inSight = all.flatMap((d) => (d === declared ? d.things : d.things.filter((t) => !isPrivate(t))));
  const machines = machinesOf(declared);
  const allMachines = all.flatMap(machinesOf);
  const sharedIndex = all.map(sharedOf);
  const bindings: Binding[] = [];
  const procedures: Procedure[] = [];
  const anyBroken =
    all.some((d) => d.broken) || mayDeclareMore || used.some((d) => hasUnknownName(d, finder(sharedIndex)));
  for (const child of declared.entries) {
    const owner = declared.things.find((t) => t.entry === child.entry && t.line === child.row) ?? null;
    if (owner?.kind === "procedure") {
      const procedure = procedureOf(owner, declared, used, allMachines, sharedIndex, anyBroken);
      procedures.push(procedure);
      for (const binding of procedure.bindings) bindings.push(binding);
    } else {
      const find = finder(sharedIndex);
      bindEntry(declared.path, child.entry, child.row, owner?.owns ?? null, find, bindings, null);
    }
  }
  return {
    path: declared.path,
    document: declared.document,
    entries: declared.entries,
    links,
    machines,
    procedures,
    things: declared.things,
    bindings,
    inSight,
    mayDeclareMore,
  };
}

/** Whether a machine of a used file names something that is nowhere in sight: its facts are not to be relied on. */
function hasUnknownName(declared: Declared, find: Find): boolean {
  return foreignNames(declared).some((b) => b.accepts[0] === "stage" || !find(b.name, b.accepts));
}

/** The names that machines of a file use and that the file itself does not declare. */
const foreignNames = keptBy((declared: Declared): readonly Binding[] => {
  const bindings: Binding[] = [];
  const find = finder([indexOf(declared.things)]);
  for (const child of declared.entries) {
    if (child.entry.construct !== "machine") continue;
    bindEntry(declared.path, child.entry, child.row, null, find, bindings, null);
  }
  return bindings.filter((b) => b.thing === null);
});

const isPrivate = (thing: Thing): boolean =>
  PRIVATE_KINDS.has(thing.kind) || (thing.owner?.kind === "procedure" && thing.kind !== "procedure");

/** The machines a file declares; the same ones as long as the file is the same. */
const machinesOf = keptBy((declared: Declared): readonly Machine[] =>
  declared.things
    .filter((t) => t.kind === "machine")
    .map((thing) => ({ thing, things: declared.things.filter((t) => t.owner === thing.owns) })),
);

/** What a file declares for all who see it, by name. */
const sharedOf = keptBy((declared: Declared): Index => indexOf(declared.things.filter((t) => !isPrivate(t))));

const indexOfMachine = keptBy((machine: Machine): Index => indexOf([machine.thing, ...machine.things]));

type Index = ReadonlyMap<string, readonly Thing[]>;
type Find = (name: string, accepts?: readonly string[]) => Thing | undefined;

function indexOf(things: readonly Thing[]): Index {
  const index = new Map<string, Thing[]>();
  for (const thing of things) {
    if (!thing.named) continue;
    const list = index.get(thing.name);
    if (list) list.push(thing);
    else index.set(thing.name, [thing]);
  }
  return index;
}

function finder(scopes: readonly Index[]): Find {
  return (name, accepts = []) => {
    let any: Thing | undefined;
    for (const scope of scopes) {
      const things = scope.get(name);
      if (!things) continue;
      for (const thing of things) {
        if (accepts.length === 0 || fits(thing, accepts)) return thing;
        any ??= thing;
      }
    }
    return accepts.length === 0 ? any : undefined;
  };
}

/** Whether a thing is of a kind that fits. */
export function fits(thing: Thing, accepts: readonly string[]): boolean {
  if (accepts.includes(thing.kind)) return true;
  return thing.kind === "belt" && accepts.includes("part");
}

function procedureOf(
  thing: Thing,
  declared: Declared,
  used: readonly Declared[],
  machines: readonly Machine[],
  shared: readonly Index[],
  anyBroken: boolean,
): Procedure {
  const own = declared.things.filter((t) => t.owner === thing.owns);
  const header = headerOf(thing.entry);
  const machine = header.machine
    ? (machines.find((m) => m.thing.name === header.machine?.name) ?? null)
    : machines.length === 1
      ? (machines[0] ?? null)
      : null;
  const ownIndex = indexOf(own);
  const [fileIndex = new Map(), ...usedIndexes] = shared;
  const machineIndex = machine ? [indexOfMachine(machine)] : [];
  const left = temporariesLeft(thing, [declared, ...used]);
  const find = finder([ownIndex, ...machineIndex, ...shared, ...left]);
  const sight: Sight = {
    file: declared.path,
    owner: thing.owns,
    find,
    near: [ownIndex, fileIndex],
    far: [...machineIndex, ...usedIndexes, ...left],
    names: namesToken(thing, declared.things),
  };
  const head: Binding[] = [];
  bindOwn(declared.path, thing.entry, thing.line, thing.owns, find, head, null);
  const parts = thing.entry.children.map((child) => partOf(child.entry, thing.line + child.row, sight));
  const bindings = [...head];
  for (const part of parts) for (const binding of part.bindings) bindings.push(binding);
  const unknown = bindings.some((b) => b.thing === null);
  return {
    thing,
    machine,
    things: own.filter((t) => !HEAD_KINDS.has(t.kind)),
    targets: own.filter((t) => HEAD_KINDS.has(t.kind)),
    find,
    bindings,
    parts,
    doubtful:
      thing.entry.brokenInside || anyBroken || unknown || (header.machine !== null && machine === null),
  };
}

/** The temporaries of the procedures that a procedure follows: what they leave in, it takes out or hands back. */
function temporariesLeft(thing: Thing, files: readonly Declared[]): readonly Index[] {
  const names = followedIn(thing.entry);
  return names.length === 0 ? [] : files.flatMap((file) => names.map((name) => temporariesOf(file)(name)));
}

const followedIn = keptByEntry((entry: Entry): readonly string[] => [
  ...(entry.construct === "follow" ? namesIn(entry.form, "procedure").map(({ name }) => name) : []),
  ...entry.children.flatMap((child) => followedIn(child.entry)),
]);

/** A file's temporaries by the procedure that declares them; the same index as long as the file is the same. */
const temporariesOf = keptBy((declared: Declared): ((procedure: string) => Index) => {
  const known = new Map<string, Index>();
  return (procedure) => {
    const index =
      known.get(procedure) ??
      indexOf(
        declared.things.filter(
          ({ kind, owner }) =>
            kind === "temporary" && owner?.kind === "procedure" && owner.name === procedure,
        ),
      );
    known.set(procedure, index);
    return index;
  };
});

/** What the names in a part of a procedure are looked up in. */
interface Sight {
  readonly file: string;
  readonly owner: Owner | null;
  readonly find: Find;
  /** What the file itself declares; made anew with it. */
  readonly near: readonly Index[];
  readonly far: readonly Index[];
  /** The same object while the file declares the same names of the same kinds. */
  readonly names: object;
}

interface KeptPart {
  readonly part: Part;
  readonly sight: Sight;
  /** Things of the file itself whose names the part uses. */
  readonly named: readonly Thing[];
}

const keptParts = new WeakMap<Entry, KeptPart>();

function partOf(entry: Entry, line: number, sight: Sight): Part {
  const known = keptParts.get(entry);
  if (known?.part.line === line && seesTheSame(known, sight)) return known.part;
  const bindings: Binding[] = [];
  bindEntry(sight.file, entry, line, sight.owner, sight.find, bindings, null);
  const names = new Set(bindings.map((b) => b.name));
  const near = [...names].flatMap((name) => sight.near.flatMap((index) => index.get(name) ?? []));
  const part = { entry, line, bindings };
  keptParts.set(entry, { part, sight, named: near });
  return part;
}

/** Whether every name would be found to mean the very same thing as before. */
function seesTheSame({ sight: before, named }: KeptPart, now: Sight): boolean {
  return (
    before.file === now.file &&
    before.owner === now.owner &&
    before.names === now.names &&
    before.far.length === now.far.length &&
    before.far.every((index, i) => index === now.far[i]) &&
    named.every((thing) => now.near.some((index) => isAmong(thing, index)))
  );
}

const isAmong = (thing: Thing, index: Index): boolean => index.get(thing.name)?.includes(thing) ?? false;

const keptNames = new WeakMap<Owner, { readonly names: readonly string[]; readonly token: object }>();

function namesToken(thing: Thing, declared: readonly Thing[]): object {
  const names = declared.filter((t) => t.named).map((t) => `${t.kind} ${t.name}`);
  const known = thing.owns ? keptNames.get(thing.owns) : undefined;
  if (known && known.names.length === names.length && known.names.every((name, i) => name === names[i]))
    return known.token;
  const token = {};
  if (thing.owns) keptNames.set(thing.owns, { names, token });
  return token;
}

/** Binds the names on an entry's own lines, then those of its children. `act` is the act whose stages `stage` lines name. */
function bindEntry(
  file: string,
  entry: Entry,
  line: number,
  owner: Owner | null,
  find: Find,
  out: Binding[],
  act: Entry | null,
): void {
  bindOwn(file, entry, line, owner, find, out, act);
  const inside = stagesIn(entry, act);
  for (const child of entry.children)
    bindEntry(file, child.entry, line + child.row, owner, find, out, inside);
}

const stagesIn = (entry: Entry, act: Entry | null): Entry | null =>
  constructs.get(entry.construct)?.act === true ? entry : act;

/** Binds the names on an entry's own lines. */
function bindOwn(
  file: string,
  entry: Entry,
  line: number,
  owner: Owner | null,
  find: Find,
  out: Binding[],
  act: Entry | null,
): void {
  const stagesOf = stagesIn(entry, act);
  for (const { name, accepts, role, within } of referencesIn(entry)) {
    const place = placeAt(file, line, name.at);
    if (accepts[0] === "stage") {
      out.push({
        name: name.name,
        place,
        accepts,
        role,
        within,
        owner,
        misfit: null,
        thing: stageOwner(name, stagesOf, find),
      });
      continue;
    }
    const thing = find(name.name, accepts) ?? null;
    out.push({
      name: name.name,
      place,
      accepts,
      role,
      within,
      owner,
      thing,
      misfit: thing ? null : (find(name.name) ?? null),
    });
  }
}

/** The fastener among those an act names that has a stage of this name. */
function stageOwner(name: NameAt, act: Entry | null, find: Find): Thing | null {
  const fasteners = act?.form.slots.find((s) => s.role === "what")?.names ?? [];
  for (const { name: fastener } of fasteners) {
    const thing = find(fastener, ["fastener"]);
    if (thing && (thing.doubtful || fastenerFacts(thing.entry).stages.some((s) => s.name === name.name)))
      return thing;
  }
  return null;
}
