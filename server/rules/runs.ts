/**
 * What the rules about lines share: each act that leads a line through clips, with the run that the machine declares.
 */
import { namesIn, runFacts } from "../facts";
import type { Place, Procedure, Thing } from "../model";
import { type ActAt, actsOf } from "./look";

/** A line led through clips. */
export interface LedThrough {
  readonly at: ActAt;
  readonly line: Thing;
  /** The clips that the machine declares, in order. */
  readonly declared: readonly string[];
  readonly led: readonly { readonly name: string; readonly place: Place }[];
}

/** Every `run` of a procedure whose line has clips; one with a clip that is not known proves nothing. */
export function ledThrough(procedure: Procedure): readonly LedThrough[] {
  return actsOf(procedure).flatMap((at): LedThrough[] => {
    const name = at.act.verb === "run" ? namesIn(at.entry.form, "what")[0]?.name : undefined;
    const line = name === undefined ? undefined : procedure.find(name, ["line"]);
    if (!line || line.doubtful) return [];
    const declared = runFacts(line.entry).through.map((n) => n.name);
    const led = namesIn(at.entry.form, "clips").map((n) => ({ name: n.name, place: at.place(n.at) }));
    const known = [...declared, ...led.map((l) => l.name)].every((n) => procedure.find(n, ["clip", "part"]));
    return declared.length > 0 && known ? [{ at, line, declared, led }] : [];
  });
}
