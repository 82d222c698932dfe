/** A pulley of a belt's run that the tight belt does not touch. */
import { beltAt, faultOf, grazed, millimetresSaid } from "./belts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const pulleyNotTouched: ThingRule = {
  code: "pulley-not-touched",
  severity: "error",
  group: "runs",
  grain: "thing",
  messages: {
    main: "“{belt}” does not touch “{pulley}”: pulled tight, it passes {gap} off.",
    grazed: "“{belt}” runs straight past “{pulley}” and only lies against it.",
    "grazed-hint": "If it is a roller that the belt rests on, leave it; else correct its place or size.",
    hint: "Correct the place or the size of “{pulley}”, or take it out of the run.",
    "side-hint":
      "Correct the place or the size of “{pulley}”, or its side: with its {face} the belt would touch it.",
  },
  docs: {
    what: "Pulled tight round its other pulleys, a belt stands clear of one that is in its run. One that it just lies against without bending is a hint.",
    why: "A pulley that is not touched guides nothing and drives nothing; a figure is wrong.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the belt"
  part motor-pulley "Motor pulley"
  part roller "Guide roller"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    path clockwise
    pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm
    pulley roller  diameter 60 mm  centre 150 mm, 90 mm  back of belt
    pulley drum-pulley  diameter 100 mm  centre 300 mm, 0 mm
  }
}
`,
      "    pulley roller  diameter 60 mm  centre 150 mm, 90 mm  back of belt\n",
      "    pulley roller  diameter 60 mm  centre 150 mm, 70 mm  back of belt\n",
    ),
  },
  check(thing, report, _, machine) {
    const at = beltAt(thing, machine);
    const fault = at && faultOf(at.belt);
    if (!at || fault?.kind !== "untouched") return;
    for (const { pulley, gap } of at.belt.path?.untouched ?? []) {
      const rests = grazed({ gap }) && !at.belt.facts.pulleys[pulley]?.loaded;
      report({
        place: at.place(pulley),
        ...(rests ? { message: "grazed", severity: "hint" as const } : {}),
        hint: rests ? "grazed-hint" : fault.turned.includes(pulley) ? "side-hint" : "hint",
        args: {
          belt: titleOf(thing),
          pulley: at.name(pulley),
          gap: millimetresSaid(gap),
          face: at.belt.layout.pulleys[pulley]?.side === "back" ? "inner face" : "back",
        },
      });
    }
  },
};
