/** Fasteners that can be mistaken for each other are out at once. */
import { alikeReported } from "./alike";
import { twins } from "./say";
import type { ProcedureRule } from "./types";

export const longAndShortMixed: ProcedureRule = {
  code: "long-and-short-mixed",
  severity: "error",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "“{title}” comes out here while “{other}” is out, and nothing tells the two apart.",
    hint: 'Label one of them before it comes out: “label {name} "…"”.',
    fix: "Label {name} before it comes out",
    said: "That they are alike is said here.",
  },
  docs: {
    what: "Two groups of fasteners that the machine says are like each other are out at once, and none of them was labelled before.",
    why: "A bolt that is too long strikes the bottom of its hole and clamps nothing; one too short tears the thread.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener long-bolts "Long bolts"  tighten by feel "They seat."
  fastener short-bolts "Short bolts"  like long-bolts  tighten by feel "They seat."
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    remove long-bolts
    remove short-bolts
    fit long-bolts, short-bolts
    tighten long-bolts, short-bolts
  }
}
`,
      "    remove long-bolts\n",
      '    label long-bolts "L"\n    remove long-bolts\n',
    ),
  },
  check: alikeReported("long-and-short-mixed"),
};
