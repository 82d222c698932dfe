/** A caution that stands after the act it should stand before. */
import type { FileModel, Place } from "../model";
import type { Point } from "../walk";
import { strongEnough, untoldOf } from "./cautions";
import { twins } from "./say";
import type { Fix, ProcedureRule } from "./types";
import { indentOf } from "./walked";

export const cautionLate: ProcedureRule = {
  code: "caution-late",
  severity: "error",
  group: "cautions",
  grain: "procedure",
  messages: {
    main: "The caution on “{hazard}” stands after this, and is read too late.",
    hint: "Move it to before this line.",
    late: "The caution stands here.",
    fix: "Move the caution to before it",
  },
  docs: {
    what: "A caution stands after the act that raises its hazard, and no later act of the section raises it.",
    why: "A sheet is read from the top, and the hand is faster than the eye.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fluid gear-oil "Gear oil"  hot
}

procedure change "Change the gear oil" {
  on winch
  section "Make ready" {
    step "Let the air out" {
      bleed gear-oil until "no more bubbles rise"
      warning burn {
        "The oil is hot after work."
        can "Scald."
        so "Let it cool before you open anything."
      }
    }
  }
  section "Oil" {
    step "Drain and fill" {
      drain gear-oil
      fill gear-oil
    }
  }
}
`,
      '      bleed gear-oil until "no more bubbles rise"\n',
      "",
    ),
  },
  check(procedure, report, sight) {
    for (const { untold, act, place, late, passed } of untoldOf(procedure, sight)) {
      if (!late || passed) continue;
      const args = { hazard: untold.hazard.hazard };
      const caution = sight.walk(procedure).graph.points[untold.late];
      const { least } = untold.hazard;
      const fixes = caution ? moved(sight.file, act, caution, least) : [];
      report({ place, args, way: untold.way, related: [{ place: late, message: "late" }], fixes });
    }
  },
};

/** The caution's lines and those between are put in each other's place, each line for a line; its word is made to do. */
function moved(
  { path, document }: FileModel,
  { spot: act }: Point,
  { spot: caution }: Point,
  least: string,
): Fix<Place>[] {
  const isHere = [act, caution].every((spot) => !spot.through && spot.file === path);
  const first = act.line;
  const last = caution.line + caution.entry.lineCount;
  if (!isHere || caution.line <= first) return [];
  const texts = document.lines.slice(first, last).map((line) => line.text);
  const [head = "", ...rest] = texts.splice(caution.line - first);
  const own = [strongEnough(head, least), ...rest];
  const indent = indentOf(act.entry);
  const before = indentOf(caution.entry);
  const set = own.map((text) => (text.startsWith(before) ? indent + text.slice(before.length) : text));
  const changes = [...set, ...texts].flatMap((text, i) => {
    const end = document.lines[first + i]?.text.length ?? 0;
    const place = { file: path, line: first + i, start: 0, end };
    return text === document.lines[first + i]?.text ? [] : [{ place, text }];
  });
  return [{ title: { id: "fix", args: {} }, safe: false, changes }];
}
