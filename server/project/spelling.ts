/**
 * How the printer spells units: the table of units brought to the grammar, which does not know it.
 */
import type { SpellUnit } from "../../grammar";
import { findUnit } from "../units/lookup";

/** A unit as the usual form spells it, and whether it stands against its figure; undefined for what is no unit. */
export const spellUnit: SpellUnit = (unit) => findUnit(unit);
