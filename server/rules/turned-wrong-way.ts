/** A shaft is turned the way it must not be. */
import { clauseOf } from "../facts";
import { placeAt } from "../model";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const turnedWrongWay: ProcedureRule = {
  code: "turned-wrong-way",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{shaft}” turns {way} only.",
    hint: "Write “{way}”.",
    declared: "The machine says so here.",
  },
  docs: {
    what: "A shaft that the machine says turns one way only is turned the other.",
    why: "A belt tensioner is pushed back, a one-way bearing breaks, a mark is set with the slack on the wrong side.",
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
  step "Turn" {
    turn motor 1 turn anticlockwise
  }
}
`,
      "    turn motor 1 turn anticlockwise\n",
      "    turn motor 1 turn clockwise\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place } of faultsOf("turned-wrong-way", procedure, sight)) {
      const { thing, state } = fault;
      const clause = clauseOf(thing.entry, "turns");
      const at = clause ? placeAt(thing.file, thing.line, clause.at) : thing.place;
      const args = { shaft: titleOf(thing), way: state };
      report({ place, args, way: fault.way, related: [{ place: at, message: "declared" }] });
    }
  },
};
