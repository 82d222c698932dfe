/**
 * What the rules about quantities share: the quantities of a line, and what is wrong with their writing.
 */
import type { Line, RawFigure, RawQuantity, SlotValue } from "../../grammar";
import { allDetails, type QuantityProblem, readEntry, type Slot } from "../facts";

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

const KINDS: Readonly<Record<string, string>> = {
  torque: "a torque, such as 22 N·m",
  angle: "an angle, such as 90° or 1/4 turn",
  length: "a length, such as 25 mm",
  volume: "a volume, such as 4.2 L",
  mass: "a mass, such as 4 kg",
  time: "a time, such as 30 min",
  temperature: "a temperature, such as 40 °C",
  pressure: "a pressure, such as 2.5 bar",
  voltage: "a voltage, such as 24 V",
};

/** The kinds of quantity that fit, in words with an example. */
export function quantitiesInWords(kinds: readonly string[]): string {
  return kinds.map((kind) => KINDS[kind] ?? `a ${kind.replace("-", " ")}`).join(", or ");
}
