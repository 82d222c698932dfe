/** Choices by value that leave a value out between them. */
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
      `torquil 1\n\nmachine winch "Hand winch" {\n  part drum "Drum"\n}\n\nprocedure shim "Choose the shim" {\n  on winch\n  check play "Play of the drum" {\n    choose thin 0.45 to 0.50 mm\n    choose thick 0.55 to 0.65 mm\n  }\n}\n`,
      "0.45 to 0.50 mm",
      "0.45 to 0.54 mm",
    ),
  },
  check(entry, report) {
    let highest: Ranged | undefined;
    for (const next of rangedChoices(entry)) {
      const [high, low] = [highest?.value.high, next.value.low];
      if (highest && high && low && leavesGap(highest.value, next.value) && !withinOneStep(high, low)) {
        const figure = (a: typeof high): string => `${a.decimal.text} ${a.unit.print}`;
        const args = { name: next.name, other: highest.name, from: figure(high), to: figure(low) };
        report({ place: next.at, args, related: [{ place: highest.at, message: "other", args }] });
      }
      if (!highest || (next.value.high?.si ?? Number.POSITIVE_INFINITY) > (highest.value.high?.si ?? Number.POSITIVE_INFINITY)) highest = next;
    }
  },
};
