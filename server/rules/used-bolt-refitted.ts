/** A used fastener goes in where only a new one may. */
import { placeOf } from "../walk";
import { newFixAt } from "./kit";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const usedBoltRefitted: ProcedureRule = {
  code: "used-bolt-refitted",
  severity: "error",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "“{title}” is renewed every time it comes out, and is fitted here without “new”.",
    old: "The old “{title}” goes in here and stays in.",
    hint: "Write “fit new {name}”, or “fit old {name}” where the old one goes in for a while.",
    "old-hint": "Take it out again and write “fit new {name}” before the end.",
    declared: "The machine says so here.",
    fix: "Write “fit new”",
  },
  docs: {
    what: "A fastener that is renewed every time it comes out is fitted without `new`; or an old one that was put in for a while stays in.",
    why: "A stretched bolt breaks at its torque, or later.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
  fastener drum-bolt "Drum bolt"  secures drum  renew every time  tighten 40 N·m
}

procedure look "Look at the winch" {
  on winch
  kit "K-1" {
    item drum-bolt 1
  }
  tool wrench "Torque wrench"  10 to 100 N·m
  step "Off and on" {
    remove drum-bolt, drum
    fit drum
    fit drum-bolt
    tighten drum-bolt  with wrench
  }
}
`,
      "    fit drum-bolt\n",
      "    fit new drum-bolt\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, point, since } of faultsOf("used-bolt-refitted", procedure, sight)) {
      const { thing, way, state } = fault;
      const args = { title: titleOf(thing), name: thing.name };
      const related = [{ place: thing.place, message: "declared" }];
      if (state === "old")
        report({
          place: since ? placeOf(since) : place,
          message: "old",
          hint: "old-hint",
          args,
          way,
          related,
        });
      else report({ place, args, way, related, fixes: newFixAt(point) });
    }
  },
};
