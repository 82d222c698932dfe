/**
 * Walks through small texts, and what they found as lines: code, thing, the line of the text it is reported at, the way.
 */
import { followProcedure, placeOf, type Walk, type WalkFault } from "../../server/walk";
import { projectOf } from "../support/project";

/** The walk through the only procedure of some texts. Throws where there is none, or one that cannot be followed. */
export function walkThrough(texts: Readonly<Record<string, string>>): Walk {
  const procedures = [...projectOf(texts).files.values()].flatMap((file) => file.procedures);
  const procedure = procedures[0];
  if (!procedure || procedure.doubtful) throw new Error("the text has no procedure that can be followed");
  return followProcedure(procedure);
}

/** What a walk found wrong, cautions included, as `code thing [state] @ line: way`. */
export function faultsIn(texts: Readonly<Record<string, string>>): string[] {
  const walk = walkThrough(texts);
  const lines = new Map(Object.entries(texts).map(([path, text]) => [path, text.split("\n")]));
  const said = (fault: WalkFault): string => {
    const point = walk.graph.points[fault.point];
    const shown = point?.kind === "end" ? (walk.graph.points[fault.since] ?? point) : point;
    const place = shown && placeOf(shown);
    const line = place ? (lines.get(place.file)?.[place.line] ?? "").trim() : "";
    const what = [fault.code, fault.thing.name, fault.state].filter((word) => word !== "").join(" ");
    return `${what} @ ${line}${fault.way.length > 0 ? `: ${fault.way.join(", then ")}` : ""}`;
  };
  return [...walk.faults, ...walk.tellings([]).untold.map((u) => ({ ...u, state: u.hazard.hazard }))]
    .map(said)
    .sort();
}

/** A text with one stretch of it put otherwise. Throws unless the stretch stands there once. */
export function changed(text: string, from: string, to: string): string {
  if (text.split(from).length !== 2) throw new Error(`not there once: ${from}`);
  return text.replace(from, () => to);
}
