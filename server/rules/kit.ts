/**
 * What the rules about the kit share: its items bound to the things they replace, and the acts that fit new ones.
 */
import {
  clauseOf,
  countIn,
  type Entry,
  fastenerFacts,
  type KitItem,
  keptByEntry,
  kitsOf,
  partFacts,
} from "../facts";
import { followed, type Place, type Procedure, placeAt, type Thing } from "../model";
import { type Point, placeOf } from "../walk";
import { type ActAt, actsIn, partByPart, thingsNamed } from "./look";
import type { Fix } from "./types";

/** Kinds that come in a kit under the name of what they replace. */
const REPLACED = ["part", "fastener", "belt", "line"] as const;

export interface KitThing {
  readonly item: KitItem;
  readonly thing: Thing;
  readonly place: Place;
}

/** The items of a procedure's kits, with the things they replace. */
export function kitThings(procedure: Procedure): readonly KitThing[] {
  const { file, line } = procedure.thing;
  return kitsOf(procedure.thing.entry).flatMap((kit) =>
    kit.items.flatMap((item) => {
      const thing = procedure.find(item.thing.name, [...REPLACED, "consumable"]);
      return thing
        ? [{ item, thing, place: placeAt(file, line + item.row, { ...item.thing.at, row: 0 }) }]
        : [];
    }),
  );
}

/** One thing that an act fits. */
export interface Fitting {
  readonly at: ActAt;
  readonly thing: Thing;
  readonly place: Place;
}

const kept = new WeakMap<Procedure, readonly Fitting[]>();

/** Everything the procedure's own acts fit. */
export function fittingsOf(procedure: Procedure): readonly Fitting[] {
  let found = kept.get(procedure);
  if (!found) {
    found = fittingsByPart(procedure);
    kept.set(procedure, found);
  }
  return found;
}

const fittingsByPart = partByPart(fittings);

/** Everything that procedures followed from this one fit, as their names are understood here. */
export function fittingsFollowed(procedure: Procedure): readonly Fitting[] {
  const seen = new Set<Thing>([procedure.thing]);
  const queue = [procedure.thing];
  for (let next = queue.shift(); next; next = queue.shift()) {
    for (const child of followsIn(next.entry)) {
      const other = followed(procedure, child);
      if (other && !seen.has(other)) {
        seen.add(other);
        queue.push(other);
      }
    }
  }
  seen.delete(procedure.thing);
  return [...seen].flatMap((thing) => fittings(procedure, actsIn(thing)));
}

const NONE: readonly Entry[] = [];

/** The lines in an entry that follow another procedure. */
const followsIn = keptByEntry((entry: Entry): readonly Entry[] => {
  const found: Entry[] = [];
  for (const { entry: child } of entry.children) {
    if (child.construct === "follow") found.push(child);
    for (const inner of followsIn(child)) found.push(inner);
  }
  return found.length === 0 ? NONE : found;
});

function fittings(procedure: Procedure, acts: readonly ActAt[]): Fitting[] {
  const fits = acts.filter((a) => a.act.verb === "fit");
  return fits.flatMap((at) =>
    thingsNamed(procedure, at.act.what, REPLACED).map((w) => ({ at, thing: w.thing, place: at.place(w.at) })),
  );
}

/** Says `new` in an act that fits one thing; where it fits several, nothing is offered. */
export function newFix({ at, place }: Fitting): readonly Fix<Place>[] {
  if (at.act.what.length !== 1) return [];
  return [
    {
      title: { id: "fix", args: {} },
      safe: false,
      changes: [{ place: { ...place, end: place.start }, text: "new " }],
    },
  ];
}

/** The same for a point of the walk. */
export function newFixAt(point: Point): readonly Fix<Place>[] {
  if (point.kind !== "act" || point.act.what.length !== 1 || point.spot.through) return [];
  const place = placeOf(point);
  return [
    {
      title: { id: "fix", args: {} },
      safe: false,
      changes: [{ place: { ...place, end: place.start }, text: "new " }],
    },
  ];
}

/** Groups by a key, in order. */
export function groupedBy<T, K>(items: readonly T[], key: (item: T) => K): ReadonlyMap<K, readonly T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const group = groups.get(key(item));
    if (group) group.push(item);
    else groups.set(key(item), [item]);
  }
  return groups;
}

const removals = new WeakMap<Procedure, ReadonlyMap<Thing, readonly ActAt[]>>();
const TAKES_OFF: ReadonlySet<string> = new Set(["remove", "disconnect", "put-by"]);

const takenOff = partByPart((procedure, acts) =>
  acts
    .filter((at) => TAKES_OFF.has(at.act.verb))
    .flatMap((at) => thingsNamed(procedure, at.act.what, REPLACED).map(({ thing }) => ({ at, thing }))),
);

/** Removals of a thing, in the order of the text. */
export function removalsOf(procedure: Procedure, thing: Thing): readonly ActAt[] {
  let byThing = removals.get(procedure);
  if (!byThing) {
    const pairs = takenOff(procedure);
    const groups = groupedBy(pairs, (pair) => pair.thing);
    byThing = new Map([...groups].map(([key, group]) => [key, group.map((pair) => pair.at)]));
    removals.set(procedure, byThing);
  }
  return byThing.get(thing) ?? [];
}

/** Whether an act keeps what it takes off, or puts by what is off. */
export const keeps = ({ act }: ActAt): boolean => act.keep || act.verb === "put-by";

/** Whether the machine says that a thing is renewed every time it comes off. */
export function renewedEveryTime(thing: Thing): boolean {
  return thing.kind === "fastener"
    ? fastenerFacts(thing.entry).renewEveryTime
    : partFacts(thing.entry).renewEveryTime;
}

/** How many of a thing the machine has. */
export function numberOf(thing: Thing): number {
  return thing.kind === "fastener"
    ? fastenerFacts(thing.entry).count
    : (countIn(clauseOf(thing.entry, "count"), "count") ?? 1);
}
