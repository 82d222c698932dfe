/**
 * Figures of a bolt in words: what was assumed of it, forces, shares, and torques in the writer's own unit.
 */
import { type Range, union } from "../mechanics/range";
import { boltPhrase as say } from "../phrases/bolts";
import { type Amount, makeAmount } from "../units/amount";
import { roundedDecimal } from "../units/decimal";
import { formatAmount, formatQuantity } from "../units/format";
import type { Quantity } from "../units/quantity";
import { fromSi, type Unit } from "../units/unit";
import type { KnownBolt } from "../walk/bolts";

/** Friction and heads are known to a third at best, so no figure worked out from them is given to more than two digits. */
const FIGURES = 2;

/** `M8, 8.8, dry, taken as µ 0.14 to 0.35`: all that a figure rests on. */
export function assumedOf({ thread, boltClass, said, bolt }: KnownBolt): string {
  const { low, high } = union(bolt.friction.thread, bolt.friction.head);
  return say("assumed", {
    bolt: [thread.designation, ...(boltClass ? [boltClass.designation] : [])].join(", "),
    state: say(`state.${said.state ?? "unsaid"}`),
    low: low.toFixed(2),
    high: high.toFixed(2),
  });
}

/** A torque in newton metres in a unit, to two digits. */
export function torqueText(torque: number, unit: Unit): string {
  return formatAmount(roundedAmount(fromSi(torque, unit), unit), { plain: true });
}

/** The torques from low to high: `22 to 37 N·m`. */
export function torquesText({ low, high }: Range, unit: Unit): string {
  const first = roundedAmount(fromSi(low, unit), unit);
  const number = formatAmount(first, { plain: true }).replace(` ${unit.print}`, "");
  return say("range", { low: number, high: torqueText(high, unit) });
}

function roundedAmount(value: number, unit: Unit): Amount {
  const before = Math.floor(Math.log10(value)) + 1;
  const coarse = 10 ** Math.max(0, before - FIGURES);
  return makeAmount(roundedDecimal(Math.round(value / coarse) * coarse, Math.max(0, FIGURES - before)), unit);
}

/** A preload: `9.4 to 19 kN`. */
export function forceText({ low, high }: Range): string {
  const id = high >= 1000 ? "kilonewtons" : "newtons";
  const by = high >= 1000 ? 1000 : 1;
  return say(id, { figure: spanText(low / by, high / by) });
}

function spanText(low: number, high: number): string {
  const [from, to] = [twoDigits(low), twoDigits(high)];
  return from === to ? to : say("range", { low: from, high: to });
}

const twoDigits = (value: number): string => String(Number(value.toPrecision(FIGURES)));

/** A share as so many per cent: whole ones, of a range both ends. */
export function shareText({ low, high }: Range): string {
  const [from, to] = [Math.round(low * 100), Math.round(high * 100)].map(String) as [string, string];
  return say("percent", { figure: from === to ? to : say("range", { low: from, high: to }) });
}

/** A quantity as it is written, without the other unit in brackets. */
export const figureText = (quantity: Quantity): string =>
  formatQuantity({ ...quantity, other: null }, { plain: true });
