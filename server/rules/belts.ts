/**
 * What the rules about belts share: the one thing that is wrong with a belt's run, told once, so that each rule takes what is its
 * own and no two report the same fault.
 */
import {
  beltPath,
  type Fit,
  fitOf,
  isWhole,
  type Layout,
  lengthRange,
  type Repair,
  repairs,
} from "../mechanics/belts";
import { type Machine, type Place, placeAt, type Thing } from "../model";
import { beltIn, type Find, type KnownBelt } from "../walk/belts";
import { titleOf } from "./say";

/** What is wrong with the run of a belt whose figures have a path. */
export type BeltFault =
  /** Pulleys are told by their place in the layout. `by`: whether the path or the length decides. */
  | { readonly kind: "side"; readonly pulley: number; readonly by: "path" | "length" }
  /** `swap`: the two pulleys that make it sound, where no other single change does. */
  | { readonly kind: "crosses"; readonly swap: readonly [number, number] | null }
  /** `turned`: pulleys that the belt would touch with its other face. */
  | { readonly kind: "untouched"; readonly turned: readonly number[] }
  | {
      readonly kind: "length";
      readonly fit: Exclude<Fit, { kind: "fits" }>;
      /** The two pulleys with which in each other’s place it fits, where nothing else makes it fit. */
      readonly swap: readonly [number, number] | null;
    };

const judged = new WeakMap<KnownBelt, BeltFault | null>();

/** The fault of a belt; null where there is none, and where its figures have no path at all. */
export function faultOf(belt: KnownBelt): BeltFault | null {
  let fault = judged.get(belt);
  if (fault === undefined) {
    fault = belt.path ? judge(belt) : null;
    judged.set(belt, fault);
  }
  return fault;
}

function judge(belt: KnownBelt): BeltFault | null {
  const { layout, path } = belt;
  if (!path) return null;
  if (!path.sound) return unsound(belt, repairs(layout));
  const fit = belt.length === null ? null : fitOf(layout, path, belt.length, belt.allowance);
  let swap: readonly [number, number] | null = null;
  if (fit && fit.kind !== "fits") {
    const [only, ...others] = [...turnings(layout, path.round), ...swaps(layout, path.round)].filter((r) =>
      fits(belt, changed(layout, r)),
    );
    if (only?.kind === "side" && others.length === 0)
      return { kind: "side", pulley: only.pulley, by: "length" };
    if (only?.kind === "swap" && others.length === 0) swap = only.pulleys;
  }
  const length = fit && fit.kind !== "fits" ? ({ kind: "length", fit, swap } as const) : null;
  if (path.untouched.length === 0) return length;
  // A belt may rest on rollers that stand in line, so what it only grazes comes after its length.
  if (length && path.untouched.every(grazed)) return length;
  return {
    kind: "untouched",
    turned: turnings(layout, path.round).flatMap((r) => (r.kind === "side" ? [r.pulley] : [])),
  };
}

/** Passed by less than is told, in millimetres: the belt lies against it without bending. */
export const grazed = ({ gap }: { readonly gap: number }): boolean => gap < 0.05;

/** Of the single changes that make a path sound, those count whose length fits, where any does. */
function unsound(belt: KnownBelt, all: readonly Repair[]): BeltFault {
  const fitting = belt.length === null ? [] : all.filter((r) => fits(belt, changed(belt.layout, r)));
  const [only, ...others] = fitting.length > 0 ? fitting : all;
  if (only?.kind === "side" && others.length === 0) return { kind: "side", pulley: only.pulley, by: "path" };
  return { kind: "crosses", swap: only?.kind === "swap" && others.length === 0 ? only.pulleys : null };
}

const turnings = (layout: Layout, round: Layout["round"]): readonly Repair[] =>
  layout.pulleys.flatMap((_, pulley): Repair[] => {
    const repair = { kind: "side", pulley } as const;
    return isWhole({ ...changed(layout, repair), round }) ? [repair] : [];
  });

const swaps = (layout: Layout, round: Layout["round"]): readonly Repair[] =>
  layout.pulleys.flatMap((_, a) =>
    layout.pulleys.slice(a + 1).flatMap((__, after): Repair[] => {
      const repair = { kind: "swap", pulleys: [a, a + 1 + after] } as const;
      return isWhole({ ...changed(layout, repair), round }) ? [repair] : [];
    }),
  );

/** The layout with one change made. */
function changed(layout: Layout, repair: Repair): Layout {
  const pulleys = layout.pulleys.map((pulley, index) => {
    if (repair.kind === "side")
      return index === repair.pulley
        ? { ...pulley, side: pulley.side === "back" ? ("inside" as const) : ("back" as const) }
        : pulley;
    const [a, b] = repair.pulleys;
    return layout.pulleys[index === a ? b : index === b ? a : index] ?? pulley;
  });
  return { ...layout, pulleys };
}

function fits({ length, allowance }: KnownBelt, layout: Layout): boolean {
  const { path } = beltPath(layout);
  return length !== null && path?.sound === true && fitOf(layout, path, length, allowance)?.kind === "fits";
}

/** A belt that rules may judge, with what its messages are made of. */
export interface BeltAt {
  readonly belt: KnownBelt;
  readonly find: Find;
  /** What a pulley is called, by its place in the layout. */
  readonly name: (pulley: number) => string;
  /** Where a pulley's line begins. */
  readonly place: (pulley: number) => Place;
}

/** The belt that a thing is; null for other things, and where its figures are not all said. */
export function beltAt(thing: Thing, machine: Machine | null): BeltAt | null {
  const belt = thing.kind === "belt" ? beltIn(thing) : null;
  if (!belt) return null;
  const find = finderIn(machine);
  const { pulleys } = belt.facts;
  return {
    belt,
    find,
    name: (index) => {
      const part = pulleys[index]?.part.name ?? "";
      const found = find(part);
      return found ? titleOf(found) : part;
    },
    place: (index) => {
      const at = pulleys[index]?.at;
      return at ? placeAt(thing.file, thing.line, at) : thing.place;
    },
  };
}

/** Looks a name up among the things of a machine. */
export const finderIn =
  (machine: Machine | null): Find =>
  (name) =>
    machine?.things.find((t) => t.name === name);

/** Lengths that a belt's layout takes, in words: `820 to 836 mm`, or one figure where nothing moves. */
export function lengthsSaid({ layout, path }: KnownBelt): string {
  if (!path) return "";
  const { shortest, longest } = lengthRange(layout, path);
  const [low, high] = [Math.round(shortest), Math.round(longest)];
  return low === high ? `${low} mm` : `${low} to ${high} mm`;
}

/** Millimetres as they are told: whole ones, small ones with a decimal. */
export const millimetresSaid = (figure: number): string =>
  `${Math.abs(figure) < 10 ? Math.round(figure * 10) / 10 : Math.round(figure)} mm`;
