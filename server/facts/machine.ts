/**
 * What the entries of a machine say, typed: parts, fasteners, belts, fluids, shafts. Pure functions of the entry, kept
 * by entry; names are not yet bound.
 */
import type { Quantity } from "../units/quantity";
import {
  type At,
  clauseOf,
  clausesOf,
  countIn,
  type Detail,
  type Entry,
  hasClause,
  type NameAt,
  namesIn,
  namesOfClause,
  quantityIn,
  slotIn,
  textIn,
} from "./entry";
import { keptByEntry } from "./kept";

export interface PartFacts {
  /** What must come off before it. */
  readonly behind: readonly NameAt[];
  readonly weight: Quantity | null;
  readonly contains: readonly NameAt[];
  readonly carries: readonly NameAt[];
  /** What rests on it. */
  readonly bears: readonly NameAt[];
  readonly springLoaded: boolean;
  readonly wayRound: Detail | null;
  readonly ownPlace: boolean;
  readonly handed: boolean;
  readonly like: readonly NameAt[];
  readonly forEach: NameAt | null;
  readonly onlyOn: readonly NameAt[];
  readonly faces: readonly Detail[];
  readonly renewEveryTime: boolean;
  readonly highVoltage: boolean;
  readonly battery: boolean;
  readonly pressurised: boolean;
  readonly hot: boolean;
  readonly fuel: boolean;
  readonly harmful: boolean;
  /** It keeps a charge when cut off; the time it needs to lose it, where said. */
  readonly storesCharge: { readonly time: Quantity | null } | null;
}

/** Reads a part, gear, clip, line (cable, hose, pipe …) or belt as something that can come off. */
export const partFacts = keptByEntry(
  (entry: Entry): PartFacts => ({
    behind: namesOfClause(entry, "behind", "things"),
    weight: quantityIn(clauseOf(entry, "weight"), "weight"),
    contains: namesOfClause(entry, "contains", "fluid"),
    carries: namesOfClause(entry, "carries", "things"),
    bears: namesOfClause(entry, "bears", "things"),
    springLoaded: hasClause(entry, "spring-loaded"),
    wayRound: clauseOf(entry, "way-round") ?? null,
    ownPlace: hasClause(entry, "holds-own-place"),
    handed: hasClause(entry, "handed"),
    like: namesOfClause(entry, "like", "things"),
    forEach: namesOfClause(entry, "for-each", "set")[0] ?? null,
    onlyOn: namesOfClause(entry, "only-on", "variants"),
    faces: clausesOf(entry, "face"),
    renewEveryTime: clausesOf(entry, "renew").some((d) => d.words.includes("every")),
    highVoltage: hasClause(entry, "high-voltage"),
    battery: hasClause(entry, "battery"),
    pressurised: hasClause(entry, "pressurised"),
    hot: hasClause(entry, "hot"),
    fuel: hasClause(entry, "fuel"),
    harmful: hasClause(entry, "harmful"),
    storesCharge: hasClause(entry, "stores-charge")
      ? { time: quantityIn(clauseOf(entry, "stores-charge"), "time") }
      : null,
  }),
);

/** In which order several fasteners of a group are turned. */
export type OrderMethod = "crosswise" | "from-middle" | "from-ends" | null;

export interface Stage {
  /** Empty where the tightening has one stage only. */
  readonly name: string;
  readonly at: At;
  readonly kind: "torque" | "angle" | "back" | "back-to" | "by-feel" | "unsaid";
  readonly value: Quantity | null;
  /** What `back to` and `by feel` say. */
  readonly text: string;
  readonly method: OrderMethod;
  readonly order: readonly number[];
  readonly whileTurning: NameAt | null;
  readonly onWheels: boolean;
  readonly onlyOn: readonly NameAt[];
}

export type ThreadState = "dry" | "oiled" | "locked" | "as-supplied" | null;

/** A hole with the exact place of its centre in the view. */
export interface HoleAt {
  readonly hole: number;
  readonly centre: readonly [Quantity, Quantity];
  readonly at: At;
}

export interface FastenerFacts {
  readonly secures: readonly NameAt[];
  readonly behind: readonly NameAt[];
  readonly thread: string;
  readonly leftHand: boolean;
  readonly leftHandOn: readonly NameAt[];
  readonly class: string;
  readonly count: number;
  readonly countAt: At | null;
  readonly layout: string;
  /** On a circle: where its first hole lies, anticlockwise from three o'clock in the view, and which way the numbers go. */
  readonly firstAt: Quantity | null;
  readonly numberedRound: "clockwise" | "anticlockwise" | null;
  /** In a grid: how many rows the holes lie in, counted as text is read. */
  readonly rows: number | null;
  readonly numbered: readonly number[];
  readonly lengths: readonly {
    readonly holes: readonly number[];
    readonly length: Quantity | null;
    readonly at: At;
  }[];
  /** Holes whose centres are said. */
  readonly centres: readonly HoleAt[];
  readonly order: readonly number[];
  readonly method: OrderMethod;
  readonly state: ThreadState;
  readonly lubricant: NameAt | null;
  /** Where it is oiled, as far as that is said. */
  readonly oiledOn: "thread" | "head" | "thread-and-head" | null;
  readonly setting: boolean;
  readonly material: string;
  readonly lockedBy: readonly NameAt[];
  readonly stages: readonly Stage[];
  readonly renewEveryTime: boolean;
  readonly renewWhen: string;
  readonly reuse: Detail | null;
  readonly spanner: Quantity | null;
  /** Clamped length. */
  readonly grip: Quantity | null;
  readonly forEach: NameAt | null;
  readonly onlyOn: readonly NameAt[];
  readonly like: readonly NameAt[];
}

/** Reads a fastener or group of fasteners. */
export const fastenerFacts = keptByEntry((entry: Entry): FastenerFacts => {
  const thread = clauseOf(entry, "thread");
  const leftHand = clauseOf(entry, "left-hand");
  const count = clauseOf(entry, "count");
  const lubricant =
    namesOfClause(entry, "oiled", "lubricant")[0] ?? namesOfClause(entry, "locked", "locker")[0] ?? null;
  const tightenings = entry.details.filter((d) => d.clause === "stage" || d.clause === "tighten-to");
  const layout = clauseOf(entry, "layout");
  const layoutHoles = slotIn(layout, "holes")?.holes ?? [];
  return {
    secures: namesOfClause(entry, "secures", "things"),
    behind: namesOfClause(entry, "behind", "things"),
    thread: textIn(thread, "thread"),
    leftHand: leftHand !== undefined,
    leftHandOn: namesIn(leftHand, "members"),
    class: textIn(clauseOf(entry, "class"), "class"),
    count: countIn(count, "count") ?? (layoutHoles.length || 1),
    countAt: count?.at ?? null,
    layout: textIn(layout, "shape"),
    firstAt: quantityIn(layout, "start"),
    numberedRound: (textIn(layout, "direction") || null) as FastenerFacts["numberedRound"],
    rows: countIn(layout, "rows"),
    numbered: layoutHoles,
    lengths: clausesOf(entry, "holes").map((d) => ({
      holes: slotIn(d, "holes")?.holes ?? [],
      length: quantityIn(d, "length"),
      at: d.at,
    })),
    centres: clausesOf(entry, "hole").flatMap(holeAt),
    order: slotIn(clauseOf(entry, "order"), "holes")?.holes ?? [],
    method: methodIn(entry.details),
    state: hasClause(entry, "dry")
      ? "dry"
      : hasClause(entry, "oiled")
        ? "oiled"
        : hasClause(entry, "locked")
          ? "locked"
          : hasClause(entry, "as-supplied")
            ? "as-supplied"
            : null,
    lubricant,
    oiledOn: oiledOn(clauseOf(entry, "oiled")),
    setting: hasClause(entry, "setting"),
    material: textIn(clauseOf(entry, "threads-into"), "material"),
    lockedBy: namesOfClause(entry, "locked-by", "things"),
    stages: tightenings.map((d) => stageOf(d)),
    renewEveryTime: clausesOf(entry, "renew").some((d) => d.words.includes("every")),
    renewWhen: textIn(clauseOf(entry, "renew"), "reason"),
    reuse: clauseOf(entry, "reuse") ?? null,
    spanner: quantityIn(clauseOf(entry, "spanner"), "size"),
    grip: quantityIn(clauseOf(entry, "grip"), "length"),
    forEach: namesOfClause(entry, "for-each", "set")[0] ?? null,
    onlyOn: namesOfClause(entry, "only-on", "variants"),
    like: namesOfClause(entry, "like", "things"),
  };
});

function holeAt(detail: Detail): readonly HoleAt[] {
  const [hole, [x, y]] = [countIn(detail, "number"), slotIn(detail, "centre")?.point ?? [null, null]];
  return hole === null || !x || !y ? [] : [{ hole, centre: [x, y], at: detail.at }];
}

function oiledOn(oiled: Detail | undefined): FastenerFacts["oiledOn"] {
  const [thread, head] = [oiled?.words.includes("thread"), oiled?.words.includes("head")];
  return thread && head ? "thread-and-head" : thread ? "thread" : head ? "head" : null;
}

/** The order method among some clauses. */
export function methodIn(details: readonly Detail[]): OrderMethod {
  for (const { clause } of details)
    if (clause === "crosswise" || clause === "from-middle" || clause === "from-ends") return clause;
  return null;
}

/** Reads one stage of a tightening, or the tightening in one. */
export function stageOf(detail: Detail): Stage {
  const value = quantityIn(detail, "value") ?? quantityIn(detail, "angle");
  const back = detail.words.includes("back");
  const feel = detail.words.includes("feel");
  const said = value ?? detail.slots.some((s) => s.role === "value");
  const kind = feel
    ? "by-feel"
    : back
      ? value || !detail.words.includes("to")
        ? "back"
        : "back-to"
      : !said
        ? "unsaid"
        : value?.kind === "angle"
          ? "angle"
          : "torque";
  return {
    name: namesIn(detail, "stage")[0]?.name ?? "",
    at: detail.at,
    kind,
    value,
    text: textIn(detail, "where") || textIn(detail, "reason"),
    method: methodIn(detail.details),
    order: slotIn(clauseOf(detail, "order"), "holes")?.holes ?? [],
    whileTurning: namesIn(clauseOf(detail, "while-turning"), "part")[0] ?? null,
    onWheels: clauseOf(detail, "on-wheels") !== undefined,
    onlyOn: namesIn(clauseOf(detail, "only-on"), "variants"),
  };
}

export interface FluidFacts {
  readonly capacity: Quantity | null;
  readonly hot: boolean;
  readonly pressurised: boolean;
  readonly fuel: boolean;
  readonly harmful: boolean;
  readonly grade: string;
  readonly dispose: string;
  readonly openTime: Quantity | null;
  readonly cure: Quantity | null;
}

/** Reads a fluid or a consumable. */
export const fluidFacts = keptByEntry(
  (entry: Entry): FluidFacts => ({
    capacity: quantityIn(entry.form, "capacity"),
    hot: hasClause(entry, "hot"),
    pressurised: hasClause(entry, "pressurised"),
    fuel: hasClause(entry, "fuel"),
    harmful: hasClause(entry, "harmful"),
    grade: textIn(clauseOf(entry, "grade"), "grade"),
    dispose: textIn(clauseOf(entry, "dispose"), "how"),
    openTime: quantityIn(clauseOf(entry, "open-time"), "time"),
    cure: quantityIn(clauseOf(entry, "cure"), "time"),
  }),
);

export interface Pulley {
  readonly part: NameAt;
  readonly at: At;
  readonly teeth: number | null;
  readonly diameter: Quantity | null;
  readonly centre: readonly [Quantity | null, Quantity | null] | null;
  readonly shaft: NameAt | null;
  readonly backOfBelt: boolean;
  readonly backAt: At | null;
  readonly travel: Quantity | null;
  readonly loaded: boolean;
}

/** What a belt or chain is made like; null where nothing says so. */
export type BeltMake = "toothed" | "ribbed" | "vee" | "flat" | "chain" | null;

export interface BeltFacts {
  readonly toothed: boolean;
  readonly make: BeltMake;
  /** Its two strands cross. */
  readonly crossed: boolean;
  readonly crossedAt: At | null;
  readonly pitch: Quantity | null;
  readonly teeth: number | null;
  readonly length: Quantity | null;
  readonly thickness: Quantity | null;
  /** Where the length, or the teeth that make it, are said. */
  readonly lengthAt: At | null;
  readonly path: "clockwise" | "anticlockwise" | null;
  readonly pathAt: At | null;
  readonly pulleys: readonly Pulley[];
}

/** Reads a belt or chain and its pulleys, in the order of the lines. */
export const beltFacts = keptByEntry(
  (entry: Entry): BeltFacts => ({
    toothed: hasClause(entry, "toothed"),
    make: makeOf(entry),
    crossed: hasClause(entry, "crossed"),
    crossedAt: clauseOf(entry, "crossed")?.at ?? null,
    pitch: quantityIn(clauseOf(entry, "pitch"), "pitch"),
    teeth: countIn(clauseOf(entry, "teeth"), "teeth"),
    length: quantityIn(clauseOf(entry, "length"), "length"),
    thickness: quantityIn(clauseOf(entry, "thickness"), "thickness"),
    lengthAt: (clauseOf(entry, "length") ?? clauseOf(entry, "teeth"))?.at ?? null,
    path: (textIn(clauseOf(entry, "path"), "path") || null) as BeltFacts["path"],
    pathAt: clauseOf(entry, "path")?.at ?? null,
    pulleys: clausesOf(entry, "pulley").flatMap((d) => {
      const part = namesIn(d, "part")[0];
      if (!part) return [];
      return [
        {
          part,
          at: d.at,
          teeth: countIn(clauseOf(d, "teeth"), "teeth"),
          diameter: quantityIn(clauseOf(d, "diameter"), "diameter"),
          centre: slotIn(clauseOf(d, "centre"), "centre")?.point ?? null,
          shaft: namesIn(clauseOf(d, "on-shaft"), "shaft")[0] ?? null,
          backOfBelt: clauseOf(d, "back-of-belt") !== undefined,
          backAt: clauseOf(d, "back-of-belt")?.at ?? null,
          travel: quantityIn(clauseOf(d, "travel"), "travel"),
          loaded: clauseOf(d, "loaded") !== undefined,
        },
      ];
    }),
  }),
);

const MAKES = ["toothed", "ribbed", "vee", "flat"] as const;

function makeOf(entry: Entry): BeltMake {
  if (entry.construct === "chain") return "chain";
  return MAKES.find((make) => hasClause(entry, make)) ?? null;
}

export interface GearFacts {
  readonly teeth: number | null;
  readonly shaft: NameAt | null;
  /** The gears it runs with. */
  readonly meshes: readonly NameAt[];
}

/** Reads a gear: a part with teeth on a shaft. */
export const gearFacts = keptByEntry(
  (entry: Entry): GearFacts => ({
    teeth: countIn(clauseOf(entry, "teeth"), "teeth"),
    shaft: namesOfClause(entry, "on-shaft", "shaft")[0] ?? null,
    meshes: namesOfClause(entry, "meshes", "things"),
  }),
);

export interface RunFacts {
  /** The clips or parts it runs through, in order. */
  readonly through: readonly NameAt[];
  readonly from: NameAt | null;
  readonly to: NameAt | null;
  readonly bendRadius: Quantity | null;
  readonly bendAt: At | null;
  readonly length: Quantity | null;
  readonly slack: Quantity | null;
}

/** Reads how a hose, cable or wire runs. */
export const runFacts = keptByEntry((entry: Entry): RunFacts => {
  const ends = clauseOf(entry, "from-to");
  return {
    through: namesOfClause(entry, "through", "clips"),
    from: namesIn(ends, "start")[0] ?? null,
    to: namesIn(ends, "end")[0] ?? null,
    bendRadius: quantityIn(clauseOf(entry, "bend-radius"), "limit"),
    bendAt: clauseOf(entry, "bend-radius")?.at ?? null,
    length: quantityIn(clauseOf(entry, "length"), "length"),
    slack: quantityIn(clauseOf(entry, "slack"), "length"),
  };
});

/** Where a clip, or a part a line ends at, lies in the view; null where nothing says so. */
export const centreOf = keptByEntry(
  (entry: Entry): readonly [Quantity | null, Quantity | null] | null =>
    slotIn(clauseOf(entry, "centre"), "centre")?.point ?? null,
);

export interface ShaftFacts {
  readonly turns: "clockwise" | "anticlockwise" | "either" | null;
  readonly turnsOnly: boolean;
  readonly turnsAt: At | null;
  readonly beltOff: "free" | Quantity | null;
  /** Its turns for one of another shaft, as the figure is written. */
  readonly ratio: { readonly text: string; readonly of: NameAt; readonly at: At } | null;
}

/** Reads a shaft. */
export const shaftFacts = keptByEntry((entry: Entry): ShaftFacts => {
  const turns = clauseOf(entry, "turns");
  const beltOff = clauseOf(entry, "belt-off");
  const ratio = clauseOf(entry, "ratio");
  const of = namesIn(ratio, "shaft")[0];
  return {
    turns: (textIn(turns, "direction") || null) as ShaftFacts["turns"],
    turnsOnly: turns?.words.includes("only") ?? false,
    turnsAt: turns?.at ?? null,
    ratio: ratio && of ? { text: textIn(ratio, "ratio"), of, at: ratio.at } : null,
    beltOff: beltOff?.words.includes("free") ? "free" : quantityIn(beltOff, "range"),
  };
});

export interface MarkFacts {
  readonly on: NameAt | null;
  readonly angle: Quantity | null;
  /** Where on the rim it is seen when it stands in line, anticlockwise from three o'clock in the view. */
  readonly seen: Quantity | null;
  readonly behind: readonly NameAt[];
}

/** Reads a mark. */
export const markFacts = keptByEntry(
  (entry: Entry): MarkFacts => ({
    on: namesOfClause(entry, "on-shaft", "shaft")[0] ?? null,
    angle: quantityIn(clauseOf(entry, "at-angle"), "angle"),
    seen: quantityIn(clauseOf(entry, "seen-at"), "angle"),
    behind: namesOfClause(entry, "behind", "things"),
  }),
);
