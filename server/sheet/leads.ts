/**
 * Says where an outcome of a check leads: on, to a step, back to the check, back to an earlier step, or to the end.
 */
import { type Language, say } from "../phrases/sheet";
import { runs, sayWithSteps, spaced, strong, text, ticks } from "./atoms";
import type { Lead } from "./blocks";
import type { Atom } from "./nodes";

/** `→` and where it leads; a bounded return has a box for each time it may be taken. `id`: the outcome's. */
export function leadLine(language: Language, lead: Lead, id: string): Atom[] {
  return [text("→ "), ...leadWords(language, lead, id)];
}

function leadWords(language: Language, lead: Lead, id: string): Atom[] {
  switch (lead.kind) {
    case "go-on":
      return lead.next === undefined
        ? [strong(say(language, "lead.go-on"))]
        : sayWithSteps(language, "lead.go-on-to", { step: lead.next });
    case "go-to":
      return sayWithSteps(language, "lead.go-to", { step: lead.to });
    case "check-again":
      return [
        ...sayWithSteps(language, "lead.check-again", { step: lead.to }),
        ...returns(language, lead.times, id),
      ];
    case "repeat":
      return [
        ...sayWithSteps(language, "lead.repeat", { step: lead.to, back: lead.back }),
        ...returns(language, lead.times, id),
      ];
    case "end":
      return [strong(say(language, "lead.end")), text(": "), ...runs(lead.reason)];
  }
}

/** More returns than this have no boxes; the number is said. */
const MOST_RETURN_BOXES = 5;

function returns(language: Language, times: number | undefined, id: string): Atom[] {
  if (times === undefined) return [];
  const bound =
    times === 1
      ? say(language, "lead.at-most-once")
      : say(language, "lead.at-most", { times: String(times) });
  const labels = Array.from({ length: times > MOST_RETURN_BOXES ? 0 : times }, (_, index) =>
    say(language, "return", { number: String(index + 1) }),
  );
  return [text(`, ${bound}`), ...spaced(ticks(`${id}.return`, "", labels))];
}
