/**
 * The fix of the rules that say something is left otherwise than normal: the act that ends it, at a place where it can be done.
 */
import type { Place } from "../model";
import { departureSaid, rightingActs } from "./righting";
import type { Fix } from "./types";
import type { Faulty } from "./walked";
import { addedLines, workablePlace } from "./workable";

/** Adds the act that ends the departure a fault is about. The rule has a message `fix` with `verb` and `name`. */
export function addedActs({ fault, walk }: Faulty): Fix<Place>[] {
  const { thing, since, state } = fault;
  const kind = departureSaid(state);
  if (!kind) return [];
  const acts = rightingActs(walk.procedure, walk, { thing, since, differences: [{ kind, stage: "" }] });
  const [act] = acts;
  if (!act) return [];
  // Where it is put right on some ways already, another line would be wrong on those.
  const isPutRight = walk.graph.points.some(
    (p, at) => at > since && p.kind === "act" && p.thing === thing && p.verb === act.verb,
  );
  if (fault.way.length > 0 && isPutRight) return [];
  const title = { id: "fix", args: { verb: act.verb, name: thing.name } };
  return addedLines(workablePlace(walk, thing, act.verb, since), title, act.lines);
}
