/** A belt laid on without one of its pulleys. */
import type { Place, Procedure } from "../model";
import { type LaidOn, laidOn, pulleyPlace } from "./lay-on";
import { listed, titleOf, twins } from "./say";
import type { Fix, ProcedureRule } from "./types";

export const runMisses: ProcedureRule = {
  code: "run-misses",
  severity: "error",
  group: "runs",
  grain: "procedure",
  messages: {
    main: "“{belt}” is laid on without {pulleys}.",
    hint: "Name every pulley of its run, in the order of the hands: “{line}”.",
    pulley: "Its run goes round this one.",
    fix: "Name the pulleys of its run, in their order there",
  },
  docs: {
    what: "A “lay-on” leaves out a pulley that the belt’s run goes round.",
    why: "A belt beside its pulley is the wrong length, and comes off at the first turn.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part motor-pulley "Motor pulley"
  part idler "Idler"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    pulley motor-pulley
    pulley idler
    pulley drum-pulley
  }
}

procedure renew "Put the belt on again" {
  on winch
  step "Belt" {
    remove drive-belt
    fit drive-belt
    lay-on drive-belt motor-pulley, drum-pulley
  }
}
`,
      "    lay-on drive-belt motor-pulley, drum-pulley\n",
      "    lay-on drive-belt motor-pulley, idler, drum-pulley\n",
    ),
  },
  check(procedure, report) {
    for (const laying of laidOn(procedure)) {
      const { at, belt, run, laid } = laying;
      const missed = run.filter((name) => !laid.some((l) => l.name === name));
      if (missed.length === 0) continue;
      const said = [at.act.verb, belt.name, at.act.direction, run.join(", ")].filter((word) => word !== null);
      report({
        place: at.head,
        args: { belt: titleOf(belt), pulleys: titles(procedure, missed), line: said.join(" ") },
        related: missed.map((name) => ({ place: pulleyPlace(belt, name), message: "pulley" })),
        fixes: fixesOf(laying),
      });
    }
  },
};

const titles = (procedure: Procedure, names: readonly string[]): string =>
  listed(
    names.map((name) => {
      const thing = procedure.find(name, ["part"]);
      return `“${thing ? titleOf(thing) : name}”`;
    }),
    "and",
  );

/** Puts the run in place of the pulleys named; the order of the hands is for the writer to say. */
function fixesOf({ laid, run }: LaidOn): Fix<Place>[] {
  const first = laid[0]?.place;
  const last = laid[laid.length - 1]?.place;
  if (!first || !last) return [];
  const changes = [{ place: { ...first, end: last.end }, text: run.join(", ") }];
  return [{ title: { id: "fix", args: {} }, safe: false, changes }];
}
