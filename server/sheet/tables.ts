/**
 * Makes the sheet's tables: columns with their words, rows with their cells; an empty table becomes nothing.
 */
import { type Language, type SheetWord, say } from "../phrases/sheet";
import { base } from "./atoms";
import type { Item } from "./blocks";
import type { Atom, Column, Heading, Node, Table } from "./nodes";

type ColumnPlan = readonly [word: SheetWord, width: number, align?: Column["align"]];

/** What a table is to have: its name, its columns (word, share of the width), its rows. */
export interface TablePlan {
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

/** A table from its plan. */
export function table(language: Language, plan: TablePlan): Table {
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
export function listed(language: Language, item: Item, plan: Omit<TablePlan, "id">): Node[] {
  if (plan.rows.length === 0) return [];
  const kept = plan.columns.map((_, index) => plan.rows.some((row) => (row.cells[index] ?? []).length > 0));
  const columns = plan.columns.filter((_, index) => kept[index]);
  const rows = plan.rows.map((row) => ({ ...row, cells: row.cells.filter((_, index) => kept[index]) }));
  const rowHead = plan.rowHead === -1 ? -1 : kept.slice(0, plan.rowHead ?? 0).filter(Boolean).length;
  return [
    listHeading(language, item, plan.head),
    table(language, { ...plan, id: item.id, columns, rows, rowHead }),
  ];
}

/** A row of a table, one cell a column. */
export function row(item: Item, ...cells: (readonly Atom[])[]): Table["rows"][number] {
  return { ...base(item), cells };
}
