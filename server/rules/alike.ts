/**
 * What the two rules on things that can be mistaken for each other share: each fault with where the likeness is said, and
 * the fix that labels one of them before it comes off.
 */
import type { Place } from "../model";
import { actRow, type Walk, type WalkFault } from "../walk";
import { titleOf } from "./say";
import type { Fix, Message, ProcedureRule } from "./types";
import { faultsOf, namedIn } from "./walked";
import { addedAbove } from "./workable";

/** Reports each two things that come off together unlabelled; the rule has the messages `main`, `said` and `fix`. */
export function alikeReported(code: string): ProcedureRule["check"] {
  return (procedure, report, sight) => {
    for (const { fault, place, walk } of faultsOf(code, procedure, sight)) {
      const other = fault.other ?? fault.thing;
      const args = { title: titleOf(fault.thing), other: titleOf(other), name: fault.thing.name };
      const said = namedIn(fault.thing, "like", other.name) ?? namedIn(other, "like", fault.thing.name);
      const fixes = labelled(walk, fault, { id: "fix", args: { name: other.name } });
      report({ place, args, way: fault.way, related: said ? [{ place: said, message: "said" }] : [], fixes });
    }
  };
}

/** Labels the other one, above the last act that took it off before this. */
function labelled(walk: Walk, { other, point: at }: WalkFault, title: Message): Fix<Place>[] {
  const off = walk.graph.points.findLast(
    (p, i) =>
      i < at &&
      p.kind === "act" &&
      p.thing === other &&
      OFF.has(actRow(p.verb).makes ?? actRow(p.verb).fastener ?? ""),
  );
  return off && other ? addedAbove(off, title, [`label ${other.name} "${titleOf(other)}"`]) : [];
}

const OFF: ReadonlySet<string> = new Set(["off", "disconnected", "out"]);
