/** A line led through its clips with one left out, or in another order. */
import { openCourse } from "../mechanics/course";
import type { Place } from "../model";
import { type LedThrough, ledThrough } from "./runs";
import { listed, titleOf, twins } from "./say";
import type { Fix, ProcedureRule } from "./types";

export const clipSkipped: ProcedureRule = {
  code: "clip-skipped",
  severity: "error",
  group: "runs",
  grain: "procedure",
  messages: {
    main: "“{line}” is led past {clips}.",
    order: "“{line}” is led through its clips in another order than its run.",
    strange: "“{line}” is led through {clips}, and its run has no such place.",
    hint: "As the machine has it: “run {name} through {through}”.",
    run: "Its run is said here.",
    fix: "Name the clips of its run, in their order there",
  },
  docs: {
    what: "A “run” leaves out a clip that the line’s own run goes through, takes them in another order, or names one that is not among them.",
    why: "A line that hangs free chafes, burns or is caught by what turns.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  clip upper "Upper clip"
  clip middle "Middle clip"
  clip lower "Lower clip"
  wire stop-wire "Stop wire"  through upper, middle, lower
}

procedure renew "Lay the stop wire" {
  on winch
  step "Wire" {
    run stop-wire through upper, lower
  }
}
`,
      "    run stop-wire through upper, lower\n",
      "    run stop-wire through upper, middle, lower\n",
    ),
  },
  check(procedure, report) {
    for (const leading of ledThrough(procedure)) {
      const { at, line, declared, led } = leading;
      const titles = (names: readonly string[]) =>
        listed(
          names.map((name) => {
            const thing = procedure.find(name, ["clip", "part"]);
            return `“${thing ? titleOf(thing) : name}”`;
          }),
          "and",
        );
      const found = openCourse(
        led.map((l) => l.name),
        declared,
      );
      const told = (message: string, clips: readonly string[]) =>
        report({
          place: at.head,
          message,
          hint: "hint",
          args: {
            line: titleOf(line),
            name: line.name,
            clips: titles(clips),
            through: declared.join(", "),
          },
          related: [{ place: line.place, message: "run" }],
          fixes: fixesOf(leading),
        });
      if (found.kind === "swapped" || found.kind === "mixed") told("order", []);
      if (found.kind !== "incomplete") continue;
      if (found.missing.length > 0) told("main", found.missing);
      else if (found.strange.length > 0) told("strange", found.strange);
    }
  },
};

function fixesOf({ led, declared }: LedThrough): Fix<Place>[] {
  const [first, last] = [led[0]?.place, led.at(-1)?.place];
  if (!first || !last || first.line !== last.line) return [];
  const changes = [{ place: { ...first, end: last.end }, text: declared.join(", ") }];
  return [{ title: { id: "fix", args: {} }, safe: false, changes }];
}
