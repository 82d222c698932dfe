/** A ratio that is said, and that the teeth between two shafts do not have. */
import { shaftFacts } from "../facts";
import { absolute, equal, ratioIn, textOf } from "../mechanics/fractions";
import { gearTrain, ratioBetween } from "../mechanics/shafts";
import { placeAt } from "../model";
import { boundIn, gearLinks, linksOfBelt } from "../walk/trains";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const ratioDiffersFromTeeth: ThingRule = {
  code: "ratio-differs-from-teeth",
  severity: "error",
  group: "runs",
  grain: "thing",
  messages: {
    main: "By the teeth “{shaft}” makes {found} turns for one of “{other}”, and is said to make {said}.",
    hint: "Correct the ratio or the teeth; where teeth say it, the ratio may be left out.",
    other: "This is the other shaft.",
  },
  docs: {
    what: "A shaft’s ratio to another differs from what the teeth of the belts, chains and gears between them make.",
    why: "Where marks stand after so many turns is worked out from it: a mark then comes into line when it cannot, or never.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  gear pinion "Pinion"  teeth 18  on input
  gear wheel "Wheel"  teeth 54  on output  meshes pinion
  shaft input "Input shaft"
  shaft output "Output shaft"  ratio 0.5 of input
}
`,
      '  shaft output "Output shaft"  ratio 0.5 of input\n',
      '  shaft output "Output shaft"  ratio 1/3 of input\n',
    ),
  },
  check(thing, report, _, machine) {
    const ratio = thing.kind === "shaft" ? shaftFacts(thing.entry).ratio : null;
    const said = ratio && ratioIn(ratio.text);
    if (!ratio || !said || !machine) return;
    const things = machine.things.filter((t) => !t.doubtful);
    const bound = boundIn(things);
    const other = bound.byName(ratio.of, ["shaft"]);
    const belts = things.filter((t) => t.kind === "belt").flatMap((belt) => linksOfBelt(belt, bound));
    const found =
      other && ratioBetween(gearTrain([...belts, ...gearLinks(things, bound)]), other.name, thing.name);
    if (!other || !found || other === thing || equal(absolute(found), absolute(said))) return;
    report({
      place: placeAt(thing.file, thing.line, ratio.at),
      args: {
        shaft: titleOf(thing),
        other: titleOf(other),
        found: textOf(absolute(found)),
        said: ratio.text,
      },
      related: [{ place: other.place, message: "other" }],
    });
  },
};
