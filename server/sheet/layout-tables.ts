/**
 * Lays out what is needed before the work and kept after it: lists of tools, parts and fluids, temporaries,
 * tightening, values, record, sign-off, revisions. Each becomes a table; an empty one becomes nothing.
 */
import { type Language, type SheetWord, say } from "../phrases/sheet";
import {
  base,
  cell,
  dual,
  LINE_BREAK,
  plain,
  quantity,
  runs,
  stage,
  stepNumbers,
  strong,
  text,
  tick,
} from "./atoms";
import type {
  Applicability,
  Consumables,
  Fluids,
  Item,
  JobRecord,
  Parts,
  RecordedValues,
  Revisions,
  Safety,
  SignOff,
  Temporaries,
  TighteningTable,
  Tools,
} from "./blocks";
import type { Atom, Column, Heading, Line, Node, Table } from "./nodes";

type ColumnPlan = readonly [word: SheetWord, width: number, align?: Column["align"]];

interface TablePlan {
  readonly id: string;
  readonly head: SheetWord;
  readonly columns: readonly ColumnPlan[];
  readonly rowHead?: number;
  readonly tall?: boolean;
  readonly rows: Table["rows"];
}

/** The heading of a list. */
export function listHeading(language: Language, item: Item, head: SheetWord, level: 2 | 3 = 2): Heading {
  return { kind: "heading", ...base(item), level, text: say(language, head), look: "list" };
}

function table(language: Language, plan: TablePlan): Table {
  return {
    kind: "table",
    id: `${plan.id}.table`,
    changed: false,
    name: say(language, plan.head),
    columns: plan.columns.map(([word, width, align]) => ({
      head: say(language, word),
      width,
      align: align ?? "left",
    })),
    rowHead: plan.rowHead ?? 0,
    tall: plan.tall ?? false,
    rows: plan.rows,
  };
}

/** A heading with its table; nothing when the table has no rows. Columns that are empty in every row are left out. */
function listed(language: Language, item: Item, plan: Omit<TablePlan, "id">): Node[] {
  if (plan.rows.length === 0) return [];
  const kept = plan.columns.map((_, index) => plan.rows.some((row) => (row.cells[index] ?? []).length > 0));
  const columns = plan.columns.filter((_, index) => kept[index]);
  const rows = plan.rows.map((row) => ({ ...row, cells: row.cells.filter((_, index) => kept[index]) }));
  const rowHead = kept.slice(0, plan.rowHead ?? 0).filter(Boolean).length;
  return [
    listHeading(language, item, plan.head),
    table(language, { ...plan, id: item.id, columns, rows, rowHead }),
  ];
}

function row(item: Item, ...cells: (readonly Atom[])[]): Table["rows"][number] {
  return { ...base(item), cells };
}

/** The questions that are answered once, each answer with its box. */
export function applicability(language: Language, block: Applicability): Node[] {
  const rows = block.questions.map((question) =>
    row(
      question,
      [
        ...runs(question.question),
        ...(question.write === undefined
          ? []
          : [
              LINE_BREAK,
              text(`${question.write} `),
              { ...cell(`${question.id}.write`, question.write), size: "medium" as const },
            ]),
      ],
      question.answers.flatMap((answer, index) => {
        const label =
          typeof answer.answer === "string" ? say(language, `answer.${answer.answer}`) : answer.answer.text;
        const box = tick(`${question.id}.box${index + 1}`, `${plain(runs(question.question))} ${label}`, label);
        const then = answer.then === "stop" ? [strong(say(language, "answer.stop"))] : runs(answer.then);
        return [
          ...(index > 0 ? [LINE_BREAK] : []),
          box,
          ...(then.length > 0 ? [text(" → "), ...then] : []),
        ];
      }),
    ),
  );
  return listed(language, block, {
    head: "head.applicability",
    columns: [
      ["column.question", 5],
      ["column.answer", 4],
    ],
    rows,
  });
}

/** Protective equipment, heavy parts, and what the panels of the sheet warn of. */
export function safety(language: Language, block: Safety): Node[] {
  const part = (head: SheetWord, plan: Omit<TablePlan, "id" | "head">): Node[] =>
    plan.rows.length === 0
      ? []
      : [
          listHeading(language, { id: `${block.id}.${head}` }, head, 3),
          table(language, { ...plan, head, id: `${block.id}.${head}` }),
        ];
  const equipment = block.equipment.map(
    (item): Line => ({
      kind: "line",
      ...base(item),
      look: "bullet",
      mark: "",
      atoms: [tick(`${item.id}.box`, plain(runs(item.text))), text(" "), ...runs(item.text)],
    }),
  );
  const body: Node[] = [
    ...(equipment.length === 0
      ? []
      : [listHeading(language, { id: `${block.id}.equipment` }, "safety.equipment", 3), ...equipment]),
    ...part("safety.heavy", {
      columns: [
        ["column.part", 4],
        ["column.weight", 2],
        ["column.how", 5],
      ],
      rows: block.heavy.map((item) => row(item, runs(item.part), dual(item.weight), runs(item.how))),
    }),
    ...part("safety.hazards", {
      columns: [
        ["column.signal", 2.4],
        ["column.hazard", 7],
        ["column.steps", 1.6],
      ],
      rowHead: 1,
      rows: block.hazards.map((item) =>
        row(item, [strong(say(language, `signal.${item.signal}`))], runs(item.text), stepNumbers(item.at)),
      ),
    }),
  ];
  return body.length === 0 ? [] : [listHeading(language, block, "head.safety"), ...body];
}

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
  const kit: Node[] =
    block.kit === undefined || block.rows.length === 0
      ? []
      : [
          {
            kind: "line",
            id: `${block.id}.kit`,
            changed: false,
            look: "prose",
            mark: "",
            atoms: [strong(say(language, "kit-named", { kit: block.kit }))],
          },
        ];
  const [heading, ...rest] = listed(language, block, {
    head: "head.parts",
    columns: [
      ["column.got", 1.3, "centre"],
      ["column.use", 1.8],
      ["column.part", 4.2],
      ["column.number", 2.6],
      ["column.quantity", 1.1, "centre"],
      ["column.note", 3.6],
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
  return heading === undefined ? [] : [heading, ...kit, ...rest];
}

export function consumables(language: Language, block: Consumables): Node[] {
  return listed(language, block, {
    head: "head.consumables",
    columns: [
      ["column.got", 1.3, "centre"],
      ["column.consumable", 4],
      ["column.grade", 3],
      ["column.open-time", 2.2],
      ["column.cure", 2.2],
      ["column.steps", 2],
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
          tick(
            `${item.id}.${way}${index + 1}`,
            `${plain(runs(item.name))}: ${say(language, `column.${way}`)} ${index + 1}`,
          ),
          text(" "),
          { kind: "ref", text: say(language, "step", { number: use[way].number }), to: use[way].id },
        ]);
      return row(item, runs(item.name), runs(item.place), boxes("in"), boxes("out"));
    }),
  });
}

export function tightening(language: Language, block: TighteningTable): Node[] {
  return listed(language, block, {
    head: "head.tightening",
    columns: [
      ["column.fastener", 3.6],
      ["column.count", 1, "centre"],
      ["column.state", 2.4],
      ["column.value", 4.6],
      ["column.order", 2.2],
      ["column.note", 2],
      ["column.steps", 1.3],
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
        item.stages.flatMap((each, index) => [
          ...(index > 0 ? [LINE_BREAK] : []),
          ...stage(language, each),
        ]),
        runs(item.order),
        item.renew === "always" ? [strong(say(language, "renew-always"))] : runs(item.renew),
        stepNumbers(item.at),
      ),
    ),
  });
}

export function recordedValues(language: Language, block: RecordedValues): Node[] {
  return listed(language, block, {
    head: "head.values",
    columns: [
      ["column.what", 4],
      ["column.steps", 1.4],
      ["column.limit", 3],
      ["column.measured", 5],
    ],
    tall: true,
    rows: block.rows.map((item) =>
      row(
        item,
        runs(item.name),
        stepNumbers([item.at]),
        runs(item.limit),
        item.places.flatMap((place, index): Atom[] => [
          ...(index > 0 ? [text("  ")] : []),
          ...(place === "" ? [] : [text(`${place} `)]),
          {
            kind: "field",
            id: `${item.id}.value${index + 1}`,
            name: `${plain(runs(item.name))} ${place}`.trim(),
            size: "short",
            input: "text",
            unit: item.unit ?? "",
            copies: `${item.measure}.value${index + 1}`,
          },
        ]),
      ),
    ),
  });
}

export function jobRecord(language: Language, block: JobRecord): Node[] {
  return listed(language, block, {
    head: "head.record",
    columns: [
      ["column.field", 4],
      ["column.entry", 6],
    ],
    tall: true,
    rows: block.fields.map((item) => {
      const name = `${say(language, `record.${item.field}`)}${item.of === undefined ? "" : ` (${item.of})`}`;
      return row(
        item,
        [text(name)],
        [cell(`${item.id}.entry`, name, item.field === "calibrated-until" ? "date" : "text")],
      );
    }),
  });
}

export function signOff(language: Language, block: SignOff): Node[] {
  return listed(language, block, {
    head: "head.sign-off",
    columns: [
      ["column.role", 3],
      ["column.name", 4],
      ["column.signature", 4],
      ["column.date", 2.4],
    ],
    tall: true,
    rows: block.rows.map((item) => {
      const role = say(language, `role.${item.role}`);
      const write = (part: "name" | "signature" | "date") =>
        cell(`${item.id}.${part}`, `${role}: ${say(language, `column.${part}`)}`, part === "date" ? "date" : "text");
      return row(item, [text(role)], [write("name")], [write("signature")], [write("date")]);
    }),
  });
}

export function revisions(language: Language, block: Revisions): Node[] {
  return listed(language, block, {
    head: "head.revisions",
    columns: [
      ["column.revision", 1.4],
      ["column.date", 2],
      ["column.reason", 8],
    ],
    rows: block.rows.map((item) =>
      row(item, [strong(item.name)], item.date === undefined ? [] : [quantity(item.date)], runs(item.reason)),
    ),
  });
}
