/** A belt whose strands cross, or run into a pulley, in the order its pulleys are said. */
import { type BeltAt, beltAt, faultOf } from "./belts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const beltCrossesItself: ThingRule = {
  code: "belt-crosses-itself",
  severity: "error",
  group: "runs",
  grain: "thing",
  messages: {
    main: "“{belt}” crosses itself between “{a}” and “{b}”.",
    cuts: "“{belt}” runs into “{pulley}” on its way from “{a}” to “{b}”.",
    hint: "Write the pulleys in the order in which the belt goes round them, and say where its back touches.",
    swap: "“{first}” and “{second}” stand in each other’s place: in the other order it runs.",
    "swap-hint": "Swap the lines of “{first}” and “{second}”.",
    other: "This one is the other.",
    crossed: "It crosses the strand that leaves here.",
  },
  docs: {
    what: "In the order of its pulley lines, with the sides that are said, a belt crosses itself or runs into a pulley.",
    why: "No belt can be laid so. Two pulleys stand in each other’s place, or a side is wrong.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the belt"
  part motor-pulley "Motor pulley"
  part upper "Upper idler"
  part drum-pulley "Drum pulley"
  part lower "Lower idler"
  belt drive-belt "Drive belt" {
    path clockwise
    pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm
    pulley upper  diameter 60 mm  centre 300 mm, 300 mm
    pulley drum-pulley  diameter 90 mm  centre 0 mm, 300 mm
    pulley lower  diameter 60 mm  centre 300 mm, 0 mm
  }
}
`,
      "    pulley drum-pulley  diameter 90 mm  centre 0 mm, 300 mm\n",
      "    pulley drum-pulley  diameter 90 mm  centre 500 mm, 150 mm\n",
    ),
  },
  check(thing, report, _, machine) {
    const at = beltAt(thing, machine);
    const fault = at && faultOf(at.belt);
    if (!at || fault?.kind !== "crosses") return;
    const belt = titleOf(thing);
    if (fault.swap) {
      const [a, b] = fault.swap;
      report({
        place: at.place(a),
        message: "swap",
        args: { belt, first: at.name(a), second: at.name(b) },
        related: [{ place: at.place(b), message: "other" }],
      });
    } else report({ ...meeting(at, belt), hint: "hint" });
  },
};

/** Where the belt meets itself or a pulley first. */
function meeting({ belt: { path }, name, place }: BeltAt, belt: string) {
  const [crossing, cut] = [path?.crossings[0], path?.cuts[0]];
  const span = path?.spans[crossing?.[0] ?? cut?.span ?? 0];
  const from = span?.from ?? 0;
  const args = { belt, a: name(from), b: name(span?.to ?? 0) };
  if (crossing) {
    const other = path?.spans[crossing[1]]?.from ?? from;
    return { place: place(from), args, related: [{ place: place(other), message: "crossed" }] };
  }
  if (cut) return { place: place(cut.pulley), message: "cuts", args: { ...args, pulley: name(cut.pulley) } };
  return { place: place(from), args };
}
