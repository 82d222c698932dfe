/** A loaded sprocket that holds its belt with few teeth. */
import { meshFactor } from "../mechanics/belts";
import { beltAt, faultOf } from "./belts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

/** From six teeth on, a toothed belt may carry its full rating (belt makers' handbooks; see `meshFactor`). */
const ENOUGH = 6;

export const fewTeethInMesh: ThingRule = {
  code: "few-teeth-in-mesh",
  severity: "hint",
  group: "runs",
  grain: "thing",
  messages: {
    main: "“{belt}” has {teeth} teeth in mesh with “{pulley}”: so few carry {share} % of its rating.",
    none: "“{belt}” has {teeth} teeth in mesh with “{pulley}”: so few carry next to nothing.",
    hint: "If that is enough for the load, leave it; else see whether a figure is wrong.",
  },
  docs: {
    what: "A toothed belt has fewer than six teeth in mesh with a pulley that is said to be loaded.",
    why: "Each tooth under six costs a fifth of the rating: the belt jumps, or sheds its teeth. Often a roller that should wrap it further is in the wrong place.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the belt"
  part motor-pulley "Motor pulley"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    toothed
    path clockwise
    pitch 8 mm
    pulley motor-pulley  teeth 10  centre 0 mm, 0 mm  loaded
    pulley drum-pulley  teeth 40  centre 200 mm, 0 mm  loaded
  }
}
`,
      "    pulley motor-pulley  teeth 10  centre 0 mm, 0 mm  loaded\n",
      "    pulley motor-pulley  teeth 16  centre 0 mm, 0 mm  loaded\n",
    ),
  },
  check(thing, report, _, machine) {
    const at = beltAt(thing, machine);
    if (at?.belt.kind !== "toothed" || !at.belt.path?.sound || faultOf(at.belt)) return;
    at.belt.path.wraps.forEach(({ touched, teethInMesh }, index) => {
      const whole = Math.floor((teethInMesh ?? ENOUGH) + 1e-9);
      if (!touched || whole >= ENOUGH || !at.belt.facts.pulleys[index]?.loaded) return;
      const share = Math.round(100 * meshFactor(whole));
      report({
        place: at.place(index),
        message: share > 0 ? "main" : "none",
        hint: "hint",
        args: {
          belt: titleOf(thing),
          pulley: at.name(index),
          teeth: `${whole}`,
          share: `${share}`,
        },
      });
    });
  },
};
