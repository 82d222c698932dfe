/** Short ways for the tests to make figures: `amount("47 N·m")`, `quantity("range", "0.5 mm", "1.2 mm")`. */
import { type Amount, makeAmount } from "../../server/units/amount";
import { parseDecimal } from "../../server/units/decimal";
import type { Kind } from "../../server/units/dimension";
import { findUnit, unitById } from "../../server/units/lookup";
import { makeQuantity, type Quantity, type Shape, type Written } from "../../server/units/quantity";
import type { Unit } from "../../server/units/unit";

/** The unit with this id; the test fails where there is none. */
export function unit(id: string): Unit {
  const found = unitById(id);
  if (found === undefined) throw new Error(`the test names a unit that is none: ${id}`);
  return found;
}

/** The amount a text says: all up to the last space before the unit is the number. */
export function amount(text: string, kind?: Kind): Amount {
  const parts = /^([\d+\-./\u2212]+(?: \d+\/\d+)?) ?(.+)$/.exec(text);
  const decimal = parseDecimal(parts?.[1] ?? "");
  const found = findUnit(parts?.[2] ?? "", kind);
  if (decimal === null || found === undefined)
    throw new Error(`the test names an amount that is none: ${text}`);
  return makeAmount(decimal, found);
}

/** The quantity of a shape made from one or two amounts. */
export function quantity(
  shape: Shape,
  first: string,
  second?: string,
  more: Partial<Written> = {},
): Quantity {
  const figures = { first: amount(first), ...(second === undefined ? {} : { second: amount(second) }) };
  const made = makeQuantity({ shape, ...figures, text: "", ...more });
  if (made === null) throw new Error(`the test names a quantity that is none: ${shape} ${first} ${second}`);
  return made;
}
