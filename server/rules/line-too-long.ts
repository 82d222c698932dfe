/** A line that is many times as long as its way. */
import { millimetresSaid } from "./belts";
import { lineLength } from "./line-lengths";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

/** How many times its way a line may be long: the view shows no depth, and a slipped decimal makes it ten (common practice, no source). */
const TIMES = 5;

export const lineTooLong: ThingRule = {
  code: "line-too-long",
  severity: "hint",
  group: "runs",
  grain: "thing",
  messages: {
    main: "“{line}” is {length} long, and the way through its clips is {way}.",
    hint: "If it is coiled up or runs away from you, leave it; else look for a slipped decimal point, or another unit.",
  },
  docs: {
    what: "A line of which both ends and all clips have their places is more than five times as long as the straight way through them.",
    why: "A decimal point or a unit has slipped, and the kit gets the wrong hose.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the panel"
  part switch "Switch"  centre 0 mm, 400 mm
  part motor "Motor"  centre 300 mm, 0 mm
  clip corner "Corner clip"  centre 0 mm, 0 mm
  wire stop-wire "Stop wire" {
    from switch to motor
    through corner
    length 7200 mm
    slack 15 mm
  }
}
`,
      "    length 7200 mm\n",
      "    length 720 mm\n",
    ),
  },
  check(thing, report, _, machine) {
    const known = lineLength(thing, machine);
    if (!known) return;
    const { place, run, length, needed } = known;
    if (length <= TIMES * (run.length + Math.max(0, needed))) return;
    report({
      place,
      args: {
        line: titleOf(thing),
        length: millimetresSaid(length),
        way: millimetresSaid(run.length),
      },
    });
  },
};
