/**
 * Which shafts of a machine turn together, and how fast: by the teeth of belts, chains and gears, and by what is said of ratios.
 */
import { beltFacts, gearFacts, type NameAt, shaftFacts } from "../facts";
import { ratioIn } from "../mechanics/fractions";
import { beltLinks, type Link, type Toothed, toothRatio } from "../mechanics/shafts";
import type { Thing } from "../model";
import { type Relations, shaftsOf } from "./relations";

/** What is asked of names and parts. */
export type Bound = Pick<Relations, "byName" | "shaftOf">;

/** Looks among the things of a machine alone, where there is no procedure. */
export function boundIn(things: readonly Thing[]): Bound {
  const byName = ({ name }: NameAt, kinds: readonly string[]): Thing | undefined =>
    things.find((t) => t.name === name && (kinds.length === 0 || kinds.includes(t.kind)));
  return { byName, shaftOf: shaftsOf(things, byName) };
}

/** Whether a shaft may be turned as one likes while its belt is off. */
export const turnsFree = (shaft: Thing): boolean => shaftFacts(shaft.entry).beltOff === "free";

/** What a toothed belt or a chain couples; others slip. */
export function linksOfBelt(belt: Thing, { byName }: Bound): readonly Link[] {
  const { toothed, make, pulleys } = beltFacts(belt.entry);
  if (!toothed && make !== "chain") return [];
  return beltLinks(
    pulleys.flatMap(({ shaft: name, teeth, backOfBelt }): Toothed[] => {
      const shaft = name && byName(name, ["shaft"]);
      return shaft && teeth ? [{ shaft: shaft.name, teeth, side: backOfBelt ? "back" : "inside" }] : [];
    }),
  );
}

/** What gears in mesh couple. */
export function gearLinks(things: readonly Thing[], { byName, shaftOf }: Bound): readonly Link[] {
  return things.flatMap((gear) => {
    const own = shaftOf(gear);
    const { teeth, meshes } = gearFacts(gear.entry);
    if (gear.kind !== "part" || !own || !teeth) return [];
    return meshes.flatMap((name) => {
      const other = byName(name, ["part"]);
      const shaft = other ? shaftOf(other) : null;
      const theirs = other ? gearFacts(other.entry).teeth : null;
      const ratio = theirs ? toothRatio(teeth, theirs, false) : null;
      return shaft && ratio ? [{ from: own.name, to: shaft.name, ratio }] : [];
    });
  });
}

/** What is said of ratios, where no teeth say it. */
export function saidLinks(things: readonly Thing[], { byName }: Bound): readonly Link[] {
  return things.flatMap((shaft) => {
    const said = shaft.kind === "shaft" ? shaftFacts(shaft.entry).ratio : null;
    const of = said && byName(said.of, ["shaft"]);
    const ratio = ratioIn(said?.text ?? "");
    return of && ratio ? [{ from: of.name, to: shaft.name, ratio }] : [];
  });
}
