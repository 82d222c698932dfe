/**
 * What the rules about a choice by value share: the values of a check's `choose` lines, from the lowest up.
 */
import { type At, checkOf, type Entry } from "../facts";
import { type Amount, slack, stepOf } from "../units/amount";
import type { Quantity } from "../units/quantity";

/** One choice with a value that has ends. */
export interface Ranged {
  readonly name: string;
  readonly at: At;
  readonly value: Quantity;
}

/** The choices of a check from the lowest up; none where a value is unknown, or said only as about. */
export function rangedChoices(entry: Entry): Ranged[] {
  if (entry.construct !== "check") return [];
  const { choices } = checkOf(entry);
  const ranged = choices.flatMap(({ name, value, row }): Ranged[] => {
    const line = entry.children.find((c) => c.row === row)?.entry;
    const slot = line?.form.slots.find((s) => s.role === "value");
    return value && slot && value.shape !== "about"
      ? [{ name: name.name, value, at: { row: row + slot.at.row, span: slot.at.span } }]
      : [];
  });
  if (ranged.length < choices.length || new Set(ranged.map((r) => r.value.kind)).size > 1) return [];
  return ranged.sort(
    (a, b) => lowOf(a) - lowOf(b) || Number(b.value.lowIncluded) - Number(a.value.lowIncluded),
  );
}

const lowOf = ({ value }: Ranged): number => value.low?.si ?? Number.NEGATIVE_INFINITY;

/** Whether the space between two ends is no more than one step of the last digit, as a gauge would be read. */
export function withinOneStep(low: Amount, high: Amount): boolean {
  return Math.abs(high.si - low.si) <= Math.max(stepOf(low), stepOf(high)) + slack(low.si, high.si);
}
