/** A tensioner in the strand that the driving pulley pulls. */
import { drivingOf, runningOf } from "../walk/belts";
import { beltAt, faultOf } from "./belts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const tensionerOnTightStrand: ThingRule = {
  code: "tensioner-on-tight-strand",
  severity: "hint",
  group: "runs",
  grain: "thing",
  messages: {
    main: "“{tensioner}” presses on the strand of “{belt}” that “{driver}” pulls.",
    hint: "If so, leave it: else correct how “{shaft}” turns, or the order of the path.",
    turned: "By how this shaft turns.",
  },
  docs: {
    what: "Going by the one shaft that says how it turns, a tensioner lies in the strand that runs onto the driving pulley, before any other pulley on a shaft.",
    why: "There it bears the whole pull, and the slack gathers where nothing takes it up. Mostly a direction is wrong.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the belt"
  part motor-pulley "Motor pulley"
  part drum-pulley "Drum pulley"
  part tensioner "Tensioner"
  shaft motor "Motor shaft"  turns anticlockwise
  shaft drum "Drum shaft"
  belt drive-belt "Drive belt" {
    path clockwise
    pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm  on motor
    pulley tensioner  diameter 60 mm  centre 150 mm, 120 mm  travel 10 mm
    pulley drum-pulley  diameter 120 mm  centre 300 mm, 0 mm  on drum
  }
}
`,
      '  shaft motor "Motor shaft"  turns anticlockwise\n',
      '  shaft motor "Motor shaft"  turns clockwise\n',
    ),
  },
  check(thing, report, _, machine) {
    const at = beltAt(thing, machine);
    if (!at?.belt.path?.sound || faultOf(at.belt)) return;
    const { layout, facts } = at.belt;
    const [driver, ...others] = drivingOf(facts, at.find);
    const run = runningOf(at.belt, at.find);
    // With two such shafts, nothing says which of them drives.
    if (!driver || !run || others.length > 0) return;
    const count = layout.pulleys.length;
    const back = run.travel === "forwards" ? count - 1 : 1;
    const strand: number[] = [];
    for (let step = 1; step < count; step++) {
      const index = (driver.pulley + step * back) % count;
      const pulley = facts.pulleys[index];
      if (!pulley?.shaft && !pulley?.loaded) {
        strand.push(index);
        continue;
      }
      for (const pressed of strand.filter((i) => (layout.pulleys[i]?.travel ?? 0) > 0))
        report({
          place: at.place(pressed),
          args: {
            tensioner: at.name(pressed),
            belt: titleOf(thing),
            driver: at.name(driver.pulley),
            shaft: titleOf(driver.shaft),
          },
          related: [{ place: driver.shaft.place, message: "turned" }],
        });
      return;
    }
  },
};
