/** Something oiled or sealed, and nothing says with what. */
import { fastenerFacts } from "../facts";
import type { Thing } from "../model";
import { actsOf, thingsNamed } from "./look";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const consumableUndeclared: ProcedureRule = {
  code: "consumable-undeclared",
  severity: "warning",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    lubricate: "Nothing says what “{title}” is lubricated with.",
    seal: "Nothing says what “{title}” is sealed with.",
    "lubricate-hint": "Say the oil or grease: “lubricate {name} with …”.",
    "seal-hint": "Say the sealant: “seal {name} with …”.",
  },
  docs: {
    what: "An act oils, greases or seals something without naming a consumable, and the machine names none for it either.",
    why: "The wrong grease or sealant is found out months later. The list of supplies is made from what the acts name.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  consumable grease "Bearing grease"
  part drum "Drum"
}

procedure service "Grease the drum" {
  on winch
  step "Grease" {
    lubricate drum
  }
}
`,
      "    lubricate drum\n",
      "    lubricate drum  with grease\n",
    ),
  },
  check(procedure, report) {
    for (const at of actsOf(procedure)) {
      const { verb, what, tools } = at.act;
      if (
        (verb !== "lubricate" && verb !== "seal") ||
        thingsNamed(procedure, tools, ["consumable", "fluid"]).length > 0
      )
        continue;
      const open = thingsNamed(procedure, what, ["part", "fastener", "face", "line", "belt"])
        .map((w) => w.thing)
        .filter((thing) => !suppliedByMachine(thing));
      const first = open[0];
      if (first) report({ place: at.head, message: verb, args: { title: titleOf(first), name: first.name } });
    }
  },
};

/** A fastener that the machine says to be oiled or locked, and with what. */
function suppliedByMachine(thing: Thing): boolean {
  return thing.kind === "fastener" && fastenerFacts(thing.entry).lubricant !== null;
}
