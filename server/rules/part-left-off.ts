/** A part that comes off, or a fastener that comes out, and is not back when the job ends. */
import type { Place } from "../model";
import { actRow, placeOf, standsAt } from "../walk";
import { kitThings } from "./kit";
import { type Due, rightingActs } from "./righting";
import { inWorkingOrder } from "./righting-order";
import { titleOf, twins } from "./say";
import type { Fix, ProcedureRule } from "./types";
import { type Faulty, faultsOf } from "./walked";
import { addedLines, workablePlace } from "./workable";

export const partLeftOff: ProcedureRule = {
  code: "part-left-off",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” comes off here and is still off at the end of the job.",
    hint: "Write where it goes back on, “fit {name}”, or what is left so: “off {bare}” under “ends with”.",
    out: "“{title}” comes out here and is still out at the end of the job.",
    "out-hint": "Write where it goes back in: “fit {name}”.",
    begins: "“{title}” is off when the job begins and still off at its end.",
    "begins-hint":
      "Write where it goes on, “fit {name}”, or what is left so: “off {bare}” under “ends with”.",
    declared: "“{title}” is declared here.",
    fix: "Add “fit {name}” where it can be done",
  },
  docs: {
    what: "A part or fastener is off at the end of the job, on every way through it or on some.",
    why: "What lies on the bench when the machine runs is missing in the machine.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
}

procedure look "Look at the gears" {
  on winch
  step "Take off" {
    remove cover
  }
  step "Put back" {
  }
}
`,
      '  step "Put back" {\n',
      '  step "Put back" {\n    fit cover\n',
    ),
  },
  check(procedure, report, sight) {
    const renewed = new Set(kitThings(procedure).map((k) => k.thing));
    for (const faulty of faultsOf("part-left-off", procedure, sight)) {
      const { fault, since } = faulty;
      const { thing, way } = fault;
      const name = renewed.has(thing) ? `new ${thing.name}` : thing.name;
      const args = { title: titleOf(thing), name, bare: thing.name };
      const related = [{ place: thing.place, message: "declared", args }];
      const fixes = fixesOf(faulty, name);
      if (!since) report({ place: procedure.thing.place, message: "begins", args, way, related, fixes });
      else if (thing.kind === "fastener")
        report({ place: placeOf(since), message: "out", args, way, related, fixes });
      else report({ place: placeOf(since), args, way, related, fixes });
    }
  },
};

/**
 * The part goes on, with what secured it and is out as well. Where it goes back on some ways already, another line would
 * be wrong on those: nothing is offered.
 */
function fixesOf({ fault, walk }: Faulty, name: string): Fix<Place>[] {
  const { thing, since, way } = fault;
  if (way.length > 0 && isPutBack(walk, thing, since)) return [];
  const end = walk.graph.points.length - 1;
  const fasteners = thing.kind === "fastener" ? [] : walk.relations.fastenersOf(thing);
  const dues = [thing, ...fasteners].flatMap((one): Due[] => {
    const stand = standsAt(walk, one, end).find((s) => s.differences.some((d) => d.owed));
    return stand
      ? [{ thing: one, differences: stand.differences.filter((d) => d.owed), since: stand.since }]
      : [];
  });
  const acts = inWorkingOrder(
    walk,
    dues.flatMap((due) => rightingActs(walk.procedure, walk, due)),
  );
  return addedLines(
    workablePlace(walk, thing, "fit", since),
    { id: "fix", args: { name } },
    acts.flatMap((act) => act.lines),
  );
}

function isPutBack({ graph }: Faulty["walk"], thing: Due["thing"], since: number): boolean {
  return graph.points.some(
    (p, at) => at > since && p.kind === "act" && p.thing === thing && actRow(p.verb).ends === "off",
  );
}
