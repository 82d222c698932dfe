/** A fastener that is put in or slackened and never tightened to the end. */
import type { Place } from "../model";
import { placeOf } from "../walk";
import { type Due, rightingActs } from "./righting";
import { titleOf, twins } from "./say";
import type { Fault, Fix, ProcedureRule } from "./types";
import { below, type Faulty, faultsOf, indentOf } from "./walked";
import { addedLines, workablePlace } from "./workable";

/** The messages by the state a fastener is left in; any other state is a stage it was tightened to. */
const BY_STATE: Readonly<Record<string, string>> = { "by hand": "main", placed: "placed", loose: "loose" };

export const fingerTightLeft: ProcedureRule = {
  code: "finger-tight-left",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” is fitted by hand here and never tightened.",
    placed: "“{title}” is fitted here and never tightened.",
    loose: "“{title}” is loosened here and never tightened again.",
    stage: "“{title}” is tightened to “{stage}” here and no further.",
    begins: "“{title}” is loose when the job begins and never tightened.",
    tighten: "Tighten it: “tighten {name}”.",
    fix: "Add “tighten {name}”",
    declared: "“{title}” is declared here.",
  },
  docs: {
    what: "At the end of the job a fastener is finger-tight, loose, or at a stage that is not its last.",
    why: "A bolt that was only started comes out on the road, and takes its part with it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  fastener cover-bolts "Cover bolts"  secures cover  tighten 22 N·m
}

procedure look "Look at the gears" {
  on winch
  tool wrench "Torque wrench"  5 to 50 N·m
  step "Take off" {
    remove cover-bolts, cover
  }
  step "Put back" {
    fit cover
    fit cover-bolts  by hand
  }
}
`,
      "    fit cover-bolts  by hand\n",
      "    fit cover-bolts  by hand\n    tighten cover-bolts  with wrench\n",
    ),
  },
  check(procedure, report, sight) {
    for (const faulty of faultsOf("finger-tight-left", procedure, sight)) {
      const { fault, since } = faulty;
      const { thing, state, way } = fault;
      const args = { title: titleOf(thing), name: thing.name, stage: state };
      const message = since ? (BY_STATE[state] ?? "stage") : "begins";
      const found: Fault<Place> = {
        place: since ? placeOf(since) : procedure.thing.place,
        message,
        hint: "tighten",
        args,
        way,
      };
      report({
        ...found,
        related: [{ place: thing.place, message: "declared", args }],
        fixes: fixesOf(faulty),
      });
    }
  },
};

/** Tightened with its stages and tools: right below where it is put in, a slackened one where the work on it is done. */
function fixesOf({ fault, walk, since }: Faulty): Fix<Place>[] {
  const { thing, state } = fault;
  const kind = state in BY_STATE ? (state as "by hand" | "placed" | "loose") : "at a stage";
  const due: Due = { thing, differences: [{ kind, stage: state }], since: fault.since };
  const lines = rightingActs(walk.procedure, walk, due).flatMap((act) => act.lines);
  const title = { id: "fix", args: { name: thing.name } };
  const place = since && kind !== "loose" && kind !== "at a stage" ? below(since) : null;
  const workable = place && since ? { place, indent: indentOf(since.spot.entry) } : null;
  return addedLines(workable ?? workablePlace(walk, thing, "tighten", fault.since), title, lines);
}
