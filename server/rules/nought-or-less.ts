/** A size, torque, time or count of nought or less. */
import type { Line } from "../../grammar";
import { allDetails, type Detail, readEntry, type Slot } from "../facts";
import { parseDecimal } from "../units/decimal";
import type { Kind } from "../units/dimension";
import type { Quantity } from "../units/quantity";
import { twins } from "./say";
import type { LineRule } from "./types";

/**
 * Figures that are over nought or make no sense, by the form or clause and the place in it. Those of an adapter are not among them: its
 * setting cannot be worked out, which has a finding of its own.
 */
const OVER: ReadonlySet<string> = new Set([
  "fluid capacity",
  "working-time time",
  "item count",
  "check-again times",
  "repeat times",
  "loosen angle",
  "drain amount",
  "fill amount",
  "wait time",
  "run-in time",
  "by-people people",
  "within-time time",
  "at-most-time time",
  "weight weight",
  "reuse limit",
  "reuse times",
  "open-time time",
  "cure time",
  "stores-charge time",
  "bend-radius limit",
  "count count",
  "layout rows",
  "holes length",
  "spanner size",
  "grip length",
  "stage value",
  "stage angle",
  "tighten-to value",
  "pitch pitch",
  "teeth teeth",
  "length length",
  "thickness thickness",
  "diameter diameter",
  "rating rating",
  "ratio ratio",
  "held time",
  "tool range",
]);
/** Figures that may be nought and not less. */
const FROM: ReadonlySet<string> = new Set(["slack length", "travel travel"]);
/** What a tool may show below nought: a thermometer, a vacuum gauge, a dial gauge. */
const EITHER_SIDE: ReadonlySet<Kind> = new Set(["temperature", "pressure", "voltage", "angle"] as Kind[]);

export const noughtOrLess: LineRule = {
  code: "nought-or-less",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: "“{text}” is not over nought, as a {what} must be.",
    below: "“{text}” is below nought, which no {what} is.",
    hint: "Write the figure as it is at the machine.",
  },
  docs: {
    what: "A size, a weight, a torque, a time, a count or the like is nought or has a minus sign.",
    why: "Nothing can be set, bought or worked out from it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts"  tighten 0 N·m
}
`,
      "0 N·m",
      "20 N·m",
    ),
  },
  check(line, report) {
    for (const { name, slot } of figuresOf(line)) {
      const least = OVER.has(name) ? 0 : FROM.has(name) ? -1 : null;
      const most = least === null ? null : mostOf(slot);
      if (least === null || most === null || (least === 0 ? most > 0 : most >= 0)) continue;
      if (name === "tool range" && slot.quantity && EITHER_SIDE.has(slot.quantity.kind)) continue;
      const { span } = slot.at;
      report({
        place: slot.at,
        message: least === 0 ? "main" : "below",
        hint: "hint",
        args: { text: line.text.slice(span.start, span.end).trim(), what: WORDS[name] ?? slot.role },
      });
    }
  },
};

/** Where the name of the place is not the word of the trade. */
const WORDS: Readonly<Record<string, string>> = {
  "check-again times": "number of times",
  "repeat times": "number of times",
  "reuse times": "number of times",
  "by-people people": "number of people",
  "layout rows": "number of rows",
  "teeth teeth": "number of teeth",
  "reuse limit": "length",
  "bend-radius limit": "bend radius",
  "stage value": "tightening",
  "stage angle": "turn back",
  "tighten-to value": "tightening",
  "spanner size": "width across flats",
  "slack length": "slack",
  "tool range": "tool’s range",
};

/** Every place of a line, with the name of its form or clause. */
function figuresOf(line: Line): readonly { readonly name: string; readonly slot: Slot }[] {
  if (line.kind !== "statement") return [];
  const entry = readEntry(line);
  return allDetails(entry).flatMap((detail: Detail) =>
    detail.slots.map((slot) => ({ name: `${detail.clause || entry.construct} ${slot.role}`, slot })),
  );
}

/** The greatest figure that a place allows; null where it has none, or no number. */
function mostOf({ quantity, count, text, role }: Slot): number | null {
  if (quantity) return greatest(quantity);
  if (count !== null) return count;
  return role === "ratio" ? (parseDecimal(text)?.value ?? null) : null;
}

/** A tolerance or range is nonsense only where all of it is. */
const greatest = ({ low, high, nominal }: Quantity): number | null =>
  high?.si ?? nominal?.si ?? low?.si ?? null;
