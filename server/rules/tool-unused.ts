/** A tool on the list that no line takes up. */
import { hasBadFigure } from "./figures";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const toolUnused: ProcedureRule = {
  code: "tool-unused",
  severity: "warning",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    main: "“{title}” is on the tool list, and no line says what it is for.",
    hint: "Say it where it is used: “with {name}”; or take the line out.",
  },
  docs: {
    what: "A tool is declared and no act, check or other tool names it.",
    why: "The fitter fetches, or buys, a tool that the job does not need; or a line forgot to say what it needs.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure wash "Wash the drum" {
  on winch
  tool brush "Brush"
  step "Wash" {
    clean drum
  }
}
`,
      "    clean drum\n",
      "    clean drum  with brush\n",
    ),
  },
  check(procedure, report) {
    if (hasBadFigure(procedure.thing.entry)) return;
    const named = new Set(procedure.bindings.map((b) => b.thing));
    for (const tool of procedure.things) {
      if (tool.kind === "tool" && !named.has(tool))
        report({ place: tool.place, args: { title: titleOf(tool), name: tool.name } });
    }
  },
};
