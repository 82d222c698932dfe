/** A procedure whose end no way comes to. */
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const noWayToEnd: ProcedureRule = {
  code: "no-way-to-end",
  severity: "error",
  group: "the way through",
  grain: "procedure",
  messages: {
    main: "No way comes to the end of “{title}”.",
    hint: "Every way ends with “end job” or goes round: leave one that goes on to the last line.",
  },
  docs: {
    what: "Whatever a check shows and whichever condition holds, the job ends unfinished or goes round without end.",
    why: "A job that cannot be finished is not one.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure look "Look at the drum" {
  on winch
  check play "Play of the drum" {
    limit 0.1 to 0.2 mm
    proves drum
    if met {
      end job "Nothing to do."
    }
    if not met {
      end job "Renew the drum."
    }
  }
}
`,
      '      end job "Nothing to do."\n',
      "      go on\n",
    ),
  },
  check(procedure, report, sight) {
    const { graph, reach } = sight.walk(procedure);
    // That it goes round without end is told where it goes back.
    const isEndless = graph.points.some((point) => point.kind === "return" && point.bound === null);
    if (isEndless || reach().ends) return;
    report({ place: procedure.thing.place, args: { title: titleOf(procedure.thing) } });
  },
};
