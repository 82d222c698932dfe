/** A pulley that a belt can only touch with its other face. */
import { beltFacts, clausesOf } from "../facts";
import { type Place, placeAt, type Thing } from "../model";
import { beltAt, faultOf, lengthsSaid } from "./belts";
import { titleOf, twins } from "./say";
import type { Fix, ThingRule } from "./types";

export const wrongSide: ThingRule = {
  code: "wrong-side",
  severity: "error",
  group: "runs",
  grain: "thing",
  messages: {
    main: "“{belt}” can touch “{pulley}” only with its {face}: the other way there is no path.",
    length: "“{belt}” is {length} long, and the path takes {lengths}: it fits with its {face} on “{pulley}”.",
    "inside-hint": "Take “back of belt” away from the line of “{pulley}”, or correct a figure.",
    "back-hint": "Write “back of belt” in the line of “{pulley}”, or correct a figure.",
    "fix-inside": "Take “back of belt” away",
    "fix-back": "Write “back of belt”",
  },
  docs: {
    what: "A pulley is said to be touched by the one face of a belt, and the positions allow only the other: no path goes round it so, or the belt’s length fits only the other way.",
    why: "The belt is laid on the wrong side of a roller, and is too long, too short, or runs against itself.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the belt"
  part motor-pulley "Motor pulley"
  part roller "Guide roller"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    path clockwise
    length 940 mm
    pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm
    pulley roller  diameter 60 mm  centre 150 mm, 30 mm
    pulley drum-pulley  diameter 100 mm  centre 300 mm, 0 mm
  }
}
`,
      "    pulley roller  diameter 60 mm  centre 150 mm, 30 mm\n",
      "    pulley roller  diameter 60 mm  centre 150 mm, 30 mm  back of belt\n",
    ),
  },
  check(thing, report, _, machine) {
    const at = beltAt(thing, machine);
    const fault = at && faultOf(at.belt);
    if (!at || fault?.kind !== "side") return;
    const { belt, name, place } = at;
    const other = belt.layout.pulleys[fault.pulley]?.side === "back" ? "inside" : "back";
    report({
      place: place(fault.pulley),
      message: fault.by === "length" ? "length" : "main",
      hint: `${other}-hint`,
      args: {
        belt: titleOf(thing),
        pulley: name(fault.pulley),
        face: other === "back" ? "back" : "inner face",
        length: `${Math.round(belt.length ?? 0)} mm`,
        lengths: lengthsSaid(belt),
      },
      fixes: fixesOf(thing, fault.pulley, other),
    });
  },
};

/** The clause is taken away, or written behind what stands in the pulley's line. */
function fixesOf(belt: Thing, pulley: number, other: "inside" | "back"): Fix<Place>[] {
  const said = beltFacts(belt.entry).pulleys[pulley];
  const detail = clausesOf(belt.entry, "pulley")[pulley];
  const last = detail?.details.at(-1) ?? detail;
  if (!said || !last) return [];
  const title = { id: `fix-${other}`, args: {} };
  const safe = false;
  if (said.backAt)
    return [{ title, safe, changes: [{ place: placeAt(belt.file, belt.line, said.backAt), text: "" }] }];
  const end = placeAt(belt.file, belt.line, last.at);
  return [{ title, safe, changes: [{ place: { ...end, start: end.end }, text: "  back of belt" }] }];
}
