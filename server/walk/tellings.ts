/**
 * Whether every hazard is told of before the act that raises it, on every way. A caution tells of the hazards raised
 * after it in the block it stands in; where none is, in the blocks around that. Once is enough until the hazard, once
 * raised, comes back.
 */
import type { Thing } from "../model";
import type { Block } from "./build";
import { type Control, lowerBound } from "./control";
import { ALL_BITS, faultsOf, type WalkFault, type Watch } from "./faults";
import type { Graph } from "./graph";
import { hazardNamed } from "./hazards";
import type { CautionPoint, Point } from "./points";
import { type HouseHazard, type Raised, raisedIn } from "./raised";
import type { Relations } from "./relations";
import { keptBySegment, type Segment } from "./segments";
import { sliceOf } from "./slice";
import type { Standing } from "./things";

/** A hazard of which no caution tells in time. */
export interface Untold extends WalkFault {
  readonly hazard: Raised;
  /** A caution that stands after the act, as a point; -1 where there is none. */
  readonly late: number;
  /** A caution that stands before the act, and that a jump leads past, as a point; -1 where there is none. */
  readonly passed: number;
}

/** A caution whose signal word is too weak for a hazard of which it tells. */
export interface Weak {
  /** The caution, as a point. */
  readonly at: number;
  readonly hazard: Raised;
  /** The first act that raises the hazard after it. */
  readonly act: number;
}

/** What the cautions of a procedure do not tell, or not strongly enough. */
export interface Tellings {
  readonly untold: readonly Untold[];
  readonly weak: readonly Weak[];
}

interface Caution {
  readonly at: number;
  readonly hazard: string;
  readonly point: CautionPoint;
}

const GONE = 1;
const UNTOLD = 0;
const TOLD = 2;
const RAISED = 4;
/** Some caution on the hazard was read. */
const READ = 8;

/** Follows every hazard of a graph; those of the house are added to those of the trade and the machine. */
export function tellingsIn(
  control: Control,
  relations: Relations,
  starts: Standing,
  house: readonly HouseHazard[],
): Tellings {
  const { graph } = control;
  const raised = raisedIn(graph, relations, house);
  const cautions = cautionsIn(graph);
  const byHazard = groupBy(cautions, (c) => c.hazard);
  const raisedAt = new Map(
    [...groupBy(raised, (r) => r.hazard)].map(([hazard, of]) => {
      const points = of.flatMap((r) => [...r.at.keys()]);
      return [hazard, points.sort((a, b) => a - b)] as const;
    }),
  );
  const scopes = new Map(cautions.map((c) => [c, scopeOf(graph.blocks, c, raisedAt.get(c.hazard) ?? [])]));
  const acts = actsOn(graph, relations, new Set(raised.map((r) => r.source)));
  const found: Untold[] = [];
  const weak = new Map<string, Weak>();
  const said = new Set<string>();
  for (const hazard of raised) {
    const own = [...hazard.at.keys()].sort((a, b) => a - b);
    const tellers = (byHazard.get(hazard.hazard) ?? []).filter(
      (c) => (own[lowerBound(own, c.at)] ?? Number.POSITIVE_INFINITY) < (scopes.get(c) as number),
    );
    for (const one of weakAmong(tellers, hazard, own, scopes)) weak.set(`${one.at} ${hazard.hazard}`, one);
    const watch = watchHazard(hazard, tellers, acts, graph.points, starts);
    for (const fault of faultsOf(sliceOf(control, watch.points), watch)) {
      const spot = (graph.points[fault.point] as Point).spot;
      const key = `${hazard.hazard} ${spot.file}:${spot.line} ${spot.through?.line ?? ""}`;
      if (said.has(key)) continue;
      said.add(key);
      const late = byHazard
        .get(hazard.hazard)
        ?.find((c) => isLate(graph.blocks, c, fault.point, graph.points, raisedAt.get(c.hazard) ?? []));
      const passed =
        fault.state === PASSED ? tellers.findLast((c) => stands(graph.points, c, fault.point)) : undefined;
      found.push({ ...fault, hazard, late: late?.at ?? -1, passed: passed?.at ?? -1 });
    }
  }
  return { untold: found, weak: [...weak.values()] };
}

const PASSED = "passed";
const STRENGTH = ["notice", "caution", "warning", "danger"];

/** Tellers with too weak a word, where none strong enough tells of the same act. */
function weakAmong(
  tellers: readonly Caution[],
  hazard: Raised,
  acts: readonly number[],
  scopes: ReadonlyMap<Caution, number>,
): Weak[] {
  const isStrong = ({ point }: Caution): boolean =>
    STRENGTH.indexOf(point.spot.entry.construct) >= STRENGTH.indexOf(hazard.least);
  return tellers.flatMap((caution) => {
    if (isStrong(caution)) return [];
    const act = acts[lowerBound(acts, caution.at)] as number;
    const other = tellers.some((c) => isStrong(c) && c.at < act && act < (scopes.get(c) as number));
    return other ? [] : [{ at: caution.at, hazard, act }];
  });
}

/** Whether a caution stands before an act under no condition that the act does not stand under: only a jump passes it. */
function stands(points: readonly Point[], caution: Caution, act: number): boolean {
  if (caution.at > act) return false;
  const { parent } = caution.point;
  if (parent < 0) return true;
  for (let test = (points[act] as Point).parent; test >= 0; test = (points[test] as Point).parent)
    if (test === parent) return true;
  return false;
}

function groupBy<T>(list: readonly T[], keyOf: (one: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const one of list) {
    const group = groups.get(keyOf(one));
    if (group) group.push(one);
    else groups.set(keyOf(one), [one]);
  }
  return groups;
}

/** The end of the smallest block around a caution in which its hazard is raised after it. */
function scopeOf(blocks: readonly Block[], { at, point }: Caution, raised: readonly number[]): number {
  const next = raised[lowerBound(raised, at)] ?? Number.POSITIVE_INFINITY;
  for (let b = point.block; b >= 0; b = (blocks[b] as Block).parent) {
    const { end } = blocks[b] as Block;
    if (next < end) return end;
  }
  return at;
}

/** Whether a caution stands after an act in the same step or section and there is no other act after it there that it could be for. */
function isLate(
  blocks: readonly Block[],
  { at, point }: Caution,
  act: number,
  points: readonly Point[],
  raised: readonly number[],
): boolean {
  if (at < act) return false;
  const section = sectionOf(blocks, point.block);
  if (section !== sectionOf(blocks, (points[act] as Point).block)) return false;
  const next = raised[lowerBound(raised, at)] ?? Number.POSITIVE_INFINITY;
  const isTogether =
    point.block === (points[act] as Point).block && point.parent === (points[act] as Point).parent;
  return next >= (blocks[isTogether ? point.block : section] as Block).end;
}

function sectionOf(blocks: readonly Block[], block: number): number {
  let b = block;
  while (b >= 0 && blocks[b]?.construct !== "section" && blocks[b]?.construct !== "procedure")
    b = (blocks[b] as Block).parent;
  return b;
}

function cautionsIn({ segments, points }: Graph): Caution[] {
  const cautions: Caution[] = [];
  for (const { segment, at } of segments) {
    for (const local of cautionsOf(segment, null)) {
      const point = points[at.points + local] as CautionPoint;
      cautions.push({ at: at.points + local, hazard: hazardNamed(point.hazard), point });
    }
  }
  return cautions;
}

const cautionsOf = keptBySegment(({ points }: Segment, _: null): readonly number[] =>
  points.flatMap((point, at) => (point.kind === "caution" ? [at] : [])),
);

/** Acts on some things, those on a temporary also by the thing it goes into. Acts on machines are under null. */
function actsOn(
  { segments }: Graph,
  relations: Relations,
  things: ReadonlySet<Thing>,
): ReadonlyMap<Thing | null, readonly number[]> {
  const acts = new Map<Thing | null, number[]>();
  for (const { segment, at } of segments) {
    for (const { thing, point } of actsOf(segment, relations)) {
      if (thing !== null && !things.has(thing)) continue;
      const list = acts.get(thing);
      if (list) list.push(at.points + point);
      else acts.set(thing, [at.points + point]);
    }
  }
  return acts;
}

interface ActOn {
  readonly thing: Thing | null;
  readonly point: number;
}

const actsOf = keptBySegment(({ points }: Segment, relations: Relations): readonly ActOn[] => {
  const acts: ActOn[] = [];
  points.forEach((point, at) => {
    if (point.kind !== "act" || !point.thing) return;
    acts.push({ thing: point.thing, point: at });
    const into = point.thing.kind === "temporary" ? relations.into(point.thing) : null;
    if (into) acts.push({ thing: into, point: at });
    if (point.verb === "start" || point.verb === "run-in") acts.push({ thing: null, point: at });
  });
  return acts;
});

function watchHazard(
  hazard: Raised,
  tellers: readonly Caution[],
  acts: ReadonlyMap<Thing | null, readonly number[]>,
  points: readonly Point[],
  starts: Standing,
): Watch {
  const { source, fact, at } = hazard;
  const tells = new Set(tellers.map((c) => c.at));
  const verbAt = (p: number): string => (points[p]?.kind === "act" ? points[p].verb : "");
  const touches = new Set([
    ...(acts.get(source) ?? []),
    ...(fact.wakesAll.length > 0 ? (acts.get(null) ?? []) : []),
  ]);
  const changes = [...touches].filter((p) =>
    [fact.quiet, fact.wakes, fact.wakesAll].some((verbs) => verbs.includes(verbAt(p))),
  );
  const standing = starts.get(source);
  const gone =
    standing?.has("off") ||
    standing?.has("drained") ||
    standing?.has("isolated") ||
    standing?.has("disconnected");
  return {
    thing: source,
    marks: ["", PASSED].map((state) => ({
      code: "caution-missing",
      thing: source,
      other: null,
      state,
      bits: ALL_BITS,
    })),
    starts: [{ state: (fact.atStart ? gone : !standing?.has("off")) ? GONE : 0, where: null }],
    points: new Set([...tells, ...at.keys(), ...changes]),
    step: (state, point, report) => {
      let telling = state & ~(GONE | READ);
      let gone = state & GONE;
      let read = state & READ;
      if (tells.has(point)) {
        telling = TOLD;
        read = READ;
      }
      const evenIfGone = at.get(point);
      if (evenIfGone !== undefined && (evenIfGone || gone === 0)) {
        if (telling === UNTOLD) report(read === 0 && tellers.some((c) => stands(points, c, point)) ? 1 : 0);
        telling = RAISED;
      }
      const verb = verbAt(point);
      if (!touches.has(point)) return telling | gone | read;
      const ends = fact.quiet.includes(verb);
      const begins = fact.wakes.includes(verb) || fact.wakesAll.includes(verb);
      if (begins) gone = 0;
      if (ends) gone = GONE;
      // Raised and told of, it is told of once: when it comes back, it must be told of again.
      const isOver = ends || (begins && evenIfGone === undefined);
      return (telling === RAISED && isOver ? UNTOLD : telling) | gone | read;
    },
  };
}
