/**
 * Parts of which the kit has a new one only in one case: there the new one goes in, otherwise the old one.
 */
import type { Procedure, Thing } from "../model";
import { kitThings } from "../rules/kit";
import { type Guarded, opposed } from "./refit-guards";

/** The lines that fit a thing, by the case in which the kit has a new one; where they say `new` already, as they are. */
export function renewed(
  procedure: Procedure,
  thing: Thing,
  lines: readonly string[],
): Guarded<readonly string[]> {
  const [item, ...others] = kitThings(procedure).filter((kit) => kit.thing === thing);
  const only = item?.item.onlyIf;
  const old = `fit ${thing.name}`;
  const isOld = (line: string): boolean => line === old || line.startsWith(`${old} `);
  if (!only || !lines.some(isOld)) return { leaf: lines };
  const fresh = lines.map((line) =>
    isOld(line) ? line.replace(old, `fit new ${thing.name}`).replace("  in own place", "") : line,
  );
  // Several, each in another case, are one for every case.
  if (others.length > 0) return { leaf: fresh };
  return { condition: opposed(only.name.name, only.outcome), yes: { leaf: fresh }, no: { leaf: lines } };
}
