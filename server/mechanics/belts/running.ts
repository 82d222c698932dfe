/**
 * Which way a belt runs and its pulleys turn.
 */
import type { BeltPath } from "./path";
import { otherRound, type Round } from "./plane";

/** Everything as seen in the view. */
export interface Running {
  /** Whether the belt runs the way the path is walked, or against it. */
  readonly travel: "forwards" | "backwards";
  /** How each pulley turns; null for one that is not touched. */
  readonly turns: readonly (Round | null)[];
}

/**
 * How a belt runs when one of its pulleys, the driving one or any other, turns a given way: it travels with that
 * pulley's rim, and every other rim with it.
 *
 * @returns null where the belt does not touch that pulley
 */
export function running(path: BeltPath, pulley: number, turns: Round): Running | null {
  const wrap = path.wraps[pulley];
  if (!wrap?.touched) return null;
  const forwards = wrap.round === turns;
  return {
    travel: forwards ? "forwards" : "backwards",
    turns: path.wraps.map(({ touched, round }) => (touched ? (forwards ? round : otherRound(round)) : null)),
  };
}
