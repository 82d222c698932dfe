/** A belt laid on one of its pulleys twice. */
import { laidOn } from "./lay-on";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const runRepeats: ProcedureRule = {
  code: "run-repeats",
  severity: "error",
  group: "runs",
  grain: "procedure",
  messages: {
    main: "“{belt}” is laid on “{pulley}” twice.",
    hint: "Name each pulley once: a belt closes by itself.",
    first: "It is laid on it here.",
  },
  docs: {
    what: "A “lay-on” names a pulley twice.",
    why: "A belt goes round each pulley once; a second mention stands where another pulley should.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part motor-pulley "Motor pulley"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    pulley motor-pulley
    pulley drum-pulley
  }
}

procedure renew "Put the belt on again" {
  on winch
  step "Belt" {
    remove drive-belt
    fit drive-belt
    lay-on drive-belt motor-pulley, drum-pulley, motor-pulley
  }
}
`,
      "    lay-on drive-belt motor-pulley, drum-pulley, motor-pulley\n",
      "    lay-on drive-belt motor-pulley, drum-pulley\n",
    ),
  },
  check(procedure, report) {
    for (const { belt, laid } of laidOn(procedure)) {
      laid.forEach(({ name, place }, i) => {
        const first = laid.findIndex((l) => l.name === name);
        const pulley = procedure.find(name, ["part"]);
        if (first === i || !pulley) return;
        const related = [{ place: laid[first]?.place ?? place, message: "first" }];
        report({ place, args: { belt: titleOf(belt), pulley: titleOf(pulley) }, related });
      });
    }
  },
};
