/** An order that does not go the way its own words say: crosswise, from the middle out, from the ends in. */
import { fastenerFacts, type OrderMethod } from "../facts";
import type { Place } from "../model";
import { keeps, orderOf } from "../walk/orders";
import { type GivenOrder, holesPlace, ordersAtActs, ordersOfFastener } from "./orders-said";
import { titleOf, twins } from "./say";
import type { Fault, Page, ProcedureRule, ThingRule } from "./types";

const PAGE: Page = {
  code: "order-not-crosswise",
  severity: "warning",
  group: "fasteners",
  messages: {
    crosswise: "“{title}” are said to go crosswise, and this order goes on beside the bolt just turned.",
    "from-middle":
      "“{title}” are said to go from the middle out, and this order turns an outer bolt before an inner one.",
    "from-ends":
      "“{title}” are said to go from the ends in, and this order turns an inner bolt before an outer one.",
    hint: "For example “order {order}”; or leave out “{method}” if the maker gives this order.",
    holes: "The holes are said here.",
  },
  docs: {
    what: "A method and an order are both given, and the order does not keep to the method. Crosswise is told on a circle, from the middle out in a row; elsewhere where the centres of the holes are said.",
    why: "A part drawn down on one side first is bent, and leaks there.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    layout  circle  holes 1 to 6
    crosswise
    order   1, 2, 3, 4, 5, 6
    tighten 22 N·m
  }
}
`,
      "1, 2, 3, 4, 5, 6\n",
      "1, 4, 2, 5, 3, 6\n",
    ),
  },
};

export const orderNotCrosswise: ThingRule = {
  ...PAGE,
  grain: "thing",
  check(thing, report) {
    for (const given of ordersOfFastener(thing)) tell(given, report);
  },
};

export const orderNotCrosswiseAtAct: ProcedureRule = {
  ...PAGE,
  grain: "procedure",
  check(procedure, report) {
    for (const given of ordersAtActs(procedure)) tell(given, report);
  },
};

const WORDS: Readonly<Record<NonNullable<OrderMethod>, string>> = {
  crosswise: "crosswise",
  "from-middle": "from the middle out",
  "from-ends": "from the ends in",
};

function tell({ fastener, order, methods, place }: GivenOrder, report: (fault: Fault<Place>) => void): void {
  const facts = fastenerFacts(fastener.entry);
  const broken = methods.find((method) => keeps(facts, { method, order }) === false) ?? null;
  if (broken === null) return;
  const example = orderOf(facts, { method: broken, order: [] });
  report({
    place,
    message: broken,
    hint: "hint",
    args: { title: titleOf(fastener), method: WORDS[broken], order: example.join(", ") },
    related: [{ place: holesPlace(fastener), message: "holes" }],
  });
}
