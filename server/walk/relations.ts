/**
 * How the things of a machine stand to each other: what stands in front of what, what secures what, what comes off
 * with what, which belt lies on which pulley.
 */
import {
  beltFacts,
  fastenerFacts,
  markFacts,
  type NameAt,
  namesOfClause,
  partFacts,
  temporaryFacts,
} from "../facts";
import { fits, type Procedure, type Thing } from "../model";

export interface Relations {
  /** What must be off before an act that needs reach can be done on a thing. */
  readonly fronts: (thing: Thing, verb: string) => readonly Thing[];
  readonly fastenersOf: (thing: Thing) => readonly Thing[];
  readonly secured: (fastener: Thing) => readonly Thing[];
  /** The fasteners that lock one: lock nuts and lock screws. */
  readonly locksOf: (fastener: Thing) => readonly Thing[];
  /** The assemblies that take a thing with them when they come off, nearest first. */
  readonly carriers: (thing: Thing) => readonly Thing[];
  /** All that comes off with an assembly, what its parts carry included. */
  readonly carriedBy: (thing: Thing) => readonly Thing[];
  /** The fluids in a thing. */
  readonly fluidsIn: (thing: Thing) => readonly Thing[];
  /** What rests on a thing. */
  readonly borneBy: (thing: Thing) => readonly Thing[];
  /** What comes off with a thing, itself included, in kilograms. */
  readonly weightOf: (thing: Thing) => number;
  /** The shaft that a part turns with, the shaft itself aside from that; null where nothing says so. */
  readonly shaftOf: (thing: Thing) => Thing | null;
  readonly belts: readonly Thing[];
  /** Parts in front of a belt: its guards. */
  readonly guards: readonly Thing[];
  /** The part whose face this is. */
  readonly partOfFace: (face: Thing) => Thing | null;
  readonly into: (temporary: Thing) => Thing | null;
  /** The temporaries put over a thing: while one is in, nothing goes onto the thing. */
  readonly coversOf: (thing: Thing) => readonly Thing[];
  readonly byName: (name: NameAt, kinds: readonly string[]) => Thing | undefined;
}

const FRONT_KINDS = ["part", "belt", "line", "fastener"];
const PLACED: ReadonlySet<string> = new Set(["remove", "fit"]);

/** The relations of a procedure's machine. */
export function relationsOf(procedure: Procedure): Relations {
  const things = procedure.machine?.things ?? [];
  const named = indexByName([...things, ...procedure.things]);
  const byName = ({ name }: NameAt, kinds: readonly string[]): Thing | undefined =>
    named.get(name)?.find((t) => kinds.length === 0 || fits(t, kinds)) ?? procedure.find(name, kinds);
  const all = (names: readonly NameAt[], kinds: readonly string[]): readonly Thing[] =>
    names.flatMap((n) => byName(n, kinds) ?? []);
  const behind = once((thing) => all(partFacts(thing.entry).behind, FRONT_KINDS));
  const secured = once((f) =>
    f.kind === "fastener" ? all(fastenerFacts(f.entry).secures, FRONT_KINDS) : [],
  );
  const carried = once((thing) => all(partFacts(thing.entry).carries, FRONT_KINDS));
  const of = (kind: string): readonly Thing[] => things.filter((t) => t.kind === kind);
  const fasteners = inverse(of("fastener"), secured);
  const holders = inverse(
    things.filter((t) => carried(t).length > 0),
    carried,
  );
  const pulleys = once((belt) =>
    all(
      beltFacts(belt.entry).pulleys.map((p) => p.part),
      ["part"],
    ),
  );
  const belts = inverse(of("belt"), pulleys);
  const reach = once((thing) => reachOf(thing, behind, secured, (name) => byName(name, ["part"])));
  const carriedBy = once((thing) => allOf(thing, carried));
  return {
    fluidsIn: once((thing) => all(partFacts(thing.entry).contains, ["fluid"])),
    borneBy: once((thing) => (thing.kind === "part" ? all(partFacts(thing.entry).bears, BORNE_KINDS) : NONE)),
    weightOf: (thing) => [thing, ...carriedBy(thing)].reduce((sum, t) => sum + ownWeight(t), 0),
    shaftOf: shaftsOf(things, byName),
    fronts: (thing, verb) => (PLACED.has(verb) ? unique([...reach(thing), ...belts(thing)]) : reach(thing)),
    fastenersOf: fasteners,
    secured,
    locksOf: once((f) => (f.kind === "fastener" ? all(fastenerFacts(f.entry).lockedBy, ["fastener"]) : NONE)),
    carriers: once((thing) => allOf(thing, holders)),
    carriedBy,
    belts: of("belt"),
    guards: unique(of("belt").flatMap((b) => behind(b).filter((t) => t.kind === "part"))),
    partOfFace: (face) =>
      things.find(
        (t) => t.kind === "part" && t.entry === face.entry && t.line <= face.line && t.owner === face.owner,
      ) ?? null,
    into: (temporary) => {
      const { into, over } = temporaryFacts(temporary.entry);
      const name = into ?? over;
      return name ? (byName(name, []) ?? null) : null;
    },
    coversOf: inverse(
      procedure.things.filter((t) => t.kind === "temporary"),
      (temporary) => {
        const { over } = temporaryFacts(temporary.entry);
        return over ? all([over], []) : NONE;
      },
    ),
    byName,
  };
}

const BORNE_KINDS = ["part", "machine"];

function ownWeight({ entry }: Thing): number {
  const { weight } = partFacts(entry);
  return weight?.low?.si ?? weight?.nominal?.si ?? weight?.high?.si ?? 0;
}

/** Pulleys turn with the shaft their belt's line names, gears with their own; a shaft is its own. */
export function shaftsOf(
  things: readonly Thing[],
  byName: (name: NameAt, kinds: readonly string[]) => Thing | undefined,
): (thing: Thing) => Thing | null {
  const onShaft = new Map<Thing, Thing>();
  const add = (part: Thing | undefined, name: NameAt | null | undefined): void => {
    const shaft = name && byName(name, ["shaft"]);
    if (part && shaft) onShaft.set(part, shaft);
  };
  for (const thing of things) {
    if (thing.kind === "part") add(thing, namesOfClause(thing.entry, "on-shaft", "shaft")[0]);
    if (thing.kind !== "belt") continue;
    for (const { part, shaft } of beltFacts(thing.entry).pulleys) add(byName(part, ["part"]), shaft);
  }
  return (thing) => (thing.kind === "shaft" ? thing : (onShaft.get(thing) ?? null));
}

/** What stands in front of a thing itself, or of the part that a mark is on or a fastener secures. */
function reachOf(
  thing: Thing,
  behind: (thing: Thing) => readonly Thing[],
  secured: (fastener: Thing) => readonly Thing[],
  part: (name: NameAt) => Thing | undefined,
): readonly Thing[] {
  const own = behind(thing);
  if (thing.kind === "mark") {
    const { on } = markFacts(thing.entry);
    const carrier = on ? part(on) : undefined;
    return carrier ? unique([...own, ...behind(carrier)]) : own;
  }
  if (thing.kind !== "fastener" || own.length > 0) return own;
  const held = secured(thing);
  return unique(held.flatMap(behind)).filter((front) => front !== thing && !held.includes(front));
}

/** All that a relation leads to from a thing, itself aside, step by step. */
function allOf(thing: Thing, relation: (thing: Thing) => readonly Thing[]): readonly Thing[] {
  const found: Thing[] = [];
  const visit = (t: Thing): void => {
    for (const next of relation(t)) {
      if (next === thing || found.includes(next)) continue;
      found.push(next);
      visit(next);
    }
  };
  visit(thing);
  return found;
}

function indexByName(things: readonly Thing[]): ReadonlyMap<string, readonly Thing[]> {
  const index = new Map<string, Thing[]>();
  for (const thing of things) {
    const list = index.get(thing.name);
    if (list) list.push(thing);
    else index.set(thing.name, [thing]);
  }
  return index;
}

function inverse(
  things: readonly Thing[],
  relation: (thing: Thing) => readonly Thing[],
): (thing: Thing) => readonly Thing[] {
  const back = new Map<Thing, Thing[]>();
  for (const thing of things)
    for (const other of relation(thing)) back.set(other, [...(back.get(other) ?? []), thing]);
  return (thing) => back.get(thing) ?? NONE;
}
const NONE: readonly Thing[] = [];

function once<T>(work: (thing: Thing) => T): (thing: Thing) => T {
  const kept = new Map<Thing, T>();
  return (thing) => {
    let value = kept.get(thing);
    if (value === undefined) {
      value = work(thing);
      kept.set(thing, value);
    }
    return value;
  };
}

function unique<T>(list: readonly T[]): readonly T[] {
  return list.length < 2 ? list : [...new Set(list)];
}
