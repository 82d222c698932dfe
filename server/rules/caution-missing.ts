/** An act that raises a hazard, and no caution before it. */
import type { Place } from "../model";
import { cautionWords, ownWords } from "../phrases/cautions";
import type { Language } from "../phrases/sheet";
import { HAZARDS, type Hazard, type Untold } from "../walk";
import { type UntoldAt, untoldOf } from "./cautions";
import { titleOf, twins } from "./say";
import type { Fix, ProcedureRule } from "./types";
import { indentOf } from "./walked";

export const cautionMissing: ProcedureRule = {
  code: "caution-missing",
  severity: "error",
  group: "cautions",
  grain: "procedure",
  messages: {
    main: "No caution on “{hazard}” stands before this.",
    hint: "Write one before it: “{least} {hazard} { … }”.",
    source: "It comes from “{source}”; it arises when {arises}.",
    own: "It comes from “{source}”: {title}.",
    fix: "Put “{least} {hazard}” before it",
  },
  docs: {
    what: "An act raises a hazard, and on some way to it no caution on that hazard is read. A caution counts until the hazard is over and comes back.",
    why: "Whoever is not told beforehand finds out.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part brake-band "Brake band"  spring-loaded
}

procedure renew "Take the brake band off and put it on" {
  on winch
  section "Brake" {
    warning crushing {
      "The brake band is under tension."
      can "Whip out, and cost an eye."
      so "Slacken it fully and stand beside it."
    }
    step "Off and on" {
      remove brake-band
      fit brake-band
    }
  }
}
`,
      "    warning crushing {\n",
      "    warning stored-energy {\n",
    ),
  },
  check(procedure, report, sight) {
    for (const one of untoldOf(procedure, sight)) {
      const { untold, place, late, passed } = one;
      if (late || passed) continue;
      const { hazard: name, title, least, source } = untold.hazard;
      const row = rowOf(untold);
      const args = { hazard: name, title, least, arises: row?.arises ?? "", source: titleOf(source) };
      report({
        place,
        args,
        way: untold.way,
        related: [{ place: source.place, message: row ? "source" : "own", args }],
        fixes: fixesOf(one, sight.language),
      });
    }
  },
};

const rowOf = ({ hazard }: Untold) =>
  Object.hasOwn(HAZARDS, hazard.hazard) ? HAZARDS[hazard.hazard as Hazard] : null;

/** A caution to start from, in front of the act. */
function fixesOf({ untold, act }: UntoldAt, language: Language): Fix<Place>[] {
  const { entry, file, line, through } = act.spot;
  if (through) return [];
  const { hazard, title, least } = untold.hazard;
  const own = ownWords(language);
  const said = rowOf(untold) ? (cautionWords(language, hazard) ?? rowOf(untold)?.says) : undefined;
  const [says, can, so] = said ?? [`${title}.`, ...own];
  const lines = [`${least} ${hazard} {`, `  "${says}"`, `  can "${can}"`, `  so "${so}"`, "}"];
  const text = lines.map((l) => `${indentOf(entry)}${l}\n`).join("");
  const changes = [{ place: { file, line, start: 0, end: 0 }, text }];
  return [{ title: { id: "fix", args: { hazard, least } }, safe: false, changes }];
}
