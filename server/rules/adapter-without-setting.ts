/** An adapter on a torque wrench, and nothing that says what the wrench is then set to. */
import { titleOf, twins } from "./say";
import {
  isAdapter,
  isTorqueWrench,
  type SaidTool,
  saidTools,
  shareUnder,
  tighteningsOf,
} from "./tightenings";
import type { ProcedureRule } from "./types";

export const adapterWithoutSetting: ProcedureRule = {
  code: "adapter-without-setting",
  severity: "warning",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    main: "“{tool}” lengthens the wrench’s lever, and nothing says by how much.",
    hint: "Say how far it reaches and how long the wrench is (in-line 50 mm wrench 400 mm, or angled 50 mm at 45° wrench 400 mm), or that it sits at right angle.",
    figures: "From the reach of “{tool}” and the length of its wrench no setting can be worked out.",
    "figures-hint":
      "Say both as lengths over nought: from the square to the bolt, and from the square to the middle of the grip.",
    angled:
      "From the reach of “{tool}”, its angle and the length of its wrench no setting can be worked out.",
    "angled-hint":
      "Say reach and wrench as lengths over nought, and the angle as one figure: 0° in line, 90° across, at most 180° back.",
    alone: "“{tool}” is used without a torque wrench.",
    "alone-hint": "Say the wrench it sits on as well: “with {name}, torque-wrench”.",
    declared: "“{tool}” is declared here.",
  },
  docs: {
    what: "An open-ended adapter sits on a torque wrench without its reach and the wrench’s length; or an adapter is used without a torque wrench.",
    why: "In line it lengthens the lever: the bolt gets more torque than the wrench is set to, often a sixth more.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener pipe-nut "Pipe nut"  tighten 40 N·m
}

procedure settle "Tighten the pipe again" {
  on winch
  tool wrench "Torque wrench"  10 to 60 N·m
  tool crowfoot "Crowfoot spanner"
  step "Tighten" {
    tighten pipe-nut  with wrench, crowfoot
  }
}
`,
      `"Crowfoot spanner"`,
      `"Crowfoot spanner"  in-line 50 mm wrench 400 mm`,
    ),
  },
  check(procedure, report) {
    for (const tightening of tighteningsOf(procedure)) {
      if (tightening.stage.kind !== "torque") continue;
      const tools = saidTools(tightening);
      const tell = (tool: SaidTool, message: string): void => {
        const args = { tool: titleOf(tool.thing), name: tool.thing.name };
        report({
          place: tool.place,
          message,
          args,
          related: [{ place: tool.thing.place, message: "declared", args }],
        });
      };
      for (const tool of tools)
        if (tool.facts.adapter && shareUnder(tool) === null)
          tell(tool, tool.facts.adapter.angle === "in-line" ? "figures" : "angled");
      if (tools.some(isTorqueWrench)) for (const tool of tools.filter(unsaid)) tell(tool, "main");
      else for (const tool of tools.filter(isAdapter)) tell(tool, "alone");
    }
  },
};

/** An adapter by its name or title that is not declared to be one; a plain extension in the axis changes nothing. */
function unsaid(tool: SaidTool): boolean {
  return (
    !isAdapter(tool) &&
    !isTorqueWrench(tool) &&
    /crow[’' -]?s?[ -]?foot/i.test(`${tool.thing.name} ${tool.thing.title}`)
  );
}
