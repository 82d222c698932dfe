/** A fastener called left-hand without being said to be so. */
import { fastenerFacts } from "../facts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

export const leftHandUnsaid: ThingRule = {
  code: "left-hand-unsaid",
  severity: "warning",
  group: "fasteners",
  grain: "thing",
  messages: {
    main: "“{title}” is called left-hand, and nothing says so where it counts.",
    hint: "Write “left-hand” in the fastener: the sheet then says LH wherever it is turned.",
  },
  docs: {
    what: "The title of a fastener says that its thread is left-hand, and the fastener has no `left-hand`.",
    why: "The sheet says LH at the act only where it knows; without it the fitter shears the bolt off.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener hub-nut "Left-hand hub nut"  tighten by feel "It seats."
}

procedure look "Look at the winch" {
  on winch
  step "Off and on" {
    loosen hub-nut
    tighten hub-nut
  }
}
`,
      '  fastener hub-nut "Left-hand hub nut"  tighten',
      '  fastener hub-nut "Left-hand hub nut"  left-hand  tighten',
    ),
  },
  check(thing, report) {
    if (thing.kind !== "fastener") return;
    const { leftHand } = fastenerFacts(thing.entry);
    if (leftHand || !CALLED.test(thing.title)) return;
    report({ place: thing.place, args: { title: titleOf(thing) } });
  },
};

/** How a left-hand thread is called in a title; “left-hand” alone is also a side, so a thread or nut must follow. */
const CALLED = /\bleft-hand(ed)?\b.*\b(thread|nut|bolt|screw)|\bLH (thread|nut|bolt|screw)/i;
