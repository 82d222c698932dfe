/** A belt laid on one of its pulleys twice, or whose run goes round one twice. */
import { beltFacts } from "../facts";
import { placeAt } from "../model";
import { finderIn } from "./belts";
import { laidOn } from "./lay-on";
import { titleOf, twins } from "./say";
import type { Page, ProcedureRule, ThingRule } from "./types";

const PAGE: Page = {
  code: "run-repeats",
  severity: "error",
  group: "runs",
  messages: {
    main: "“{belt}” is laid on “{pulley}” twice.",
    hint: "Name each pulley once: a belt closes by itself.",
    first: "It is laid on it here.",
    run: "The run of “{belt}” goes round “{pulley}” twice.",
    "run-hint": "Name another pulley in one of the two lines, or take one of them out.",
    before: "It goes round it here.",
  },
  docs: {
    what: "A “lay-on” names a pulley twice, or two lines of a belt’s run name the same one.",
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
};

export const runRepeats: ThingRule = {
  ...PAGE,
  grain: "thing",
  check(thing, report, _, machine) {
    if (thing.kind !== "belt") return;
    const { pulleys } = beltFacts(thing.entry);
    pulleys.forEach(({ part }, i) => {
      const first = pulleys.slice(0, i).find((p) => p.part.name === part.name);
      const pulley = finderIn(machine)(part.name);
      if (!first || !pulley) return;
      report({
        place: placeAt(thing.file, thing.line, part.at),
        message: "run",
        hint: "run-hint",
        args: { belt: titleOf(thing), pulley: titleOf(pulley) },
        related: [{ place: placeAt(thing.file, thing.line, first.part.at), message: "before" }],
      });
    });
  },
};

export const runRepeatsLaidOn: ProcedureRule = {
  ...PAGE,
  grain: "procedure",
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
