/**
 * What the rules about torques share: every torque a fastener is tightened to, with the bolt it turns.
 */
import { type Entry, fastenerFacts, type Slot, type Stage, slotIn } from "../facts";
import { holds, type Range } from "../mechanics/range";
import { tighteningFor } from "../mechanics/tightening";
import { type Slip, slippedDecimal } from "../mechanics/tightening-slips";
import { type Machine, type Place, placeAt, type Thing } from "../model";
import { makeAmount } from "../units/amount";
import { formatAmount } from "../units/format";
import { unitById } from "../units/lookup";
import type { Quantity } from "../units/quantity";
import { toSi } from "../units/unit";
import { adjusts, boltIn, clampsMetal, type KnownBolt, torqueRange } from "../walk/bolts";

/** One torque that a bolt is tightened to. */
export interface BoltTorque {
  readonly bolt: KnownBolt;
  readonly quantity: Quantity;
  /** Newton metres. */
  readonly torque: Range;
  /** Of the figure as it is written. */
  readonly place: Place;
  /** Whether the bolt is left with it: the last of the torques, and no angle comes after it. */
  readonly last: boolean;
}

/** The torques of a fastener whose thread is known. */
export function torquesOf(thing: Thing, machine: Machine | null): readonly BoltTorque[] {
  if (thing.kind !== "fastener") return [];
  const bolt = boltIn(thing, (name) => machine?.things.find((t) => t.name === name));
  if (bolt === null) return [];
  const { stages } = fastenerFacts(thing.entry);
  const slots = stageSlots(thing.entry);
  return stages.flatMap((stage, index) => {
    const torque = stage.kind === "torque" && stage.value ? torqueRange(stage.value) : null;
    const slot = slots[index];
    if (torque === null || stage.value === null || !slot) return [];
    const place = placeAt(thing.file, thing.line, slot.at);
    const last = stages.slice(index + 1).every(({ kind }: Stage) => kind === "by-feel" || kind === "unsaid");
    return [{ bolt, quantity: stage.value, torque, place, last }];
  });
}

/** Where each stage has its figure; in the order of the stages. */
export const stageSlots = (entry: Entry): readonly (Slot | undefined)[] =>
  entry.details
    .filter(({ clause }) => clause === "stage" || clause === "tighten-to")
    .map((detail) => slotIn(detail, "value"));

/** Whether a small torque here would be a slip: metal, of a class that is said, left with it, and nothing that is adjusted. */
export const shouldClamp = ({ bolt, last }: BoltTorque): boolean =>
  last && bolt.boltClass !== null && clampsMetal(bolt.facts) && !adjusts(bolt.facts);

/** The decimal that has slipped, where that is decided. A torque with two ends has slipped where both have, the same way. */
export function slipOf(one: BoltTorque): Slip | null {
  const { low, high } = one.torque;
  const slip = slippedDecimal(one.bolt.said, low);
  if (slip === null || slippedDecimal(one.bolt.said, high)?.slip !== slip.slip) return null;
  return slip.slip === "ten-times-too-much" || shouldClamp(one) ? slip : null;
}

/** Units that are taken for one another, by id. */
const TAKEN_FOR: Readonly<Record<string, readonly string[]>> = {
  N·m: ["lb·ft", "lb·in"],
  N·cm: ["N·m"],
  lb·ft: ["lb·in", "N·m"],
  lb·in: ["lb·ft", "N·m"],
  kgf·m: ["kgf·cm", "N·m"],
  kgf·cm: ["kgf·m", "N·m"],
};

/** The same figure in the unit in which it would be a usual torque for the bolt; null where there is none, or its strength is not known. */
export function figureInOtherUnit({ bolt, quantity }: BoltTorque): string | null {
  const usual = tighteningFor(bolt.bolt)?.torque;
  const figure = (quantity.nominal ?? quantity.high ?? quantity.low)?.decimal;
  if (!usual || !figure) return null;
  const units = (TAKEN_FOR[quantity.unit.id] ?? []).flatMap((id) => unitById(id) ?? []);
  const unit = units.find((one) => holds(usual, toSi(figure.value, one)));
  return unit ? formatAmount(makeAmount(figure, unit), { plain: true }) : null;
}
