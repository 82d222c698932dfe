/**
 * How the printer spells units: the table of units brought to the grammar, which does not know it.
 */
import { findUnit } from "../units/lookup";

/** A unit as the usual form spells it, and whether it stands against its figure; undefined for what is no unit. */
export function spellUnit(unit: string): { readonly print: string; readonly tight: boolean } | undefined {
  return findUnit(unit);
}
