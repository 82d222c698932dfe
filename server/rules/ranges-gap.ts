/** Choices by value that leave a value out between them. */
import { formatAmount } from "../units/format";
import { leavesGap } from "../units/quantity";
import { type Ranged, rangedChoices, withinOneStep } from "./choices";
import { twins } from "./say";
import type { BlockRule } from "./types";

export const rangesGap: BlockRule = {
  code: "ranges-gap",
  severity: "warning",
  group: "quantities",
  grain: "block",
  messages: {
    main: "Between {from} and {to} nothing is chosen.",
    hint: "Let “{name}” begin where “{other}” ends, with “over” before it.",
    other: "“{other}” ends here.",
  },
  docs: {
    what: "Between two choices of a check lie values that none of them covers.",
    why: "Who measures such a value is left without a part. A gap of one step of the last digit is taken as said: a gauge is not read finer.",
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
    choose thin 0.45 to 0.50 mm
    choose thick 0.55 to 0.65 mm
  }
}
`,
      "0.45 to 0.50 mm",
      "0.45 to 0.54 mm",
    ),
  },
  check(entry, report) {
    let highest: Ranged | undefined;
    for (const next of rangedChoices(entry)) {
      const [high, low] = [highest?.value.high, next.value.low];
      if (highest && high && low && leavesGap(highest.value, next.value) && !withinOneStep(high, low)) {
        const [from, to] = [formatAmount(high, { plain: true }), formatAmount(low, { plain: true })];
        const args = { name: next.name, other: highest.name, from, to };
        report({ place: next.at, args, related: [{ place: highest.at, message: "other", args }] });
      }
      if (!highest || reach(next) > reach(highest)) highest = next;
    }
  },
};

const reach = ({ value }: Ranged): number => value.high?.si ?? Number.POSITIVE_INFINITY;
