/** A belt that is shorter than its tensioner can take up. */
import { lengthFault } from "./belt-lengths";
import { twins } from "./say";
import type { ThingRule } from "./types";

export const beltTooShort: ThingRule = {
  code: "belt-too-short",
  severity: "error",
  group: "runs",
  grain: "thing",
  messages: {
    main: "“{belt}” is {length} long, {by} too short: its way round the pulleys takes {lengths}, the tensioner’s travel counted in.",
    hint: "Look at teeth, pitch or length, at the places and sizes of the pulleys, and at the travel.",
    fixed: "“{belt}” is {length} long, {by} shorter than its way round the pulleys, {lengths}.",
    "fixed-hint": "Correct a figure; if one of the pulleys moves, say its “travel”.",
    "swap-hint":
      "It would fit with “{a}” and “{b}” in each other’s place in the path; if they stand right there, correct a figure.",
    tensioner: "Its travel is counted in.",
  },
  docs: {
    what: "A belt is shorter than its path at either end of the tensioner’s travel; where no travel is said, by more than a fiftieth, as a warning.",
    why: "The belt does not go on. A tooth, a size or a place is wrong.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the belt"
  part motor-pulley "Motor pulley"
  part idler "Idler"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    path clockwise
    length 1070 mm
    pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm
    pulley idler  diameter 60 mm  centre 150 mm, 200 mm  travel 10 mm
    pulley drum-pulley  diameter 120 mm  centre 300 mm, 0 mm
  }
}
`,
      "    length 1070 mm\n",
      "    length 1102 mm\n",
    ),
  },
  check(thing, report, _, machine) {
    const fault = lengthFault(thing, machine, "too-short");
    if (fault) report(fault);
  },
};
