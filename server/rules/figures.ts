/**
 * What the rules about quantities share: the quantities of a line, and what is wrong with their writing.
 */
import type { Line, RawFigure, RawQuantity, SlotValue } from "../../grammar";
import { allDetails, type Entry, type QuantityProblem, readEntry, type Slot } from "../facts";

/** The places of a line's forms that are filled in, as facts read them. A line by itself has all of them. */
export function slotsOf(line: Line): readonly Slot[] {
  return line.kind === "statement" ? allDetails(readEntry(line)).flatMap((d) => d.slots) : [];
}

/** The problems of a line's quantities that carry this code. */
export function quantityProblems(line: Line, code: QuantityProblem["code"]): QuantityProblem[] {
  return slotsOf(line).flatMap((slot) => slot.problems.filter((p) => p.code === code));
}

/** Each quantity of a line: as facts read it, and as it is written. */
export function quantitiesOf(line: Line): { readonly slot: Slot; readonly raw: RawQuantity }[] {
  const raw = (line.statement?.phrases ?? []).flatMap((p) => p.slots);
  return slotsOf(line).flatMap((slot) => {
    const own = raw.find((s: SlotValue) => s.span.start === slot.at.span.start && s.role === slot.role);
    return own?.content.kind === "quantity" ? [{ slot, raw: own.content.quantity }] : [];
  });
}

/** A figure with another number, its unit as written. */
export function withNumber(line: Line, figure: RawFigure, number: string): string {
  return number + line.text.slice(figure.span.start + figure.number.length, figure.span.end);
}

const kept = new WeakMap<Entry, boolean>();

/**
 * Whether some figure in an entry could not be read. A line cut short within its figure has lost what stood behind it,
 * so that what is used nowhere may have been used there.
 */
export function hasBadFigure(entry: Entry): boolean {
  const known = kept.get(entry);
  if (known !== undefined) return known;
  const own = allDetails(entry).some((d) => d.slots.some((s) => s.problems.length > 0));
  const found = own || entry.children.some((c) => hasBadFigure(c.entry));
  kept.set(entry, found);
  return found;
}
