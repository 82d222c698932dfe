/** A new part fitted that the kit does not have. */

import { fastenerFacts, headerOf, partFacts } from "../facts";
import type { Procedure, Thing } from "../model";
import {
  type Fitting,
  fittingsOf,
  groupedBy,
  type KitThing,
  keeps,
  kitThings,
  numberOf,
  removalsOf,
} from "./kit";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const kitItemMissing: ProcedureRule = {
  code: "kit-item-missing",
  severity: "warning",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    main: "A new “{title}” is fitted, and the kit has none.",
    hint: "Add it to the kit: “item {name} 1”.",
    sometimes: "A new “{title}” is always fitted, and the kit has it only sometimes.",
    "sometimes-hint": "Take the condition off the kit’s item, or fit the new one under the same condition.",
    item: "The kit has it here, under a condition.",
    short: "The machine has {number} of “{title}”, and the kit {have}.",
    "short-hint":
      "Write “item {name} {number}”, or 1 for the whole set; if fewer are renewed, say which in words.",
    fitted: "They are fitted new here.",
  },
  docs: {
    what: "An act fits a new part that is no kit item, or is one only under a condition, or of which the kit has more than one but fewer than the machine.",
    why: "The fitter stands before an open machine and the part is not in the box.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part seal "Drum seal"
  part ring "Ring"
}

procedure reseal "Renew the drum seal" {
  on winch
  kit "K-1" {
    item ring 1
  }
  step "Renew" {
    remove seal, ring  discard
    fit new ring
    fit new seal
  }
}
`,
      "    item ring 1\n",
      "    item ring 1\n    item seal 1\n",
    ),
  },
  check(procedure, report) {
    const kit = groupedBy(kitThings(procedure), (k) => k.thing);
    for (const fitting of fittingsOf(procedure)) {
      const { thing, at, place } = fitting;
      const args = { title: titleOf(thing), name: thing.name };
      if (at.act.age !== "new") continue;
      const items = kit.get(thing) ?? [];
      const sometimes = items.find(isConditional);
      const [have, number] = [items.reduce((sum, k) => sum + k.item.count, 0), numberOf(thing)];
      const [item] = items;
      if (item && have > 1 && have < number && !items.some(isConditional))
        report({
          place: item.place,
          message: "short",
          args: { ...args, number: `${number}`, have: `${have}` },
          related: [{ place, message: "fitted" }],
        });
      if (items.length === 0) {
        // A kept one may be new still; not where one that came off was thrown away.
        const removals = removalsOf(procedure, thing);
        const discards = removals.some(({ act }) => act.discard || act.verb === "throw-away");
        if (discards || !removals.some(keeps)) report({ place, args });
      } else if (sometimes && items.every(isConditional) && isAlways(procedure, fitting, items)) {
        report({ place, message: "sometimes", args, related: [{ place: sometimes.place, message: "item" }] });
      }
    }
  },
};

const isConditional = ({ item }: KitThing): boolean => item.onlyIf !== null || item.onlyOn.length > 0;

/** Whether an act stands under no condition at all, while all items of its thing stand under one and the same. */
function isAlways(procedure: Procedure, { at, thing }: Fitting, items: readonly KitThing[]): boolean {
  const conditional = at.blocks.some(({ entry }) => CONDITIONAL.has(entry.construct));
  if (conditional || onlyOnVariants(thing) || new Set(items.map(conditionOf)).size > 1) return false;
  // A procedure for some machines only may be for just those the item is for.
  const { variants, serials } = headerOf(procedure.thing.entry);
  return items.every((k) => k.item.onlyOn.length === 0) || (variants.length === 0 && serials.length === 0);
}

const CONDITIONAL: ReadonlySet<string> = new Set(["when", "otherwise", "if"]);

function conditionOf({ item }: KitThing): string {
  return [item.onlyIf?.name.name, item.onlyIf?.outcome, ...item.onlyOn.map((v) => v.name).sort()].join(" ");
}

function onlyOnVariants(thing: Thing): boolean {
  return (thing.kind === "fastener" ? fastenerFacts(thing.entry) : partFacts(thing.entry)).onlyOn.length > 0;
}
