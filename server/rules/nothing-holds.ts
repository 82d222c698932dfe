/** A fastener on a free shaft is turned, and nothing holds the shaft. */
import { beltFacts } from "../facts";
import { holdingFor } from "./righting";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";
import { addedClause } from "./workable";

export const nothingHolds: ProcedureRule = {
  code: "nothing-holds",
  severity: "warning",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "Nothing holds “{shaft}” while “{title}” is turned: its {belt} is off.",
    hint: "Hold the part: “holding {part} with …”, or do this with the {belt} on.",
    fix: "Add “{clause}”",
  },
  docs: {
    what: "A fastener that sits on a shaft is tightened or loosened with nothing held, while every belt of the shaft is off.",
    why: "The shaft turns with the wrench: the torque is never reached, and the shaft has lost its place.",
    ...twins(
      `torquil 1

machine press "Belt press" {
  part guard "Guard"
  part motor-pulley "Motor pulley"  behind belt
  part screw-pulley "Screw pulley"  behind belt
  fastener screw-nut "Pulley nut"  secures screw-pulley  tighten 40 N·m
  shaft motor "Motor shaft"  turns clockwise only
  shaft screw "Screw"
  belt belt "Toothed belt" {
    toothed
    behind guard
    pulley motor-pulley  teeth 20  on motor
    pulley screw-pulley  teeth 40  on screw
  }
  mark motor-mark "Dot on the motor pulley"  on motor  at 0°  behind guard
  mark screw-mark "Dot on the screw pulley"  on screw  at 0°  behind guard
}

procedure look "Look at the press" {
  on press
  tool wrench "Torque wrench"  10 to 100 N·m
  tool holder "Holder"
  step "Tighten" {
    remove guard
    remove belt
    loosen screw-nut  holding screw-pulley with holder
    tighten screw-nut  with wrench
    fit belt
    fit guard
  }
}
`,
      "    tighten screw-nut  with wrench\n",
      "    tighten screw-nut  with wrench  holding screw-pulley with holder\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, walk, point } of faultsOf("nothing-holds", procedure, sight)) {
      const { thing, other, way } = fault;
      const part = walk.relations.secured(thing)[0];
      const belt = walk.relations.belts.find((b) =>
        beltFacts(b.entry).pulleys.some((p) => p.shaft?.name === other?.name),
      );
      const args = {
        title: titleOf(thing),
        shaft: titleOf(other ?? thing),
        part: part?.name ?? "",
        belt: belt?.entry.construct ?? "belt",
      };
      const clause = holdingFor(procedure, walk, thing);
      const fixes = addedClause(point, { id: "fix", args: { clause: clause.replace(/ +/g, " ") } }, clause);
      report({ place, args, way, fixes });
    }
  },
};
