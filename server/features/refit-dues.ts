/**
 * What a refit has to do: the things that are owed at the end of a procedure, and fasteners that a later line tightens
 * although nobody put them in; each with the acts that put it right, by what it is on the ways that come there.
 */
import { fastenerFacts } from "../facts";
import type { Procedure, Thing } from "../model";
import { type RightingAct, rightingActs } from "../rules/righting";
import { differencesAt, owedAtEnd, type Stand, type Walk } from "../walk";
import { tended } from "./refit-tending";

/** A thing that is to be put right before a point. */
export interface RefitDue {
  readonly thing: Thing;
  /** Every state it can be in, without the ways. */
  readonly stands: readonly Stand[];
  readonly at: number;
  /** The acts that put it right where it stands so; none where nothing is owed then. */
  readonly actsFor: (stand: Stand) => readonly RightingAct[];
}

export interface Dues {
  readonly dues: readonly RefitDue[];
  /** The ways were too many to follow them all: something may be owed that is not here. */
  readonly cutShort: boolean;
}

/** What must be put right for a stand to be as it should be; equal where the same must be done. */
export const owedKey = ({ differences }: Stand): string =>
  differences
    .filter((d) => d.owed)
    .map((d) => `${d.kind} ${d.stage}`)
    .join();

/** Everything that is due in a procedure. */
export function duesOf(procedure: Procedure, walk: Walk): Dues {
  const end = walk.graph.points.length - 1;
  const { things, cutShort } = owedAtEnd(walk);
  const dues = things.map(({ thing, stands }) => dueOf(procedure, walk, thing, stands, end));
  return { dues: [...tightenedUnfitted(procedure, walk), ...dues], cutShort };
}

/** Fasteners that a line tightens on some way on which they are out: that line takes them for fitted. */
function tightenedUnfitted(procedure: Procedure, walk: Walk): readonly RefitDue[] {
  return walk.faults
    .filter(({ code, thing }) => code === "tightened-before-fitted" && thing.kind === "fastener")
    .map(({ thing, point }) => dueOf(procedure, walk, thing, differencesAt(walk, thing, point), point));
}

function dueOf(
  procedure: Procedure,
  walk: Walk,
  thing: Thing,
  stands: readonly Stand[],
  at: number,
): RefitDue {
  const kept = new Map<Stand, readonly RightingAct[]>();
  const actsFor = (stand: Stand): readonly RightingAct[] => {
    let acts = kept.get(stand);
    if (!acts) {
      const differences = stand.differences.filter((d) => d.owed);
      const all =
        differences.length === 0
          ? []
          : rightingActs(procedure, walk, { thing, differences, since: stand.since });
      acts = (isTightenedThere(walk, thing, at) ? all.filter((a) => a.verb !== "tighten") : all).map((act) =>
        tended(procedure, walk, act, at),
      );
      kept.set(stand, acts);
    }
    return acts;
  };
  return { thing, stands, at, actsFor };
}

/** Whether the line at a point tightens a fastener from its first stage on, so that it only has to be put in. */
function isTightenedThere({ graph }: Walk, thing: Thing, at: number): boolean {
  const point = graph.points[at];
  if (point?.kind !== "act" || point.verb !== "tighten" || point.thing !== thing) return false;
  const { toStage, stages } = point.act;
  const first = fastenerFacts(thing.entry).stages[0]?.name ?? "";
  return stages.length > 0 ? stages[0]?.name.name === first : toStage === null || toStage.name === first;
}
