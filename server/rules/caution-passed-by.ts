/** A jump leads past the caution and on to the act. */
import type { FileModel, Place } from "../model";
import type { Point } from "../walk";
import { strongEnough, untoldOf } from "./cautions";
import { twins } from "./say";
import type { Fix, ProcedureRule } from "./types";
import { indentOf } from "./walked";

export const cautionPassedBy: ProcedureRule = {
  code: "caution-passed-by",
  severity: "error",
  group: "cautions",
  grain: "procedure",
  messages: {
    main: "The caution on “{hazard}” is passed by on the way here.",
    hint: "Let the jump lead to before the caution, or put the caution into the step with the act.",
    passed: "The caution stands here.",
    fix: "Put the same caution before it",
  },
  docs: {
    what: "A caution stands before the act that raises its hazard, but a `go to`, `repeat` or `check again` leads to the act without coming by it.",
    why: "Whoever is led round a warning has not read it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part brake-band "Brake band"  spring-loaded
}

procedure renew "Take the brake band off and put it on" {
  on winch
  section "Brake" {
    check play "Play" {
      limit 0.1 to 0.2 mm
      if over {
        go to off
      }
    }
    step read "Read this" {
      warning stored-energy {
        "The brake band is under tension."
        can "Whip out, and cost an eye."
        so "Slacken it fully and stand beside it."
      }
    }
    step off "Off and on" {
      remove brake-band
      fit brake-band
    }
  }
}
`,
      "        go to off\n",
      "        go to read\n",
    ),
  },
  check(procedure, report, sight) {
    const { points } = sight.walk(procedure).graph;
    for (const { untold, act, place, passed } of untoldOf(procedure, sight)) {
      if (!passed) continue;
      const args = { hazard: untold.hazard.hazard };
      const caution = points[untold.passed];
      const fixes = caution ? repeated(sight.file, act, caution, untold.hazard.least) : [];
      report({ place, args, way: untold.way, related: [{ place: passed, message: "passed" }], fixes });
    }
  },
};

/**
 * The caution once more right before the act, where all ways to it meet. It stays where it is too: those who come by it
 * may need it for something that is done before.
 */
function repeated(
  { path, document }: FileModel,
  { spot: act }: Point,
  { spot: caution }: Point,
  least: string,
): Fix<Place>[] {
  if ([act, caution].some((spot) => spot.through || spot.file !== path)) return [];
  const { line, entry } = caution;
  const [head = "", ...rest] = document.lines.slice(line, line + entry.lineCount).map(({ text }) => text);
  const before = indentOf(entry);
  const indent = indentOf(act.entry);
  const lines = [strongEnough(head, least), ...rest].map((text) =>
    text.startsWith(before) ? indent + text.slice(before.length) : text,
  );
  const text = lines.map((one) => `${one}\n`).join("");
  const changes = [{ place: { file: path, line: act.line, start: 0, end: 0 }, text }];
  return [{ title: { id: "fix", args: {} }, safe: false, changes }];
}
