/** A belt's run said by clockwise and places, and no view to see them in. */
import { beltFacts } from "../facts";
import { placeAt } from "../model";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const directionUnsaid: ThingRule = {
  code: "direction-unsaid",
  severity: "warning",
  group: "runs",
  grain: "thing",
  messages: {
    main: "The run of “{belt}” is said as it is seen, and nothing says from where.",
    hint: 'Say it in the machine: “view front "Looking at the belt"”.',
  },
  docs: {
    what: "A belt has a way round, or places of its pulleys, in a machine without a “view”.",
    why: "Clockwise from the front is anticlockwise from behind: half the readers lay the belt on the wrong way.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part motor-pulley "Motor pulley"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    path clockwise
    pulley motor-pulley
    pulley drum-pulley
  }
}
`,
      'machine winch "Hand winch" {\n',
      'machine winch "Hand winch" {\n  view front "Looking at the belt"\n',
    ),
  },
  check(thing, report, _, machine) {
    if (thing.kind !== "belt" || !machine || machine.things.some((t) => t.kind === "view")) return;
    const { pathAt, pulleys } = beltFacts(thing.entry);
    const at = pathAt ?? pulleys.find((p) => p.centre)?.at;
    if (at) report({ place: placeAt(thing.file, thing.line, at), args: { belt: titleOf(thing) } });
  },
};
