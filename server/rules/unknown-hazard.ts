/** A caution whose hazard is nearly the name of a known one: a slip, and the caution then counts for nothing. */
import { nearest } from "../../grammar";
import { CAUTION_WORDS, cautionOf, type Entry } from "../facts";
import { placeAt } from "../model";
import { HAZARDS } from "../walk";
import { twins } from "./say";
import type { ProcedureRule } from "./types";

/** Every hazard of the trade under all its names. */
const TRADE: readonly string[] = Object.entries(HAZARDS).flatMap(([name, { alias }]) => [name, ...alias]);

export const unknownHazard: ProcedureRule = {
  code: "unknown-hazard",
  severity: "warning",
  group: "cautions",
  grain: "procedure",
  messages: {
    main: "There is no hazard “{name}”. Did you mean “{near}”?",
    hint: "Write “{word} {near}”, or declare it in the machine: “hazard {name}”.",
    fix: "Write “{near}”",
  },
  docs: {
    what: "The hazard of a caution is a slip of the fingers away from the name of a known one, and is no known one itself.",
    why: "The caution then counts for no act, and the one that is needed is missing.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure wash "Wash the drum" {
  on winch
  step "Wash" {
    caution chemcial {
      "The cleaner dries out the skin."
      can "Inflame the hands."
      so  "Wear gloves."
    }
    clean drum
  }
}
`,
      "    caution chemcial {\n",
      "    caution chemical {\n",
    ),
  },
  check(procedure, report, { houseHazards, file }) {
    const own = file.inSight.filter((t) => t.kind === "hazard").map((t) => t.name);
    const known = [...TRADE, ...own, ...houseHazards.map((h) => h.name)];
    const visit = (entry: Entry, line: number): void => {
      const hazard = CAUTION_WORDS.includes(entry.construct) ? cautionOf(entry).hazard : null;
      const near = hazard && !known.includes(hazard.name) ? nearest(hazard.name, known) : undefined;
      if (hazard && near) {
        const place = placeAt(procedure.thing.file, line, hazard.at);
        const args = { name: hazard.name, near, word: entry.construct };
        const fix = { title: { id: "fix", args }, safe: false, changes: [{ place, text: near }] };
        report({ place, args, fixes: [fix] });
      }
      for (const child of entry.children) visit(child.entry, line + child.row);
    };
    visit(procedure.thing.entry, procedure.thing.line);
  },
};
