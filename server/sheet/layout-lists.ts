/**
 * Lays out what the job needs: tools, parts, consumables, fluids, temporary items, tightening values.
 */
import { type Language, say } from "../phrases/sheet";
import { dual, LINE_BREAK, plain, quantity, runs, stage, stepNumbers, strong, text, tick } from "./atoms";
import type { Consumables, Fluids, Item, Parts, Ref, Temporaries, TighteningTable, Tools } from "./blocks";
import type { Atom, Node } from "./nodes";
import { listed, row } from "./tables";

function ready(language: Language, item: Item, name: readonly Atom[]): Atom[] {
  return [tick(`${item.id}.box`, `${say(language, "column.got")}: ${plain(name)}`)];
}

export function tools(language: Language, block: Tools): Node[] {
  return listed(language, block, {
    head: "head.tools",
    columns: [
      ["column.got", 1.3, "centre"],
      ["column.tool", 4],
      ["column.range", 4],
      ["column.note", 4],
      ["column.steps", 2.2],
    ],
    rowHead: 1,
    rows: block.rows.map((item) =>
      row(
        item,
        ready(language, item, runs(item.name)),
        runs(item.name),
        dual(item.range),
        runs(item.note),
        stepNumbers(item.at),
      ),
    ),
  });
}

export function parts(language: Language, block: Parts): Node[] {
  const nodes = listed(language, block, {
    head: "head.parts",
    columns: [
      ["column.got", 1.3, "centre"],
      ["column.use", 2.7],
      ["column.part", 3.8],
      ["column.number", 2.2],
      ["column.quantity", 1.3, "centre"],
      ["column.note", 3.3],
    ],
    rowHead: 2,
    rows: block.rows.map((item) =>
      row(
        item,
        item.use === "new" ? ready(language, item, runs(item.name)) : [],
        [strong(say(language, `use.${item.use}`))],
        runs(item.name),
        item.number === undefined ? [] : [quantity(item.number)],
        [text(item.quantity)],
        runs(item.note),
      ),
    ),
  });
  if (block.kit === undefined) return nodes;
  const kit = say(language, "kit-named", { kit: block.kit });
  return nodes.map((node) => (node.kind === "heading" ? { ...node, text: `${node.text} · ${kit}` } : node));
}

export function consumables(language: Language, block: Consumables): Node[] {
  return listed(language, block, {
    head: "head.consumables",
    columns: [
      ["column.got", 1.3, "centre"],
      ["column.consumable", 3.6],
      ["column.grade", 2.8],
      ["column.open-time", 1.8],
      ["column.cure", 2.5],
      ["column.note", 3.6],
      ["column.steps", 1.6],
    ],
    rowHead: 1,
    rows: block.rows.map((item) =>
      row(
        item,
        ready(language, item, runs(item.name)),
        runs(item.name),
        runs(item.grade),
        item.openTime === undefined ? [] : [quantity(item.openTime)],
        item.cure === undefined ? [] : [quantity(item.cure)],
        runs(item.note),
        stepNumbers(item.at),
      ),
    ),
  });
}

export function fluids(language: Language, block: Fluids): Node[] {
  return listed(language, block, {
    head: "head.fluids",
    columns: [
      ["column.fluid", 3],
      ["column.amount", 3.4],
      ["column.grade", 3],
      ["column.drained", 3],
      ["column.note", 3],
      ["column.steps", 1.6],
    ],
    rows: block.rows.map((item) =>
      row(
        item,
        runs(item.name),
        dual(item.amount),
        runs(item.grade),
        item.drained === undefined ? [] : [text(say(language, `drained.${item.drained}`))],
        runs(item.note),
        stepNumbers(item.at),
      ),
    ),
  });
}

/** Each use of a temporary item is a line with a box for going in and, on the same line, one for coming out. */
export function temporaries(language: Language, block: Temporaries): Node[] {
  return listed(language, block, {
    head: "head.temporaries",
    columns: [
      ["column.item", 4],
      ["column.place", 4],
      ["column.in", 2.6],
      ["column.out", 2.6],
    ],
    rows: block.rows.map((item) => {
      const boxes = (way: "in" | "out") =>
        item.uses.flatMap((use, index): Atom[] => [
          ...(index > 0 ? [LINE_BREAK] : []),
          ...insertion(language, item, use[way], way, index),
        ]);
      return row(item, runs(item.name), runs(item.place), boxes("in"), boxes("out"));
    }),
  });
}

/** A box and the step at which a temporary item goes in or comes out, or the word that it is left as it is. */
function insertion(
  language: Language,
  item: Temporaries["rows"][number],
  at: Ref | undefined,
  way: "in" | "out",
  index: number,
): Atom[] {
  if (at === undefined) return [text(say(language, `temporary.${way}`))];
  const name = `${plain(runs(item.name))}: ${say(language, `column.${way}`)} ${index + 1}`;
  return [
    tick(`${item.id}.${way}${index + 1}`, name),
    { kind: "ref", text: say(language, "step", { number: at.number }), to: at.id },
  ];
}

export function tightening(language: Language, block: TighteningTable): Node[] {
  return listed(language, block, {
    head: "head.tightening",
    columns: [
      ["column.fastener", 3.4],
      ["column.count", 1.3, "centre"],
      ["column.state", 2.3],
      ["column.value", 4.5],
      ["column.order", 2.1],
      ["column.note", 2.8],
      ["column.steps", 1.5],
    ],
    rows: block.rows.map((item) =>
      row(
        item,
        [
          ...runs(item.name),
          ...(item.thread === undefined ? [] : [LINE_BREAK, quantity(item.thread)]),
          ...(item.leftHand
            ? [LINE_BREAK, { kind: "badge", text: say(language, "left-hand"), look: "solid" } as const]
            : []),
        ],
        [text(item.count)],
        runs(item.state),
        item.stages.flatMap((each, index) => [...(index > 0 ? [LINE_BREAK] : []), ...stage(language, each)]),
        runs(item.order),
        item.renew === "always" ? [strong(say(language, "renew-always"))] : runs(item.renew),
        stepNumbers(item.at),
      ),
    ),
  });
}
