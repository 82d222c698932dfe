/** Choices by value that share a value. */
import type { At } from "../facts";
import { slack } from "../units/amount";
import { formatAmount } from "../units/format";
import { overlaps } from "../units/quantity";
import { type Ranged, rangedChoices } from "./choices";
import { twins } from "./say";
import type { BlockRule, Fix } from "./types";

export const rangesOverlap: BlockRule = {
  code: "ranges-overlap",
  severity: "error",
  group: "quantities",
  grain: "block",
  messages: {
    main: "“{name}” and “{other}” both cover {text}.",
    hint: "Let one begin where the other ends, with “over” before the upper one: over 0.55 to 0.65 mm.",
    fix: "Write “over” before the upper one",
    other: "“{other}” covers {text} too.",
  },
  docs: {
    what: "Two choices of a check cover the same value.",
    why: "Who measures just that value does not know which part to take.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure shim "Choose the shim" {
  on winch
  check play "Play of the drum" {
    record
    proves drum
    choose thin 0.45 to 0.55 mm
    choose thick 0.55 to 0.65 mm
  }
}
`,
      "0.55 to 0.65 mm",
      "over 0.55 to 0.65 mm",
    ),
  },
  check(entry, report) {
    let highest: Ranged | undefined;
    for (const next of rangedChoices(entry)) {
      if (highest && overlaps(highest.value, next.value)) {
        const low = next.value.low ?? highest.value.low;
        const args = {
          name: next.name,
          other: highest.name,
          text: low ? formatAmount(low, { plain: true }) : "the same values",
        };
        report({
          place: next.at,
          args,
          related: [{ place: highest.at, message: "other", args }],
          fixes: touches(highest, next) ? [overFix(next)] : [],
        });
      }
      if (!highest || reach(next) > reach(highest)) highest = next;
    }
  },
};

const reach = ({ value }: Ranged): number => value.high?.si ?? Number.POSITIVE_INFINITY;

/** Whether the one only begins where the other ends. */
function touches({ value: lower }: Ranged, { value: upper }: Ranged): boolean {
  const [end, begin] = [lower.high, upper.low];
  return (
    end !== null && begin !== null && upper.shape === "range" && Math.abs(end.si - begin.si) <= slack(end.si)
  );
}

function overFix({ at }: Ranged): Fix<At> {
  const place = { row: at.row, span: { start: at.span.start, end: at.span.start } };
  return { title: { id: "fix", args: {} }, safe: false, changes: [{ place, text: "over " }] };
}
