/** A mark is looked for where it cannot stand. */
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const markCannotAlign: ProcedureRule = {
  code: "mark-cannot-align",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{mark}” stands {angle} from its place here: it cannot be in line.",
    hint: "{turns} more of “{shaft}” would bring all marks into line.",
    "none-hint": "No number of turns brings all marks into line from here.",
    never: "“{mark}” and “{other}” never stand in line at the same time from here.",
    declared: "“{mark}” is declared here.",
  },
  docs: {
    what: "A check or an act asks for marks in line, and where the shafts stand by then, counted by teeth and turns, a mark cannot be at its place.",
    why: "The fitter takes a right belt off again, or forces it until the marks agree.",
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
  step "Set" {
    remove guard
    align motor-mark, screw-mark
    turn motor 1 turn clockwise
  }
  check stands "The marks" {
    marks motor-mark, screw-mark
    if not met {
      end job "Ask the maker."
    }
  }
  step "Close" {
    fit guard
  }
}
`,
      "    turn motor 1 turn clockwise\n",
      "    turn motor 2 turns clockwise\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place } of faultsOf("mark-cannot-align", procedure, sight)) {
      const { thing, other, state, way } = fault;
      const related = [{ place: thing.place, message: "declared", args: { mark: titleOf(thing) } }];
      if (state === "never") {
        const args = { mark: titleOf(thing), other: titleOf(other ?? thing) };
        report({ place, message: "never", args, way, related });
        continue;
      }
      const [angle = "", first] = state.split(" ");
      const [name = "", turns = ""] = first?.split("=") ?? [];
      const shaft = procedure.find(name, ["shaft"]);
      const args = {
        mark: titleOf(thing),
        angle: inTurns(angle),
        turns: inTurns(turns),
        shaft: shaft ? titleOf(shaft) : name,
      };
      report({ place, hint: shaft ? "hint" : "none-hint", args, way, related });
    }
  },
};

const inTurns = (turns: string): string =>
  turns === "1" || turns.includes("/") ? `${turns} turn` : `${turns} turns`;
