/**
 * A belt or chain in figures, as the mechanics of belts take it: rules, drawings and hover all work from here, so that they show
 * the same. Lengths in millimetres, angles in radians, x to the right and y up in the view.
 */
import { type BeltFacts, beltFacts, type Pulley as PulleyFacts, shaftFacts } from "../facts";
import {
  type BeltKind,
  type BeltPath,
  backPitchDiameter,
  beltPath,
  type Layout,
  type LayoutProblem,
  lengthOfTeeth,
  type Point,
  type Pulley,
  pitchDiameter,
  type Running,
  running,
} from "../mechanics/belts";
import type { Thing } from "../model";
import type { Quantity } from "../units/quantity";

/** What a name means: a thing of the machine. */
export type Find = (name: string) => Thing | undefined;

/** A belt of which the place and size of every pulley are said. */
export interface KnownBelt {
  readonly facts: BeltFacts;
  readonly kind: BeltKind;
  readonly layout: Layout;
  /** Null where `problems` says why there is none. */
  readonly path: BeltPath | null;
  readonly problems: readonly LayoutProblem[];
  /** Of the belt, at its pitch line; null where nobody says. */
  readonly length: number | null;
  /** How much longer or shorter than its layout it may be, for what is rounded and what gives. */
  readonly allowance: number;
}

const known = new WeakMap<Thing["entry"], KnownBelt | null>();

/** The belt in figures; null where a place or size is not said, or is a range. The same entry gives the same object. */
export function beltIn(belt: Thing): KnownBelt | null {
  let found = known.get(belt.entry);
  if (found === undefined) {
    found = read(belt);
    known.set(belt.entry, found);
  }
  return found;
}

/** What a belt says, and the pulleys of which it does not say where or how large they are, by their place. */
export function incompleteIn({ entry }: Thing): {
  readonly facts: BeltFacts;
  readonly unplaced: readonly number[];
} {
  const facts = beltFacts(entry);
  const kind = kindOf(facts);
  return {
    facts,
    unplaced: facts.pulleys.flatMap((pulley, i) => (pulleyOf(pulley, facts, kind) ? [] : [i])),
  };
}

function read({ entry }: Thing): KnownBelt | null {
  const facts = beltFacts(entry);
  const kind = kindOf(facts);
  const pulleys = facts.pulleys.map((pulley) => pulleyOf(pulley, facts, kind));
  if (pulleys.length === 0 || pulleys.includes(null)) return null;
  const all = pulleys as readonly Pulley[];
  const layout: Layout = { pulleys: maybeCrossed(facts, kind) ? crossing(all) : all, round: facts.path };
  const { path, problems } = beltPath(layout);
  const length = lengthIn(facts);
  const moves = layout.pulleys.some(({ travel }) => travel > 0);
  return { facts, kind, layout, path, problems, length, allowance: (length ?? 0) * (moves ? GIVES : UNSAID) };
}

/** Whether a belt can run crossed: it has two pulleys, and is turned over between them, which a belt of teeth or ribs and a chain are not. */
export const maybeCrossed = ({ crossed, pulleys }: BeltFacts, kind: BeltKind): boolean =>
  crossed &&
  pulleys.length === 2 &&
  pulleys.every((p) => !p.backOfBelt) &&
  (kind === "flat" || kind === "vee");

const crossing = ([first, second]: readonly Pulley[]): readonly Pulley[] =>
  first && second ? [first, { ...second, against: true }] : [];

/**
 * The shares of its length that a belt may differ: with a tensioner's travel said, what is rounded in the places and tolerated in
 * the belt; without, what a slotted hole or an adjuster that nobody mentions takes up (common practice, no source).
 */
const GIVES = 0.005;
const UNSAID = 0.02;

/** A belt with teeth is a toothed one; of others nothing but the thickness depends on the kind. */
export const kindOf = ({ make, pitch }: BeltFacts): BeltKind => make ?? (pitch ? "toothed" : "flat");

/** An exact length in millimetres; null where it is not said, or is a range. */
export function millimetres(quantity: Quantity | null | undefined): number | null {
  const si = quantity?.nominal?.si;
  return si === undefined ? null : si * 1000;
}

/** A place in the view in millimetres; null where it is not said. */
export function placeOf(centre: PulleyFacts["centre"]): Point | null {
  const [x, y] = [millimetres(centre?.[0]), millimetres(centre?.[1])];
  return x === null || y === null ? null : { x, y };
}

function pulleyOf(said: PulleyFacts, belt: BeltFacts, kind: BeltKind): Pulley | null {
  const centre = placeOf(said.centre);
  const diameter = diameterOf(said, belt, kind);
  if (!centre || diameter === null) return null;
  const pitch = millimetres(belt.pitch);
  const meshes = said.teeth !== null && pitch !== null;
  return {
    centre,
    radius: diameter / 2,
    side: said.backOfBelt ? "back" : "inside",
    teeth: said.teeth,
    ...(meshes && kind === "chain" ? { around: lengthOfTeeth(said.teeth, pitch) } : {}),
    travel: millimetres(said.travel) ?? 0,
  };
}

/** To the pitch line: from the teeth, else as it is said; of one that the back touches, by the thickness where that is said. */
function diameterOf(said: PulleyFacts, belt: BeltFacts, kind: BeltKind): number | null {
  const [pitch, diameter, thickness] = [belt.pitch, said.diameter, belt.thickness].map(millimetres);
  if (said.teeth !== null && pitch != null) return pitchDiameter(kind, said.teeth, pitch);
  if (diameter == null) return null;
  return said.backOfBelt && thickness != null ? backPitchDiameter(kind, diameter, thickness) : diameter;
}

function lengthIn({ teeth, pitch, length }: BeltFacts): number | null {
  const step = millimetres(pitch);
  return teeth !== null && step !== null ? lengthOfTeeth(teeth, step) : millimetres(length);
}

/** A pulley of a belt with the shaft that says which way it turns. */
export interface Driving {
  /** By its place in the layout. */
  readonly pulley: number;
  readonly shaft: Thing;
  readonly turns: "clockwise" | "anticlockwise";
}

/** The pulleys whose shafts say which way they turn, in the order of the lines. */
export function drivingOf({ pulleys }: BeltFacts, find: Find): readonly Driving[] {
  return pulleys.flatMap(({ shaft: name }, pulley): Driving[] => {
    const shaft = name ? find(name.name) : undefined;
    const turns = shaft?.kind === "shaft" && !shaft.doubtful ? shaftFacts(shaft.entry).turns : null;
    return shaft && (turns === "clockwise" || turns === "anticlockwise") ? [{ pulley, shaft, turns }] : [];
  });
}

/** Which way the belt runs, by the first pulley whose shaft says how it turns; null where none does. */
export function runningOf({ facts, path }: KnownBelt, find: Find): Running | null {
  const first = drivingOf(facts, find)[0];
  return path && first ? running(path, first.pulley, first.turns) : null;
}
