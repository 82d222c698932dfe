/** Something stands in the way of an act. */
import type { Place, Thing } from "../model";
import { type Point, placeOf, type Relations } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { type Faulty, faultsOf, namedIn } from "./walked";

export const blockedBy: ProcedureRule = {
  code: "blocked-by",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{front}” is still on, and “{thing}” is behind it.",
    hint: "Take it off first: “remove {frontName}”.",
    fit: "“{front}” is on already, and “{thing}” goes in behind it.",
    "fit-hint": "Write “fit {name}” before “fit {frontName}”.",
    cover: "“{front}” is still on, and “{thing}” is under it.",
    "cover-hint": "Take it off first: “pull {frontName}”.",
    over: "That it goes over it is said here.",
    behind: "That it stands in front is said here.",
    back: "It goes back on here.",
  },
  docs: {
    what: "An act takes off, fits, tightens, drains or lines up something while what stands in front of it is on.",
    why: "The fitter comes to a line that cannot be done, with half the machine in pieces.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  part gear-wheel "Gear wheel"  behind cover
}

procedure look "Look at the gear wheel" {
  on winch
  step "Take off" {
    remove gear-wheel
  }
  step "Put back" {
    fit gear-wheel
    fit cover
  }
}
`,
      "    remove gear-wheel\n",
      "    remove cover\n    remove gear-wheel\n",
    ),
  },
  check(procedure, report, sight) {
    for (const faulty of faultsOf("blocked-by", procedure, sight)) {
      const { fault, point, place, since, walk } = faulty;
      const other = fault.other as Thing;
      const args = {
        front: titleOf(fault.thing),
        frontName: fault.thing.name,
        thing: titleOf(other),
        name: other.name,
      };
      if (fault.thing.kind === "temporary") {
        const over = namedIn(fault.thing, "over", other.name) ?? fault.thing.place;
        report({
          place,
          message: "cover",
          args,
          way: fault.way,
          related: [{ place: over, message: "over" }],
        });
        continue;
      }
      const said = behindPlace(fault.thing, other, walk.relations);
      const related = [
        ...(isBack(faulty) ? [{ place: placeOf(since as Point), message: "back" }] : []),
        ...(said ? [{ place: said, message: "behind" }] : []),
      ];
      const fits = point.kind === "act" && point.verb === "fit";
      report({ place, ...(fits ? { message: "fit" } : {}), args, way: fault.way, related });
    }
  },
};

/** Whether the thing in the way was off and went back on. */
function isBack({ since }: Faulty): boolean {
  return since?.kind === "act" && since.verb === "fit";
}

/** Where it is said that one thing is behind another: at itself, at what it secures, or at the belt round it. */
function behindPlace(front: Thing, thing: Thing, relations: Relations): Place | null {
  for (const one of [thing, ...relations.secured(thing)]) {
    const place = namedIn(one, "behind", front.name);
    if (place) return place;
  }
  return namedIn(front, "pulley", thing.name);
}
