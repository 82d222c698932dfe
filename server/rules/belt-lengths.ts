/**
 * What the two rules about a belt's length share: the figures, and where the length is said.
 */
import { type Machine, type Place, placeAt, type Thing } from "../model";
import { beltAt, faultOf, lengthsSaid, millimetresSaid } from "./belts";
import { titleOf } from "./say";
import type { Fault } from "./types";

/** The fault of a belt that is too long or too short; null for others. */
export function lengthFault(
  thing: Thing,
  machine: Machine | null,
  kind: "too-long" | "too-short",
): Fault<Place> | null {
  const at = beltAt(thing, machine);
  const fault = at && faultOf(at.belt);
  if (!at || fault?.kind !== "length" || fault.fit.kind !== kind) return null;
  const { facts, layout, length } = at.belt;
  const moving = layout.pulleys.flatMap(({ travel }, index) => (travel > 0 ? [index] : []));
  return {
    place: facts.lengthAt ? placeAt(thing.file, thing.line, facts.lengthAt) : thing.place,
    ...(moving.length > 0 ? {} : { message: "fixed", severity: "warning" as const }),
    hint: fault.swap ? "swap-hint" : moving.length > 0 ? "hint" : "fixed-hint",
    args: {
      belt: titleOf(thing),
      length: `${Math.round((length ?? 0) * 10) / 10} mm`,
      lengths: lengthsSaid(at.belt),
      by: millimetresSaid(fault.fit.by),
      a: fault.swap ? at.name(fault.swap[0]) : "",
      b: fault.swap ? at.name(fault.swap[1]) : "",
    },
    related: moving.map((index) => ({ place: at.place(index), message: "tensioner" })),
  };
}
