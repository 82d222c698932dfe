/** An order of tightening or loosening that names a hole more than once. */
import type { Place } from "../model";
import { faultsIn, type GivenOrder, holesPlace, ordersAtActs, ordersOfFastener } from "./orders-said";
import { listed, titleOf, twins } from "./say";
import type { Fault, Page, ProcedureRule, ThingRule } from "./types";

const PAGE: Page = {
  code: "order-repeats",
  severity: "warning",
  group: "fasteners",
  messages: {
    one: "The order names hole {holes} of “{title}” more than once.",
    several: "The order names holes {holes} of “{title}” more than once.",
    hint: "Name each hole once; say a second round as a stage of its own.",
    holes: "The holes are said here.",
  },
  docs: {
    what: "An order names a hole of its fastener more than once.",
    why: "One number too many is usually another one missing; and with an angle the same bolt is turned twice.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    layout  circle  holes 1 to 4
    order   1, 3, 2, 4, 1
    tighten 22 N·m
  }
}
`,
      "1, 3, 2, 4, 1\n",
      "1, 3, 2, 4\n",
    ),
  },
};

export const orderRepeats: ThingRule = {
  ...PAGE,
  grain: "thing",
  check(thing, report) {
    for (const given of ordersOfFastener(thing)) tell(given, report);
  },
};

export const orderRepeatsAtAct: ProcedureRule = {
  ...PAGE,
  grain: "procedure",
  check(procedure, report) {
    for (const given of ordersAtActs(procedure)) tell(given, report);
  },
};

function tell(given: GivenOrder, report: (fault: Fault<Place>) => void): void {
  const repeated = faultsIn(given)?.repeated ?? [];
  if (repeated.length === 0) return;
  report({
    place: given.place,
    message: repeated.length === 1 ? "one" : "several",
    hint: "hint",
    args: { title: titleOf(given.fastener), holes: listed(repeated.map(String), "and") },
    related: [{ place: holesPlace(given.fastener), message: "holes" }],
  });
}
