/**
 * Times that must not be passed: between putting a supply with an open time on a joint and closing the joint, and
 * between an event and an act that must follow within a time. Only written minima count: waits, running-in, and
 * limits held for a time.
 */
import { checkOf, fluidFacts } from "../facts";
import type { Thing } from "../model";
import { formatQuantity } from "../units/format";
import type { Quantity } from "../units/quantity";
import { actRow } from "./acts";
import { lowerBound } from "./control";
import { ALL_BITS, type Watch } from "./faults";
import type { Graph } from "./graph";
import type { ActPoint, Point } from "./points";
import type { Relations } from "./relations";
import { KINDS } from "./scope";
import { keptBySegment, type Segment } from "./segments";

/** Something that starts a clock, and what must happen before it has run for too long. */
interface Clock {
  readonly thing: Thing;
  readonly other: Thing | null;
  readonly opens: ReadonlySet<number>;
  readonly closes: ReadonlySet<number>;
  /** Whether it stops there, or only after a fault. */
  readonly stops: boolean;
  /** Seconds. */
  readonly most: number;
  readonly limit: string;
}

/** A watch for every clock of a graph. */
export function watchClocks(graph: Graph, relations: Relations): readonly Watch[] {
  if (!graph.segments.some(({ segment }) => hasClock(segment, null))) return [];
  const index = indexOf(graph);
  const clocks = [...jointClocks(index, relations), ...eventClocks(graph, index)];
  return clocks.map((clock) => watchClock(graph, clock, index));
}

interface At {
  readonly at: number;
  readonly point: ActPoint;
}

/** What clocks look for in a graph, each in order. */
interface Index {
  readonly opens: readonly At[];
  readonly limited: readonly At[];
  readonly fits: readonly number[];
  readonly fitsOf: ReadonlyMap<Thing, readonly number[]>;
  readonly delays: readonly number[];
  /** The ends of steps and checks, and the uses of supplies. */
  readonly events: ReadonlyMap<Thing, readonly number[]>;
}

/** What clocks look for in a segment, counted from its first point. */
const marksOf = keptBySegment(({ points }: Segment, _: null): readonly number[] =>
  points.flatMap((point, at) => (takesTime(point) || isMarked(point) ? [at] : [])),
);

function isMarked(point: Point): boolean {
  if (point.kind === "done") return true;
  return (
    point.kind === "act" && (point.verb === "fit" || point.supplies.length > 0 || point.act.within !== null)
  );
}

function indexOf({ segments, points }: Graph): Index {
  const index = { opens: [] as At[], limited: [] as At[], fits: [] as number[], delays: [] as number[] };
  const fitsOf = new Map<Thing, number[]>();
  const events = new Map<Thing, number[]>();
  const look = (at: number): void => {
    const point = points[at] as Point;
    if (takesTime(point)) index.delays.push(at);
    if (point.kind === "done") add(events, point.thing, at);
    if (point.kind !== "act") return;
    for (const supply of point.supplies) add(events, supply, at);
    if (actRow(point.verb).opensJoint && point.supplies.length > 0) index.opens.push({ at, point });
    if (point.act.within) index.limited.push({ at, point });
    if (point.verb !== "fit" || !point.thing) return;
    add(fitsOf, point.thing, at);
    if (point.thing.kind !== "fastener") index.fits.push(at);
  };
  for (const { segment, at } of segments) for (const local of marksOf(segment, null)) look(at.points + local);
  return { ...index, fitsOf, events };
}

/** Whether a segment has anything that starts a clock. */
const hasClock = keptBySegment(({ points }: Segment, _: null): boolean =>
  points.some(
    (p) =>
      p.kind === "act" &&
      (p.act.within !== null ||
        (actRow(p.verb).opensJoint === true &&
          p.supplies.some((s) => s.kind === "consumable" && fluidFacts(s.entry).openTime !== null))),
  ),
);

function add(map: Map<Thing, number[]>, thing: Thing, at: number): void {
  const list = map.get(thing);
  if (list) list.push(at);
  else map.set(thing, [at]);
}

function jointClocks({ opens, fits, fitsOf }: Index, relations: Relations): Clock[] {
  const clocks = new Map<
    string,
    { thing: Thing; other: Thing; opens: Set<number>; closes: Set<number>; time: Quantity }
  >();
  for (const { at, point } of opens) {
    const { thing, supplies } = point;
    if (!thing) continue;
    const subject = thing.kind === "face" ? relations.partOfFace(thing) : thing;
    const own = subject ? after(fitsOf.get(subject) ?? [], at) : [];
    // Where the thing itself is not fitted any more, the next part that is fitted closes the joint.
    const closes = own.length > 0 ? own : after(fits, at).slice(0, 1);
    for (const supply of supplies) {
      const time = supply.kind === "consumable" ? fluidFacts(supply.entry).openTime : null;
      if (!time || closes.length === 0) continue;
      const key = `${supply.id} ${thing.id}`;
      const clock = clocks.get(key) ?? {
        thing: supply,
        other: thing,
        opens: new Set<number>(),
        closes: new Set<number>(),
        time,
      };
      clock.opens.add(at);
      for (const close of closes) clock.closes.add(close);
      clocks.set(key, clock);
    }
  }
  return [...clocks.values()].flatMap((c) => {
    const most = mostOf(c.time);
    return most === null ? [] : [{ ...c, stops: true, most, limit: formatQuantity(c.time, { plain: true }) }];
  });
}

const after = (points: readonly number[], at: number): readonly number[] =>
  points.slice(lowerBound(points, at + 1));

/** One clock for each event and time: acts of several lines may have to follow within it. */
function eventClocks(graph: Graph, { limited, events }: Index): Clock[] {
  const clocks = new Map<string, Clock & { readonly closes: Set<number> }>();
  for (const { at, point } of limited) {
    const { within } = point.act;
    const event = within && graph.scope.find(within.event.name, KINDS.event);
    const most = mostOf(within?.time ?? null);
    const opens = event ? (events.get(event) ?? []) : [];
    if (!within?.time || !event || most === null || opens.length === 0) continue;
    const limit = formatQuantity(within.time, { plain: true });
    const key = `${event.id} ${most}`;
    const clock = clocks.get(key);
    if (clock) clock.closes.add(at);
    else
      clocks.set(key, {
        thing: event,
        other: null,
        opens: new Set(opens),
        closes: new Set([at]),
        stops: false,
        most,
        limit,
      });
  }
  return [...clocks.values()];
}

const mostOf = (time: Quantity | null): number | null => time?.high?.si ?? null;
const leastOf = (time: Quantity | null): number => Math.max(0, time?.low?.si ?? 0);

function takesTime(point: Point): boolean {
  if (point.kind === "ask") return checkOf(point.spot.entry).limits.some((l) => l.held !== null);
  return (
    point.kind === "act" &&
    (point.verb === "wait" || point.verb === "run-in") &&
    point.act.quantity?.kind === "time"
  );
}

/** What a clock has run, and had run when each step that a later wait counts from was done. In whole milliseconds. */
interface Reading {
  readonly run: number;
  readonly at: ReadonlyMap<Thing, number>;
}

function watchClock(graph: Graph, clock: Clock, { delays, events: eventPoints }: Index): Watch {
  const [from, to] = stretchOf(graph, clock);
  const waits = delays.slice(lowerBound(delays, from), lowerBound(delays, to + 1));
  const counted = new Map<number, Thing>();
  for (const at of waits) {
    const point = graph.points[at] as ActPoint;
    const event =
      point.kind === "act" && point.act.after
        ? graph.scope.find(point.act.after.name, KINDS.target)
        : undefined;
    if (event) counted.set(at, event);
  }
  const events = new Set(counted.values());
  const dones = [...events].flatMap((event) => eventPoints.get(event) ?? []);
  const most = Math.round(clock.most * 1000);
  const { read, keep } = readings(most);
  return {
    thing: clock.thing,
    marks: [
      {
        code: "open-time-passed",
        thing: clock.thing,
        other: clock.other,
        state: clock.limit,
        bits: ALL_BITS,
      },
    ],
    starts: [{ state: 0, where: null }],
    points: new Set([...clock.opens, ...clock.closes, ...waits, ...dones]),
    step: (state, at, report) => {
      let next = state;
      if (clock.closes.has(at) && next > 0) {
        const isLate = read(next).run > most;
        if (isLate) report(0);
        if (isLate || clock.stops) next = 0;
      }
      if (clock.opens.has(at)) return keep({ run: 0, at: new Map() });
      if (next === 0) return 0;
      const reading = read(next);
      const point = graph.points[at] as Point;
      if (point.kind === "done" && events.has(point.thing))
        return keep({ ...reading, at: new Map([...reading.at, [point.thing, reading.run]]) });
      return keep({ ...reading, run: later(reading, point, counted.get(at)) });
    },
  };
}

function later(reading: Reading, point: Point, since: Thing | undefined): number {
  if (point.kind === "ask") {
    return reading.run + checkOf(point.spot.entry).limits.reduce((sum, l) => sum + 1000 * leastOf(l.held), 0);
  }
  if (point.kind !== "act" || !takesTime(point)) return reading.run;
  const least = Math.round(1000 * leastOf(point.act.quantity));
  if (!since) return reading.run + least;
  // A wait counted from a step that was done before this clock started may already be over.
  const before = reading.at.get(since);
  return before === undefined ? reading.run : Math.max(reading.run, before + least);
}

/** Readings as numbers from 1; all that is past the limit is one. */
function readings(most: number): { read: (state: number) => Reading; keep: (reading: Reading) => number } {
  const all: Reading[] = [];
  const byKey = new Map<string, number>();
  return {
    read: (state) => all[state - 1] as Reading,
    keep: (reading) => {
      const past = reading.run > most;
      const kept = past ? { run: most + 1, at: new Map() } : reading;
      const key = [kept.run, ...[...kept.at].map(([thing, run]) => `${thing.id}=${run}`)].join();
      let state = byKey.get(key);
      if (state === undefined) {
        state = all.push(kept);
        byKey.set(key, state);
      }
      return state;
    },
  };
}

/** From the first opening to the last closing, with the returns that lead to before it. */
function stretchOf(graph: Graph, clock: Clock): [number, number] {
  const to = [...clock.closes].reduce((most, at) => Math.max(most, at), 0);
  let from = [...clock.opens].reduce((least, at) => Math.min(least, at), to);
  for (let i = to; i >= from; i--) {
    const point = graph.points[i];
    if (point?.kind === "return" && point.to < from) from = point.to;
  }
  return [from, to];
}
