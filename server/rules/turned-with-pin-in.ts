/** A shaft is turned while a pin locks it. */
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const turnedWithPinIn: ProcedureRule = {
  code: "turned-with-pin-in",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{pin}” is still in here, and “{shaft}” is turned.",
    hint: "Take it out first: “pull {name}”.",
  },
  docs: {
    what: "A shaft is turned, or a mark lined up, while a pin is in that shaft or in one that turns with it.",
    why: "The pin shears, or the housing breaks.",
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
  temporary pin "Locking pin"  into motor-pulley
  step "Pin and turn" {
    remove guard
    insert pin
    turn motor 1 turn clockwise
    pull pin
    fit guard
  }
}
`,
      "    turn motor 1 turn clockwise\n",
      "    wait 5 min\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place } of faultsOf("turned-with-pin-in", procedure, sight)) {
      const args = {
        pin: titleOf(fault.thing),
        name: fault.thing.name,
        shaft: titleOf(fault.other ?? fault.thing),
      };
      report({ place, args, way: fault.way });
    }
  },
};
