/** A turn by an angle, and nothing that says from where it is counted. */
import { fastenerFacts } from "../facts";
import { placeAt } from "../model";
import { clampsMetal } from "../walk/bolts";
import { figureText } from "./bolt-words";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const angleWithoutTorque: ThingRule = {
  code: "angle-without-torque",
  severity: "hint",
  group: "fasteners",
  grain: "thing",
  messages: {
    main: "“{title}” is turned by {angle}, and nothing says from where that is counted.",
    hint: 'Say the stage before it: “stage snug 20 N·m”, or “stage hand by feel "Until it seats."”.',
  },
  docs: {
    what: "The first stage of a tightening is an angle, of a bolt whose class is said. Not for settings, nor for what threads into plastic or wood.",
    why: "An angle from a loose bolt clamps with anything between nothing and too much.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    class 8.8
    dry
    stage final 90°
    renew every time
  }
}
`,
      "    stage final 90°\n",
      "    stage snug 20 N·m\n    stage final 90°\n",
    ),
  },
  check(thing, report) {
    if (thing.kind !== "fastener") return;
    const facts = fastenerFacts(thing.entry);
    const [first] = facts.stages;
    // A plug or a filter, of which no class is said, is turned on from where it seats.
    if (facts.class === "" || first?.kind !== "angle" || !first.value || !clampsMetal(facts)) return;
    report({
      place: placeAt(thing.file, thing.line, first.at),
      args: { title: titleOf(thing), angle: figureText(first.value) },
    });
  },
};
