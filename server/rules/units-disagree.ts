/** A figure and the one in brackets behind it that do not mean the same. */

import { type Amount, convertForPrint, sameWithinRounding } from "../units/amount";
import { sameDimension } from "../units/dimension";
import { convertQuantity, formatAmount, formatQuantity } from "../units/format";
import { type Quantity, quantitiesAgree } from "../units/quantity";
import { quantitiesOf } from "./figures";
import { repaired, twins } from "./say";
import type { LineRule } from "./types";

export const unitsDisagree: LineRule = {
  code: "units-disagree",
  severity: "error",
  group: "quantities",
  grain: "line",
  messages: {
    main: "In the brackets stands {other}, but {own} is {converted}.",
    hint: "If the first is right: “{line}”.",
    kinds: "In the brackets stands {other}, which is of another kind than {own}.",
    "kinds-hint": "In brackets stands the same figure in another unit.",
    fix: "Write {converted} in the brackets",
  },
  docs: {
    what: "A quantity and the same in another unit, in brackets behind it, differ by more than rounding.",
    why: "Half the readers work by the one figure and half by the other. One step of the last digit of the coarser figure is allowed.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts"  tighten 47 N·m (53 lb·ft)
}
`,
      "(53 lb·ft)",
      "(35 lb·ft)",
    ),
  },
  check(line, report) {
    for (const { slot, raw } of quantitiesOf(line)) {
      const { quantity } = slot;
      const other = quantity?.other;
      if (!quantity || !other || !raw.other || agree(quantity, other)) continue;
      const place = { row: 0, span: raw.other.span };
      const own = formatQuantity({ ...quantity, other: null }, { plain: true });
      const converted = inUnitOf(quantity, other);
      const said = { own, other: formatQuantity(other, { plain: true }) };
      if (!converted) report({ place, message: "kinds", args: said });
      else {
        const args = { ...said, converted, line: repaired(line, raw.other.span, converted) };
        report({
          place,
          args,
          fixes: [{ title: { id: "fix", args }, safe: false, changes: [{ place, text: converted }] }],
        });
      }
    }
  },
};

/** The quantity in the unit of the one in brackets, without words that are left out there. */
function inUnitOf(own: Quantity, other: Quantity): string | null {
  const figure = other.shape === "exact" && own.shape !== "range" ? figureOf(own) : null;
  const alone = figure && convertForPrint(figure, other.unit);
  if (alone) return formatAmount(alone, { plain: true });
  return convertQuantity({ ...own, other: null }, other.unit)?.text ?? null;
}

const figureOf = (quantity: Quantity): Amount | null => quantity.nominal ?? quantity.low ?? quantity.high;

/** Agreement within rounding; in the brackets the words (`at least`, `over`) and the tolerance may be left out. */
function agree(own: Quantity, other: Quantity): boolean {
  if (!sameDimension(own.kind, other.kind)) return false;
  if (own.shape === "range" && other.shape === "range")
    return quantitiesAgree(own, { ...other, lowIncluded: own.lowIncluded, highIncluded: own.highIncluded });
  if (other.shape !== "exact" || own.shape === "range") return quantitiesAgree(own, other);
  const figure = figureOf(own);
  return figure !== null && other.nominal !== null && sameWithinRounding(figure, other.nominal);
}
