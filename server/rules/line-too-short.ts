/** A line that does not reach from end to end with the slack it needs. */

import { clauseOf } from "../facts";
import { runThrough, slackOf } from "../mechanics/runs";
import { placeAt } from "../model";
import { millimetres } from "../walk/belts";
import { runIn } from "../walk/lines";
import { finderIn, millimetresSaid } from "./belts";
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
    const known = thing.kind === "line" ? runIn(thing, finderIn(machine)) : null;
    const length = millimetres(known?.facts.length);
    if (!known?.whole || length === null) return;
    const { run } = runThrough(known.places.map((p) => p.at));
    const needed = millimetres(known.facts.slack) ?? 0;
    const slack = run && slackOf(run, length, needed);
    const at = clauseOf(thing.entry, "length")?.at;
    if (!run || !slack || slack.enough || !at) return;
    report({
      place: placeAt(thing.file, thing.line, at),
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
