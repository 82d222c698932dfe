/** A caution whose signal word is weaker than its hazard asks for. */
import { type Point, placeOf } from "../walk";
import { twins } from "./say";
import type { ProcedureRule } from "./types";
import { indentOf } from "./walked";

export const cautionTooWeak: ProcedureRule = {
  code: "caution-too-weak",
  severity: "error",
  group: "cautions",
  grain: "procedure",
  messages: {
    main: "“{word}” is too weak for “{hazard}” here: it takes at least “{least}”.",
    hint: "Write “{least} {hazard}”.",
    act: "The hazard arises here.",
    fix: "Write “{least}”",
  },
  docs: {
    what: "A caution tells of a hazard with a weaker signal word than the hazard asks for, and no stronger one stands before the act.",
    why: "A signal word says how badly it can end: whoever reads “notice” expects a scratch. Signal words as ANSI Z535.6 and ISO 3864-2 use them.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part brake-band "Brake band"  spring-loaded
}

procedure renew "Take the brake band off and put it on" {
  on winch
  step "Off and on" {
    caution stored-energy {
      "The brake band is under tension."
      can "Whip out, and cost an eye."
      so "Slacken it fully and stand beside it."
    }
    remove brake-band
    fit brake-band
  }
}
`,
      "    caution stored-energy {\n",
      "    warning stored-energy {\n",
    ),
  },
  check(procedure, report, sight) {
    const { graph, tellings } = sight.walk(procedure);
    for (const { at, act, hazard } of tellings(sight.houseHazards).weak) {
      const point = graph.points[at] as Point;
      const { spot } = point;
      if (spot.through) continue;
      const word = spot.entry.construct;
      const args = { word, least: hazard.least, hazard: hazard.hazard };
      const start = indentOf(spot.entry).length;
      const place = { file: spot.file, line: spot.line, start, end: start + word.length };
      report({
        place,
        args,
        related: [{ place: placeOf(graph.points[act] as Point), message: "act" }],
        fixes: [{ title: { id: "fix", args }, safe: false, changes: [{ place, text: hazard.least }] }],
      });
    }
  },
};
