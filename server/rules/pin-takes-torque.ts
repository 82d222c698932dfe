/** A fastener on a shaft is turned against a locking pin. */

import { holdingFor } from "./righting";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";
import { addedClause } from "./workable";

export const pinTakesTorque: ProcedureRule = {
  code: "pin-takes-torque",
  severity: "error",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "“{pin}” holds the shaft here, and a pin takes no torque.",
    hint: "Hold the part: “holding {part} with …”.",
    declared: "“{pin}” is declared here.",
    fix: "Add “{clause}”",
  },
  docs: {
    what: "A fastener that sits on a shaft is tightened or loosened with nothing held, while a pin locks the shaft: the pin takes the torque.",
    why: "A pin sets a place. It bends or shears, and the hole it sits in breaks out.",
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
  temporary pin "Locking pin"  into screw
  tool wrench "Torque wrench"  10 to 100 N·m
  tool holder "Holder"
  step "Tighten" {
    remove guard
    remove belt
    loosen screw-nut  holding screw-pulley with holder
    insert pin
    tighten screw-nut  with wrench
    pull pin
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
    for (const { fault, place, walk, point } of faultsOf("pin-takes-torque", procedure, sight)) {
      const pin = fault.other ?? fault.thing;
      const part = walk.relations.secured(fault.thing)[0];
      const args = { pin: titleOf(pin), part: part?.name ?? "" };
      const clause = holdingFor(procedure, walk, fault.thing);
      const fixes = addedClause(point, { id: "fix", args: { clause: clause.replace(/ +/g, " ") } }, clause);
      report({
        place,
        args,
        way: fault.way,
        related: [{ place: pin.place, message: "declared", args }],
        fixes,
      });
    }
  },
};
