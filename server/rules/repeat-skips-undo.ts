/** A return leads over acts that cannot be done once more, and nothing undoes them first. */
import type { Thing } from "../model";
import { actRow, DEPARTURES, type Point, placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const repeatSkipsUndo: ProcedureRule = {
  code: "repeat-skips-undo",
  severity: "error",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "The job goes back to a line that cannot be done a second time: “{title}” {state}.",
    hint: "Going back undoes nothing. Write before it what has to be undone: {undo}.",
    again: "This line comes once more.",
    since: "It is so since here.",
  },
  docs: {
    what: "A `repeat` or `check again` leads back over acts that take off, fit, open or connect something, and what they did before is not undone first.",
    why: "On the second round the fitter stands before a line that cannot be done.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
}

procedure look "Look at the winch" {
  on winch
  step open "Take off" {
    remove cover
  }
  step shut "Put back" {
    fit cover
  }
  check runs "It runs" {
    observe "Does the drum run freely?"
    if no {
      repeat from shut  at most 1 time
    }
    if still no {
      end job "Ask the maker."
    }
  }
}
`,
      "      repeat from shut  at most 1 time\n",
      "      remove cover\n      repeat from shut  at most 1 time\n",
    ),
  },
  check(procedure, report, sight) {
    const said = new Set<number>();
    for (const { fault, point, since, walk } of faultsOf("repeat-skips-undo", procedure, sight)) {
      const back = walk.graph.points[fault.back];
      if (!back || said.has(fault.back)) continue;
      said.add(fault.back);
      const { thing } = fault;
      const [state, undo] = undoingOf(since, thing);
      const related = [
        { place: placeOf(point), message: "again" },
        ...(since && since !== point ? [{ place: placeOf(since), message: "since" }] : []),
      ];
      report({ place: placeOf(back), args: { title: titleOf(thing), state, undo }, way: fault.way, related });
    }
  },
};

/** How a thing stands after an act, in words, and what undoes that. */
function undoingOf(since: Point | null, { kind, name }: Thing): readonly [state: string, undo: string] {
  if (since?.kind !== "act") return ["stands so already", `what puts “${name}” back`];
  const row = actRow(since.verb);
  const departure = row.makes ?? row.ends;
  if (row.ends === "off" || row.fastener === "placed" || row.fastener === "tightened")
    return [kind === "fastener" ? "is in" : "is on", `“remove ${name}”`];
  if (row.makes === "off" || row.fastener === "out")
    return [kind === "fastener" ? "is out" : "is off", `“fit ${name}”`];
  const said = departure ? DEPARTURES[departure].said : "so";
  return row.makes
    ? [`is ${said}`, `what undoes “${since.verb} ${name}”`]
    : [`is not ${said}`, `what undoes “${since.verb} ${name}”`];
}
