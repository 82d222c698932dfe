/** A tool used where the procedure rules it out. */
import { toolFacts } from "../facts";
import type { Procedure, Thing } from "../model";
import { type ActAt, actsOf, thingsNamed } from "./look";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const forbiddenToolUsed: ProcedureRule = {
  code: "forbidden-tool-used",
  severity: "error",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    main: "“{tool}” is used on “{title}”, where it is ruled out.",
    hint: "Say another tool, or take the “never” out.",
    instead: "“{other}” may be taken for “{tool}”, and is ruled out on “{title}”.",
    never: "It is ruled out here.",
  },
  docs: {
    what: "An act names a tool that this act, or another of the same kind on the same thing, says must never be used; or one that such a tool may stand in for.",
    why: "The fitter takes the tool that stands in the line. Two lines that say the opposite are worse than none.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener hub-bolt "Hub bolt"  tighten by feel "It seats."
}

procedure settle "Tighten the hub again" {
  on winch
  tool impact-wrench "Impact wrench"  impact
  tool spanner "Spanner"
  notice damage {
    "Blows of an impact wrench crack the part."
    can "Ruin the part."
    so "Tighten by hand."
  }
  step "Tighten" {
    tighten hub-bolt  with impact-wrench  never impact-wrench
  }
}
`,
      "with impact-wrench  never",
      "with spanner  never",
    ),
  },
  check(procedure, report) {
    const acts = actsOf(procedure);
    const rulings = acts.flatMap((at) =>
      thingsNamed(procedure, at.act.never, ["tool"]).map((never) => ({
        at,
        tool: never.thing,
        place: at.place(never.at),
      })),
    );
    for (const ruling of rulings) {
      for (const at of acts.filter((a) => a === ruling.at || sameWork(a, ruling.at))) {
        const title = titleOf(procedure.find(shared(at, ruling.at) ?? "") ?? ruling.tool);
        for (const { thing, at: said } of toolsOf(procedure, at)) {
          const stands =
            thing === ruling.tool ? "main" : mayBe(procedure, thing, ruling.tool) ? "instead" : null;
          const args = { tool: titleOf(thing), other: titleOf(ruling.tool), title };
          if (stands)
            report({
              place: at.place(said),
              message: stands,
              hint: "hint",
              args,
              related: [{ place: ruling.place, message: "never" }],
            });
        }
      }
    }
  },
};

/** The first thing that two acts have in common. */
function shared(a: ActAt, b: ActAt): string | undefined {
  return a.act.what.find((w) => b.act.what.some((other) => other.name === w.name))?.name;
}

const sameWork = (a: ActAt, b: ActAt): boolean => a.act.verb === b.act.verb && shared(a, b) !== undefined;

function toolsOf(procedure: Procedure, { act }: ActAt) {
  return thingsNamed(
    procedure,
    [...act.tools, ...act.holdingWith, ...act.stages.flatMap((s) => s.tools)],
    ["tool"],
  );
}

/** Whether the one tool's line says that the other will do as well. */
function mayBe(procedure: Procedure, tool: Thing, other: Thing): boolean {
  return thingsNamed(procedure, toolFacts(tool.entry).alternative, ["tool"]).some((t) => t.thing === other);
}
