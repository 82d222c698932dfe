/** A part that comes off, or a fastener that comes out, and is not back when the job ends. */
import { placeOf } from "../walk";
import { kitThings } from "./kit";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const partLeftOff: ProcedureRule = {
  code: "part-left-off",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” comes off here and is still off at the end of the job.",
    hint: "Write where it goes back on, “fit {name}”, or what is left so: “off {bare}” under “ends with”.",
    out: "“{title}” comes out here and is still out at the end of the job.",
    "out-hint": "Write where it goes back in: “fit {name}”.",
    begins: "“{title}” is off when the job begins and still off at its end.",
    "begins-hint":
      "Write where it goes on, “fit {name}”, or what is left so: “off {bare}” under “ends with”.",
    declared: "“{title}” is declared here.",
  },
  docs: {
    what: "A part or fastener is off at the end of the job, on every way through it or on some.",
    why: "What lies on the bench when the machine runs is missing in the machine.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
}

procedure look "Look at the gears" {
  on winch
  step "Take off" {
    remove cover
  }
  step "Put back" {
  }
}
`,
      '  step "Put back" {\n',
      '  step "Put back" {\n    fit cover\n',
    ),
  },
  check(procedure, report, sight) {
    const renewed = new Set(kitThings(procedure).map((k) => k.thing));
    for (const { fault, since } of faultsOf("part-left-off", procedure, sight)) {
      const { thing, way } = fault;
      const name = renewed.has(thing) ? `new ${thing.name}` : thing.name;
      const args = { title: titleOf(thing), name, bare: thing.name };
      const related = [{ place: thing.place, message: "declared", args }];
      if (!since) report({ place: procedure.thing.place, message: "begins", args, way, related });
      else if (thing.kind === "fastener")
        report({ place: placeOf(since), message: "out", args, way, related });
      else report({ place: placeOf(since), args, way, related });
    }
  },
};
