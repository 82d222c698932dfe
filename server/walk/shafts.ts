/**
 * What turns: the pins in the shafts, the belts on them, and where the shafts stand, as exact parts of a turn. With a
 * belt on, shafts turn together by their teeth; with it off, apart. One watch follows all of them together, since each
 * of these decides what the others mean.
 */
import {
  beltFacts,
  checkOf,
  fastenerFacts,
  markFacts,
  type NameAt,
  shaftFacts,
  temporaryFacts,
  textIn,
  toolFacts,
} from "../facts";
import { equal, type Fraction, negated, textOf, ZERO } from "../mechanics/fractions";
import {
  type Standing as Angles,
  gearTrain,
  type Mark as InLineMark,
  type Link,
  lost,
  putAt,
  ratioBetween,
  standingOf,
  type Train,
  turned,
  whenInLine,
} from "../mechanics/shafts";
import type { Procedure, Thing } from "../model";
import type { Quantity } from "../units/quantity";
import { actRow } from "./acts";
import { ALL_BITS, type Mark, type Watch } from "./faults";
import type { Graph } from "./graph";
import type { ActPoint, AskPoint, Point } from "./points";
import type { Relations } from "./relations";
import { keptBySegment, type Segment } from "./segments";
import type { Standing } from "./things";
import { gearLinks, linksOfBelt, saidLinks, turnsFree } from "./trains";
import { partOf } from "./turns";

/** Acts that have to do with what turns. */
const VERBS: ReadonlySet<string> = new Set([
  ...[
    "turn",
    "align",
    "insert",
    "pull",
    "fit",
    "remove",
    "tighten",
    "loosen",
    "start",
    "run-in",
    "hand-back",
  ],
]);

/** Everything of a machine that turns. */
export interface Turning {
  readonly relations: Relations;
  readonly shafts: readonly Thing[];
  /** Belts and chains that couple shafts, with the shafts they run on. */
  readonly belts: readonly {
    readonly belt: Thing;
    readonly on: readonly Thing[];
    readonly links: readonly Link[];
  }[];
  readonly marks: ReadonlyMap<Thing, InLineMark>;
  /** Temporaries in a shaft, which lock it, or on one, which turn with it. */
  readonly pins: readonly { readonly pin: Thing; readonly shaft: Thing; readonly locks: boolean }[];
  /** What turns together by gears and by what is said of ratios, belts aside. */
  readonly links: readonly Link[];
}

const kept = new WeakMap<Relations, Turning>();

/** Reads what turns in a procedure's machine, once for its relations; pins are the procedure's own. */
export function turningOf({ procedure }: Graph, relations: Relations): Turning {
  const known = kept.get(relations);
  if (known) return known;
  const turning = readTurning(procedure, relations);
  kept.set(relations, turning);
  return turning;
}

function readTurning(procedure: Procedure, relations: Relations): Turning {
  const things = procedure.machine?.things ?? [];
  const shafts = things.filter((t) => t.kind === "shaft");
  const belts = things.flatMap((belt) => {
    if (belt.kind !== "belt") return [];
    const on = beltFacts(belt.entry).pulleys.flatMap(
      (p) => (p.shaft && relations.byName(p.shaft, ["shaft"])) ?? [],
    );
    return [{ belt, on, links: linksOfBelt(belt, relations) }];
  });
  const marks = new Map<Thing, InLineMark>();
  for (const thing of things) {
    if (thing.kind !== "mark") continue;
    const { on, angle } = markFacts(thing.entry);
    const shaft = on && relations.byName(on, ["shaft"]);
    const at = angle ? partOf(angle) : ZERO;
    if (shaft && at) marks.set(thing, { shaft: shaft.name, at });
  }
  const pins = procedure.things.flatMap((pin) => {
    if (pin.kind !== "temporary") return [];
    const { into, on } = temporaryFacts(pin.entry);
    const name = into ?? on;
    const thing = name ? relations.byName(name, []) : undefined;
    const shaft = thing ? relations.shaftOf(thing) : null;
    return shaft ? [{ pin, shaft, locks: into !== null }] : [];
  });
  const gears = gearLinks(things, relations);
  // Where teeth say a ratio, they are what couples: with the belt off, what is said of it couples nothing.
  const toothed = gearTrain([...gears, ...belts.flatMap((b) => b.links)]);
  const said = saidLinks(things, relations).filter(
    ({ from, to }) => ratioBetween(toothed, from, to) === null,
  );
  return { relations, shafts, belts, marks, pins, links: [...gears, ...said] };
}

/** What is so on a way: which belts are on, which pins are in, where shafts are known to stand. */
export interface Now {
  readonly belts: number;
  readonly pins: number;
  readonly angles: Angles;
}

/** The points of a segment that have to do with what turns. */
const concerning = keptBySegment(({ points }: Segment, turning: Turning): readonly number[] =>
  points.flatMap((point, at) =>
    ((point.kind === "act" && VERBS.has(point.verb)) ||
      (point.kind === "ask" && checkOf(point.spot.entry).marks.length > 0)) &&
    concerns(point, turning)
      ? [at]
      : [],
  ),
);

/**
 * The first points of what is done when marks do not stand in line, each with the marks that were looked at: whatever
 * was known of their shafts is not so.
 */
const belied = keptBySegment(({ points }: Segment, _: null): readonly (readonly [number, AskPoint])[] =>
  points.flatMap((test, at) => {
    if (test.kind !== "test" || test.spot.entry.construct !== "if") return [];
    if (textIn(test.spot.entry.form, "outcome") !== "not met") return [];
    const ask = points.findLast((p, i) => i < at && p.kind === "ask" && p.region === test.region);
    return ask?.kind === "ask" && checkOf(ask.spot.entry).marks.length > 0 ? [[at + 1, ask] as const] : [];
  }),
);

/** A watch of shafts, with what is needed to read its states. */
export interface ShaftsWatched {
  readonly watch: Watch;
  readonly turning: Turning;
  /** What a state says: belts and pins by bit, the angles that are known. */
  readonly read: (state: number) => Now;
  /** What turns together with some belts on. */
  readonly trainOf: (belts: number) => Train;
}

/** The watch of a machine's shafts; none where nothing of it turns. */
export function watchShafts(graph: Graph, relations: Relations, starts: Standing): readonly Watch[] {
  const watched = shaftsWatched(graph, relations, starts);
  return watched ? [watched.watch] : [];
}

/** The watch of a machine's shafts, to be read; null where nothing of it turns or is touched. */
export function shaftsWatched(graph: Graph, relations: Relations, starts: Standing): ShaftsWatched | null {
  const turning = turningOf(graph, relations);
  const first = turning.shafts[0];
  if (!first) return null;
  const points = graph.segments.flatMap(({ segment, at }) =>
    concerning(segment, turning).map((local) => at.points + local),
  );
  if (points.length === 0) return null;
  const lostAt = new Map(
    graph.segments.flatMap(({ segment, at }) =>
      belied(segment, null).map(([local, ask]) => [at.points + local, ask] as const),
    ),
  );
  const concerned = new Set(points);
  const marks: Mark[] = [];
  const byKey = new Map<string, number>();
  const mark = (code: string, thing: Thing, other: Thing | null, state = ""): number => {
    const key = [code, thing.id, other?.id ?? "", state].join(" ");
    let index = byKey.get(key);
    if (index === undefined) {
      index = marks.push({ code, thing, other, state, bits: ALL_BITS }) - 1;
      byKey.set(key, index);
    }
    return index;
  };
  const { read, keep } = states();
  const trains = new Map<number, Train>();
  const trainOf = (belts: number): Train => {
    let train = trains.get(belts);
    if (!train) {
      const on = turning.belts.filter((_, i) => (belts & (1 << i)) !== 0);
      train = gearTrain([...turning.links, ...on.flatMap((b) => b.links)]);
      trains.set(belts, train);
    }
    return train;
  };
  const all = turning.belts.reduce(
    (mask, { belt }, i) => (starts.get(belt)?.has("off") ? mask : mask | (1 << i)),
    0,
  );
  const inserted = turning.pins.reduce(
    (mask, { pin }, i) => (starts.get(pin)?.has("in") ? mask | (1 << i) : mask),
    0,
  );
  const sight: Sight = { graph, relations, turning, trainOf, mark };
  const watch: Watch = {
    thing: first,
    marks,
    starts: [{ state: keep({ belts: all, pins: inserted, angles: new Map() }), where: null }],
    points: new Set([...points, ...lostAt.keys()]),
    step: (state, at, report) => {
      const point = graph.points[at] as Point;
      const ask = lostAt.get(at);
      const now = ask ? unknown(sight, read(state), ask) : read(state);
      if (point.kind === "ask") look(sight, now, point, report);
      return keep(point.kind === "act" && concerned.has(at) ? done(sight, now, point, report) : now);
    },
  };
  return { watch, turning, read, trainOf };
}

/** With the marks of a check not in line, where their shafts stand is not known. */
function unknown(sight: Sight, now: Now, { spot }: AskPoint): Now {
  const train = sight.trainOf(now.belts);
  const shafts = marksOf(sight, checkOf(spot.entry).marks).map(({ at }) => at.shaft);
  return { ...now, angles: shafts.reduce((angles, shaft) => lost(train, angles, shaft), now.angles) };
}

function concerns(point: Point, turning: Turning): boolean {
  const { relations } = turning;
  if (point.kind !== "act") return true;
  const { thing, verb } = point;
  if (!thing) return false;
  if (thing.kind === "belt") return turning.belts.some((b) => b.belt === thing);
  if (thing.kind === "temporary") return turning.pins.some((p) => p.pin === thing);
  if (thing.kind === "fastener")
    return verb !== "fit" && relations.secured(thing).some((part) => relations.shaftOf(part) !== null);
  if (verb === "turn" || verb === "align") return true;
  return thing.kind === "machine" && (turning.pins.length > 0 || turning.marks.size > 0);
}

interface Sight {
  readonly graph: Graph;
  readonly relations: Relations;
  readonly turning: Turning;
  readonly trainOf: (belts: number) => Train;
  readonly mark: (code: string, thing: Thing, other: Thing | null, state?: string) => number;
}

type Report = (mark: number) => void;

/** States as numbers: what is so, by key. */
function states(): { read: (state: number) => Now; keep: (now: Now) => number } {
  const all: Now[] = [];
  const byKey = new Map<string, number>();
  return {
    read: (state) => all[state] as Now,
    keep: (now) => {
      const angles = [...now.angles].map(([name, angle]) => `${name}=${textOf(angle)}`).sort();
      const key = `${now.belts} ${now.pins} ${angles.join()}`;
      let state = byKey.get(key);
      if (state === undefined) {
        state = all.push(now) - 1;
        byKey.set(key, state);
      }
      return state;
    },
  };
}

function done(sight: Sight, now: Now, point: ActPoint, report: Report): Now {
  const { turning, relations } = sight;
  const { verb, thing } = point;
  const beltAt = turning.belts.findIndex((b) => b.belt === thing);
  const pinAt = turning.pins.findIndex((p) => p.pin === thing);
  if (beltAt >= 0) {
    const bit = 1 << beltAt;
    if (verb === "remove") return { ...now, belts: now.belts & ~bit };
    return verb === "fit" || verb === "hand-back" ? { ...now, belts: now.belts | bit } : now;
  }
  if (pinAt >= 0) {
    const bit = 1 << pinAt;
    if (verb === "insert") return { ...now, pins: now.pins | bit };
    return verb === "pull" || verb === "hand-back" ? { ...now, pins: now.pins & ~bit } : now;
  }
  if (verb === "turn" && thing) return turn(sight, now, point, relations.shaftOf(thing), report);
  if (verb === "align" && thing) return align(sight, now, point, thing, report);
  if (verb === "start" || verb === "run-in") {
    for (const { pin } of pinsIn(turning, now)) report(sight.mark("tool-left-on", pin, thing));
    // Where a machine that ran comes to rest is not known.
    return { ...now, angles: new Map() };
  }
  if (thing?.kind === "fastener") hold(sight, now, point, thing, report);
  return now;
}

const pinsIn = ({ pins }: Turning, now: Now): Turning["pins"] =>
  pins.filter((_, i) => (now.pins & (1 << i)) !== 0);

/** Pins in a shaft, or in one that turns with it now. */
function pinsHolding(sight: Sight, now: Now, shaft: Thing): Turning["pins"] {
  const train = sight.trainOf(now.belts);
  return pinsIn(sight.turning, now).filter(
    (p) => p.locks && (p.shaft === shaft || ratioBetween(train, shaft.name, p.shaft.name) !== null),
  );
}

function turn(sight: Sight, now: Now, point: ActPoint, shaft: Thing | null, report: Report): Now {
  if (!shaft) return now;
  const facts = shaftFacts(shaft.entry);
  const { direction, quantity } = point.act;
  for (const { pin } of pinsHolding(sight, now, shaft)) report(sight.mark("turned-with-pin-in", pin, shaft));
  if (facts.turnsOnly && direction && facts.turns !== "either" && direction !== facts.turns)
    report(sight.mark("turned-wrong-way", shaft, null, facts.turns ?? ""));
  reportBeltOff(sight, now, shaft, quantity, report);
  const train = sight.trainOf(now.belts);
  const amount = quantity ? partOf(quantity) : null;
  if (!amount) return { ...now, angles: lost(train, now.angles, shaft.name) };
  const way = direction ?? (facts.turns === "clockwise" ? "clockwise" : "anticlockwise");
  return {
    ...now,
    angles: turned(train, now.angles, shaft.name, way === "clockwise" ? negated(amount) : amount),
  };
}

/**
 * With its belt off a shaft turns apart from the others: only what is said to be free, or within its range, may, with
 * what turns with it. Where another belt still holds the shaft in time, only what lies still matters: if all of that is
 * free, as a balancing shaft may be, the engine is turned as ever.
 */
function reportBeltOff(
  sight: Sight,
  now: Now,
  shaft: Thing,
  quantity: Quantity | null,
  report: Report,
): void {
  const { belts } = sight.turning;
  const train = sight.trainOf(now.belts);
  const moves = (s: Thing): boolean => s === shaft || ratioBetween(train, shaft.name, s.name) !== null;
  const isOn = (i: number): boolean => (now.belts & (1 << i)) !== 0;
  belts.forEach(({ belt, on, links }, i) => {
    if (isOn(i) || links.length === 0) return;
    const moving = on.filter(moves);
    const still = on.filter((s) => !moves(s));
    if (still.length === 0 || moving.every((s) => turnsFree(s) || (s === shaft && isInRange(s, quantity))))
      return;
    const isHeld = belts.some((other, j) => isOn(j) && other.links.length > 0 && other.on.some(moves));
    if (isHeld && still.every(turnsFree)) return;
    report(sight.mark("turned-with-belt-off", belt, shaft));
  });
}

/** Whether a shaft is turned by no more than it may be with its belt off. */
function isInRange(shaft: Thing, quantity: Quantity | null): boolean {
  const { beltOff } = shaftFacts(shaft.entry);
  if (beltOff === "free" || beltOff === null) return false;
  const most = beltOff.high?.si ?? beltOff.nominal?.si ?? null;
  const by = quantity?.high?.si ?? null;
  return most !== null && by !== null && by <= most;
}

function align(sight: Sight, now: Now, point: ActPoint, mark: Thing, report: Report): Now {
  const place = sight.turning.marks.get(mark);
  const shaft = place && sight.turning.shafts.find((s) => s.name === place.shaft);
  if (!place || !shaft) return now;
  const stands = standingOf(now.angles, place);
  if (stands && equal(stands, ZERO)) return now;
  for (const { pin } of pinsHolding(sight, now, shaft)) report(sight.mark("turned-with-pin-in", pin, shaft));
  reportBeltOff(sight, now, shaft, null, report);
  // Marks of one line that were lined up just before, and turn with this one, must come into line with it.
  const train = sight.trainOf(now.belts);
  const together = marksOf(sight, point.act.what).filter(
    ({ at }) => ratioBetween(train, shaft.name, at.shaft) !== null,
  );
  const when = whenInLine(
    train,
    now.angles,
    together.map((m) => m.at),
    shaft.name,
  );
  if (when.kind === "never") {
    const [a, b] = when.marks.map((i) => together[i]?.thing);
    if (a && b) report(sight.mark("mark-cannot-align", b, a, "never"));
  }
  if (when.kind === "in-line") {
    // Turned on until all of them stand in line, the shafts that turn with this one move as well.
    const angles = turned(train, now.angles, shaft.name, when.when.first);
    return { ...now, angles };
  }
  const known = new Map(now.angles);
  if (stands && when.kind !== "never") {
    // It is turned to its mark: what turns with it moves as far.
    return { ...now, angles: putAt(turned(train, known, shaft.name, negated(stands)), shaft.name, place.at) };
  }
  for (const { at } of together) known.set(at.shaft, at.at);
  known.set(shaft.name, place.at);
  return { ...now, angles: known };
}

function marksOf(
  { relations, turning }: Sight,
  names: readonly NameAt[],
): { thing: Thing; at: InLineMark }[] {
  return names.flatMap((name) => {
    const thing = relations.byName(name, ["mark"]);
    const at = thing && turning.marks.get(thing);
    return thing && at ? [{ thing, at }] : [];
  });
}

/** A check looks at marks: where it is known that one cannot stand in line, the check can only fail. */
function look(sight: Sight, now: Now, point: AskPoint, report: Report): void {
  for (const { thing, at } of marksOf(sight, checkOf(point.spot.entry).marks)) {
    const stands = standingOf(now.angles, at);
    if (stands && !equal(stands, ZERO))
      report(sight.mark("mark-cannot-align", thing, null, said(sight, now, at, stands)));
  }
}

/** Where a mark would stand, and the fewest whole turns more of each shaft that would do, for the message. */
function said(sight: Sight, now: Now, mark: InLineMark, stands: Fraction): string {
  const train = sight.trainOf(now.belts);
  const marks = [...sight.turning.marks.values()].filter((m) => now.angles.has(m.shaft));
  const turns = sight.turning.shafts.flatMap((shaft) => {
    const when = whenInLine(train, now.angles, marks, shaft.name);
    return when.kind === "in-line" && ratioBetween(train, shaft.name, mark.shaft)
      ? [`${shaft.name}=${textOf(when.when.first)}`]
      : [];
  });
  return [textOf(stands), ...turns].join(" ");
}

/** A fastener on a shaft takes its torque from what holds the shaft: neither a free shaft nor a pin does. */
function hold(sight: Sight, now: Now, point: ActPoint, fastener: Thing, report: Report): void {
  const { act, verb } = point;
  const facts = fastenerFacts(fastener.entry);
  const isTurned = actRow(verb).fastener === "tightened" || verb === "loosen" || verb === "remove";
  const holds =
    act.holding !== null || act.stages.some((s) => s.detail.details.some((d) => d.clause === "holding"));
  if (!isTurned || holds || facts.setting || byImpact(point)) return;
  if (facts.stages.some((s) => s.whileTurning)) return;
  // Bolts in a grid or a row hold a housing, and turn nothing.
  if (facts.layout === "grid" || facts.layout === "row") return;
  const shaft = sight.relations
    .secured(fastener)
    .map(sight.relations.shaftOf)
    .find((s) => s !== null);
  if (!shaft) return;
  const pin = pinsHolding(sight, now, shaft)[0];
  if (pin) report(sight.mark("pin-takes-torque", fastener, pin.pin));
  else if (isFree(sight, now, shaft)) report(sight.mark("nothing-holds", fastener, shaft));
}

const byImpact = ({ supplies }: ActPoint): boolean =>
  supplies.some((s) => s.kind === "tool" && toolFacts(s.entry).impact);

/** With a belt on it, the belt and what it drives hold a shaft; with all of its belts off, nothing does. */
function isFree({ turning }: Sight, now: Now, shaft: Thing): boolean {
  const runs = turning.belts.flatMap(({ on }, i) => (on.includes(shaft) ? [1 << i] : []));
  return runs.length > 0 && runs.every((bit) => (now.belts & bit) === 0);
}
