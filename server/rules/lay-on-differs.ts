/** A belt laid on in another order than its run. */
import type { Place } from "../model";
import { courseOf, type LaidOn, laidOn } from "./lay-on";
import { listed, titleOf, twins } from "./say";
import type { Fix, ProcedureRule } from "./types";

export const layOnDiffers: ProcedureRule = {
  code: "lay-on-differs",
  severity: "error",
  group: "runs",
  grain: "procedure",
  messages: {
    main: "“{belt}” is laid on in another order than its run.",
    swapped: "“{belt}” is laid on with “{a}” and “{b}” in each other’s place.",
    strange: "“{belt}” is laid on {pulleys}, and does not run there.",
    hint: "In the order of its run: “{line}”.",
    run: "Its run is said here.",
    fix: "Take the order of its run",
  },
  docs: {
    what: "A “lay-on” names the pulleys of a belt in another order than the run of the belt has them, or names a part that the belt does not run round.",
    why: "The hands follow the sheet: the belt crosses itself, or its marks stand at the wrong sprockets.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part motor-pulley "Motor pulley"
  part idler "Idler"
  part drum-pulley "Drum pulley"
  part roller "Guide roller"
  belt drive-belt "Drive belt" {
    pulley motor-pulley
    pulley idler
    pulley drum-pulley
    pulley roller
  }
}

procedure renew "Put the belt on again" {
  on winch
  step "Belt" {
    remove drive-belt
    fit drive-belt
    lay-on drive-belt motor-pulley, drum-pulley, idler, roller
  }
}
`,
      "    lay-on drive-belt motor-pulley, drum-pulley, idler, roller\n",
      "    lay-on drive-belt motor-pulley, idler, drum-pulley, roller\n",
    ),
  },
  check(procedure, report) {
    for (const laying of laidOn(procedure)) {
      const { at, belt, run, laid } = laying;
      const found = courseOf(laying);
      const order = righted(laying);
      const line = [at.act.verb, belt.name, at.act.direction, order.join(", ")].filter((w) => w !== null);
      const args = { belt: titleOf(belt), line: line.join(" ") };
      const strange = [...new Set(laid.filter(({ name }) => !run.includes(name)))];
      const title = (name: string) => {
        const thing = procedure.find(name, ["part"]);
        return thing ? titleOf(thing) : name;
      };
      if (strange.length > 0 && strange.every(({ name }) => procedure.find(name, ["part"])))
        report({
          place: strange[0]?.place ?? at.head,
          message: "strange",
          hint: "hint",
          args: {
            ...args,
            pulleys: listed(
              strange.map(({ name }) => `“${title(name)}”`),
              "and",
            ),
          },
          related: [{ place: belt.place, message: "run" }],
        });
      if (found.kind !== "swapped" && found.kind !== "mixed") continue;
      report({
        place: at.head,
        message: found.kind === "swapped" ? "swapped" : "main",
        hint: "hint",
        args: found.kind === "swapped" ? { ...args, a: title(found.pair[0]), b: title(found.pair[1]) } : args,
        related: [{ place: belt.place, message: "run" }],
        fixes: fixesOf(laying, order),
      });
    }
  },
};

/** The run from where the hands begin, the way they are said to go. */
function righted({ at, round, run, laid }: LaidOn): readonly string[] {
  const turned = at.act.direction !== null && round !== null && at.act.direction !== round;
  const order = turned ? [...run].reverse() : run;
  const start = Math.max(0, order.indexOf(laid[0]?.name ?? ""));
  return [...order.slice(start), ...order.slice(0, start)];
}

function fixesOf({ laid }: LaidOn, order: readonly string[]): Fix<Place>[] {
  const [first, last] = [laid[0]?.place, laid.at(-1)?.place];
  if (!first || !last || first.line !== last.line) return [];
  const changes = [{ place: { ...first, end: last.end }, text: order.join(", ") }];
  return [{ title: { id: "fix", args: {} }, safe: false, changes }];
}
