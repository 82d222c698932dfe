/** A pin or tool is still in what turns when the machine is started. */
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const toolLeftOn: ProcedureRule = {
  code: "tool-left-on",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{pin}” is still in when the machine starts here.",
    hint: "Take it out before: “pull {name}”.",
    declared: "It goes into what turns.",
  },
  docs: {
    what: "The machine is started or run in while something put into a shaft, or into what turns with it, is still there.",
    why: "It is thrown out, or stops the machine for good.",
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
  step "Pin and start" {
    remove guard
    insert pin
    fit guard
    run-in press 5 min
    pull pin
  }
}
`,
      "    run-in press 5 min\n",
      "    wait 5 min\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place } of faultsOf("tool-left-on", procedure, sight)) {
      const { thing, way } = fault;
      report({
        place,
        args: { pin: titleOf(thing), name: thing.name },
        way,
        related: [{ place: thing.place, message: "declared" }],
      });
    }
  },
};
