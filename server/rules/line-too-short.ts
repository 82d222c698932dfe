/** A line that does not reach from end to end with the slack it needs. */
import { slackOf } from "../mechanics/runs";
import { millimetresSaid } from "./belts";
import { lineLength } from "./line-lengths";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const lineTooShort: ThingRule = {
  code: "line-too-short",
  severity: "error",
  group: "runs",
  grain: "thing",
  messages: {
    main: "“{line}” is {length} long, and the way through its clips is {way}.",
    slack: "“{line}” has {left} of slack through its clips, and needs {needed}.",
    hint: "Correct the length, or the places of clips and ends.",
  },
  docs: {
    what: "A line of which both ends and all clips have their places is shorter than the straight way through them, with the slack it needs.",
    why: "It does not reach, or it is pulled tight and chafes through.",
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
    length 700 mm
    slack 15 mm
  }
}
`,
      "    length 700 mm\n",
      "    length 720 mm\n",
    ),
  },
  check(thing, report, _, machine) {
    const known = lineLength(thing, machine);
    if (!known) return;
    const { place, run, length, needed } = known;
    const slack = slackOf(run, length, needed);
    if (!slack || slack.enough) return;
    report({
      place,
      message: slack.left < 0 ? "main" : "slack",
      hint: "hint",
      args: {
        line: titleOf(thing),
        length: millimetresSaid(length),
        way: millimetresSaid(run.length),
        left: millimetresSaid(slack.left),
        needed: millimetresSaid(needed),
      },
    });
  },
};
