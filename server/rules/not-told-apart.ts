/** Two things that can be mistaken for each other are off at once, and neither is labelled. */
import type { Place } from "../model";
import { actRow, type Walk, type WalkFault } from "../walk";
import { titleOf, twins } from "./say";
import type { Fix, Message, ProcedureRule } from "./types";
import { faultsOf, namedIn } from "./walked";
import { addedAbove } from "./workable";

export const notToldApart: ProcedureRule = {
  code: "not-told-apart",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” comes off here while “{other}” is off, and nothing tells the two apart.",
    hint: 'Label one of them before it comes off: “label {name} "…"”.',
    fix: "Label {name} before it comes off",
    said: "That they are alike is said here.",
  },
  docs: {
    what: "Two parts or lines that the machine says are like each other are off at the same time, and none of them was labelled before.",
    why: "Two plugs that fit both sockets are put back the wrong way round once in two.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  connector plug-a "Plug of the motor"
  connector plug-b "Plug of the brake"  like plug-a
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    disconnect plug-a
    disconnect plug-b
    connect plug-a, plug-b
  }
}
`,
      "    disconnect plug-a\n",
      '    label plug-a "M"\n    disconnect plug-a\n',
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, walk } of faultsOf("not-told-apart", procedure, sight)) {
      const other = fault.other ?? fault.thing;
      const args = { title: titleOf(fault.thing), other: titleOf(other), name: fault.thing.name };
      const said = namedIn(fault.thing, "like", other.name) ?? namedIn(other, "like", fault.thing.name);
      const fixes = labelled(walk, fault, { id: "fix", args: { name: other.name } });
      report({ place, args, way: fault.way, related: said ? [{ place: said, message: "said" }] : [], fixes });
    }
  },
};

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
