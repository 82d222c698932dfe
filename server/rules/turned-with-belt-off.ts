/** A shaft is turned apart from the others while its belt is off. */
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const turnedWithBeltOff: ProcedureRule = {
  code: "turned-with-belt-off",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{belt}” is off here, and “{shaft}” is turned by itself.",
    hint: "Turn it with the belt on, or say in the machine how far it may be turned: “belt-off free”, “belt-off 10°”.",
  },
  docs: {
    what: "A shaft is turned, or a mark lined up, while a toothed belt or chain that couples it with others is off, and the machine does not say that it may be.",
    why: "The shafts lose their places to each other, and what runs between can meet.",
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
  step "Off and on" {
    remove guard
    remove belt
    turn screw 1/4 turn
    fit belt
    fit guard
  }
}
`,
      '  shaft screw "Screw"\n',
      '  shaft screw "Screw"  belt-off free\n',
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place } of faultsOf("turned-with-belt-off", procedure, sight)) {
      const args = { belt: titleOf(fault.thing), shaft: titleOf(fault.other ?? fault.thing) };
      report({ place, args, way: fault.way });
    }
  },
};
