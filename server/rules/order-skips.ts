/** An order of tightening or loosening that leaves a hole out, or names one that is none. */
import { fastenerFacts } from "../facts";
import type { Place } from "../model";
import { faultsIn, type GivenOrder, holesPlace, ordersAtActs, ordersOfFastener } from "./orders-said";
import { listed, titleOf, twins } from "./say";
import type { Fault, Page, ProcedureRule, ThingRule } from "./types";

const PAGE: Page = {
  code: "order-skips",
  severity: "error",
  group: "fasteners",
  messages: {
    one: "The order leaves out hole {holes} of “{title}”.",
    several: "The order leaves out holes {holes} of “{title}”.",
    unknown: "The order names {made}, and “{title}” has no such hole.",
    hint: "Name each of the {count} holes once.",
    holes: "The holes are said here.",
  },
  docs: {
    what: "An order names not all holes of its fastener, or one that it does not have. At an act that loosens or removes it is a warning: some may be left on purpose.",
    why: "Whoever follows the numbers leaves that bolt loose.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    layout  circle  holes 1 to 6
    order   1, 4, 2, 6, 3
    tighten 22 N·m
  }
}
`,
      "1, 4, 2, 6, 3\n",
      "1, 4, 2, 5, 3, 6\n",
    ),
  },
};

export const orderSkips: ThingRule = {
  ...PAGE,
  grain: "thing",
  check(thing, report) {
    for (const given of ordersOfFastener(thing)) tell(given, report);
  },
};

export const orderSkipsAtAct: ProcedureRule = {
  ...PAGE,
  grain: "procedure",
  check(procedure, report) {
    for (const given of ordersAtActs(procedure)) tell(given, report);
  },
};

function tell(given: GivenOrder, report: (fault: Fault<Place>) => void): void {
  const faults = faultsIn(given);
  if (!faults || faults.skipped.length + faults.unknown.length === 0) return;
  const { fastener, place, tightens } = given;
  const message = faults.unknown.length > 0 ? "unknown" : faults.skipped.length === 1 ? "one" : "several";
  report({
    place,
    message,
    hint: "hint",
    severity: tightens || faults.unknown.length > 0 ? "error" : "warning",
    args: {
      title: titleOf(fastener),
      holes: listed(faults.skipped.map(String), "and"),
      made: listed(faults.unknown.map(String), "and"),
      count: String(fastenerFacts(fastener.entry).count),
    },
    related: [{ place: holesPlace(fastener), message: "holes" }],
  });
}
