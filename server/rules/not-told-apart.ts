/** Two things that can be mistaken for each other are off at once, and neither is labelled. */
import { alikeReported } from "./alike";
import { twins } from "./say";
import type { ProcedureRule } from "./types";

export const notToldApart: ProcedureRule = {
  code: "not-told-apart",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” comes off here while “{other}” is off, and nothing tells the two apart.",
    hint: 'Label one of them before it comes off: “label {name} "…"”.',
    fix: "Label {name} before it comes off",
    said: "That they are alike is said here.",
  },
  docs: {
    what: "Two parts or lines that the machine says are like each other are off at the same time, and none of them was labelled before.",
    why: "Two plugs that fit both sockets are put back the wrong way round once in two.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  connector plug-a "Plug of the motor"
  connector plug-b "Plug of the brake"  like plug-a
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    disconnect plug-a
    disconnect plug-b
    connect plug-a, plug-b
  }
}
`,
      "    disconnect plug-a\n",
      '    label plug-a "M"\n    disconnect plug-a\n',
    ),
  },
  check: alikeReported("not-told-apart"),
};
