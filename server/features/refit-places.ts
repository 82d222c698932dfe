/**
 * Where the acts of a refit go: as late as may be, but before what asks that they are done (a start, what stands in
 * front, a proof, a supply), and in a text of steps at the widest break that there is.
 */
import type { RightingAct } from "../rules/righting";
import { isInFront, mustPrecede } from "../rules/righting-order";
import type { Walk } from "../walk";
import { asksFor, comesBefore, isSettledBy } from "./refit-asks";
import type { RefitDue } from "./refit-dues";
import { endOf, GUARDS, placeBefore, type RefitPlace } from "./refit-spots";

/** One act of a due thing, on its way to a place. */
export interface Placeable {
  readonly due: RefitDue;
  /** The act as it is on one of the ways. */
  readonly act: RightingAct;
  readonly key: string;
  readonly place: RefitPlace;
}

interface Bounded extends Placeable {
  /** It cannot come before or at this point. */
  readonly after: number;
  /** It must come before this point; the end of its block where nothing asks for it. */
  readonly before: number;
  readonly asked: boolean;
  readonly frame: number;
}

/** By what the acts of one thing on several ways are one act. */
export const actKey = ({ verb, onWheels }: RightingAct): string => `${verb}${onWheels ? " on wheels" : ""}`;

/**
 * Places every act of what is due. `inBodies` are the things that go back in the body of the condition or outcome in
 * which they came off.
 */
export function placedActs(
  walk: Walk,
  dues: readonly RefitDue[],
  inBodies: ReadonlySet<RefitDue>,
): readonly Placeable[] {
  let all = dues.flatMap((due) => placeables(walk, due, inBodies.has(due)));
  // One that must come first moves up with the other; each moves at most once past each.
  for (let round = 0; round < all.length; round++) {
    const moved = all.map((one) => movedFor(walk, one, all));
    if (moved.every((one, i) => one === all[i])) break;
    all = moved;
  }
  return all;
}

function placeables(walk: Walk, due: RefitDue, inBody: boolean): readonly Bounded[] {
  const owed = due.stands.filter((stand) => due.actsFor(stand).length > 0);
  const frames = inBody
    ? [...new Set(owed.map(({ since }) => bodyOf(walk, since)))]
    : [
        sharedFrame(
          walk,
          owed.map(({ since }) => since),
          due.at,
        ),
      ];
  return frames.flatMap((frame) => {
    const here = inBody ? owed.filter(({ since }) => bodyOf(walk, since) === frame) : owed;
    const acts = new Map<string, RightingAct>();
    for (const stand of here)
      for (const act of due.actsFor(stand)) if (!acts.has(actKey(act))) acts.set(actKey(act), act);
    return [...acts].map(([key, act]) => bounded(walk, due, act, key, frame));
  });
}

function bounded(walk: Walk, due: RefitDue, act: RightingAct, key: string, frame: number): Bounded {
  const { points, blocks } = walk.graph;
  const end = Math.min(due.at, blocks[frame]?.end ?? due.at, points.length - 1);
  let after = act.since;
  for (let at = Math.max(0, act.since + 1); at < end; at++)
    if (isSettledBy(points[at], act) || comesBefore(walk, points[at], at, act)) after = at;
  for (let before = after + 1; before <= end; before++) {
    const isLast = before === end;
    const asks = asksFor(walk, points[before], before, act);
    if (isLast ? due.at === points.length - 1 : !asks) continue;
    const one = { due, act, key, after, before, asked: true, frame };
    const place = placeFor(walk, one);
    const jump = jumpPast(walk, place.point, due.at);
    if (isLast || (place.point > after && jump < 0)) return { ...one, place };
    // On ways that jump past it nothing would be done: what must be goes in front of the jump.
    const sooner = jump > after && asks === "it must" ? placeBefore(walk, jump, after, frame) : null;
    if (sooner && sooner.point > after && jumpPast(walk, sooner.point, due.at) < 0)
      return { ...one, before: jump, place: sooner };
  }
  const one = { due, act, key, after, before: end, asked: false, frame };
  return { ...one, place: placeFor(walk, one) };
}

/** Moves an act so that it is not behind what must come after it, nor before what must come first. */
function movedFor(walk: Walk, one: Bounded, all: readonly Bounded[]): Bounded {
  for (const other of all) {
    if (other === one) continue;
    const { point, guarded } = other.place;
    // What goes back in a body is no concern of what goes back on every way, but for what must be reached.
    if (guarded !== one.place.guarded && !isInFront(walk, one.act, other.act)) continue;
    if (point < one.place.point && mustPrecede(walk, one.act, other.act) && other.before > one.after) {
      const sooner = { ...one, before: Math.min(one.before, other.before), asked: true };
      const place = placeFor(walk, sooner);
      return { ...sooner, place: place.point <= point ? place : other.place };
    }
    if (point > one.place.point && !one.asked && mustPrecede(walk, other.act, one.act))
      return { ...one, before: other.before, asked: other.asked, place: other.place };
  }
  return one;
}

/** The first jump that leads from before a point to behind it, as far as another; -1 where none does. */
function jumpPast({ graph }: Walk, point: number, end: number): number {
  return (
    graph.controls.find((at) => {
      const jump = graph.points[at];
      return jump?.kind === "go-to" && at < point && jump.to > point && jump.to <= end;
    }) ?? -1
  );
}

function placeFor(walk: Walk, { before, asked, after, frame }: Omit<Bounded, "place">): RefitPlace {
  const { points, blocks } = walk.graph;
  const isInside = before < (blocks[frame]?.end ?? 0) && points[before]?.spot !== undefined;
  return asked && isInside ? placeBefore(walk, before, after, frame) : endOf(walk, frame);
}

/** The condition or outcome in whose body a point stands; the procedure where it stands in none. */
export function bodyOf({ graph }: Walk, at: number): number {
  const { points, blocks } = graph;
  for (let b = points[at]?.block ?? 0; b > 0; b = blocks[b]?.parent ?? 0) {
    const block = blocks[b];
    if (block && GUARDS.has(block.construct) && !block.spot.through) return b;
  }
  return 0;
}

/**
 * The innermost repetition over a set that all of some points stand in, no condition between; else the procedure. What is
 * due within a condition goes back within it.
 */
function sharedFrame({ graph }: Walk, sinces: readonly number[], at: number): number {
  const { points, blocks } = graph;
  const isEnd = at === points.length - 1;
  const framesOf = (point: number): readonly number[] => {
    const frames: number[] = [];
    for (let b = points[point]?.block ?? 0; b > 0; b = blocks[b]?.parent ?? 0) {
      const block = blocks[b] as (typeof blocks)[number];
      const isGuard = GUARDS.has(block.construct);
      if (block.spot.through || (isGuard && isEnd)) frames.length = 0;
      else if (isGuard || block.construct === "for") frames.push(b);
    }
    return frames;
  };
  const [first = [], ...others] = (isEnd ? sinces : [...sinces, at]).map(framesOf);
  return first.find((frame) => others.every((frames) => frames.includes(frame))) ?? 0;
}
