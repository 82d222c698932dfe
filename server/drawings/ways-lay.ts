/**
 * Where the pieces of a drawing of the ways go: rows from top to bottom in a column; beside a question each answer that
 * leads away, with what is done on it in the next column; at the right edge lanes that lead back up or on down to where
 * ways join. No piece has another in its rows, so that nothing can lie over anything. Millimetres, y down.
 */
import type { Point } from "../mechanics/belts";
import { CIRCLE, type Connector, type Exit, type Line, laneLines } from "./ways-lanes";
import type { WaysBranch, WaysRow } from "./ways-rows";
import { type Block, blockOf, LABEL_LINE, labelOf } from "./ways-text";

/** The width of the drawing: a column of an A4 or Letter page. */
export const WIDE = 170;

/** A shape with its text. */
export interface Shape extends Block {
  readonly kind: "run" | "question" | "end" | "begin";
  readonly x: number;
  readonly y: number;
}

/** Words beside a line: the left end of their lowest line. */
export interface Label {
  readonly at: Point;
  readonly width: number;
  readonly lines: readonly string[];
}

/** One drawing of the ways. */
export interface WaysPage {
  readonly rows: readonly WaysRow[];
  readonly shapes: readonly Shape[];
  readonly labels: readonly Label[];
  readonly lines: readonly Line[];
  readonly connectors: readonly Connector[];
  readonly height: number;
  /** Whether it goes on from the one before, and in the one after. */
  readonly from: boolean;
  readonly on: boolean;
}

interface Column {
  readonly x: number;
  readonly width: number;
}

interface Sheet {
  readonly columns: readonly Column[];
  readonly shapes: Shape[];
  readonly labels: Label[];
  readonly lines: Line[];
  readonly exits: Exit[];
  /** Where ways come into a row or join after a question: on the middle of its column. */
  readonly joins: Map<string, Point>;
  /** Rows to which some way leads, and questions after which some answer joins again. */
  readonly wanted: ReadonlySet<string>;
}

/** Wider than this a column is not, even if it is alone. */
const WIDEST = 96;
const GAP = 4.6;
const JOIN = 2.4;
const BESIDE = 4;
/** From the question to the line down along which its answers lead away. */
const BUS = 4;

/** How many columns of answers there are beside the first. */
export function depthOf(rows: readonly WaysRow[]): number {
  return Math.max(
    0,
    ...rows.flatMap((row) =>
      row.kind === "question" ? row.branches.map((branch) => 1 + depthOf(branch.rows)) : [],
    ),
  );
}

/** Columns of the same width, with room for lanes at their right. */
function columnsFor(depth: number, room: number): readonly Column[] {
  const gaps = depth * (BUS + BESIDE);
  const width = Math.min(WIDEST, (WIDE - 1 - gaps - room) / (depth + 1));
  return Array.from({ length: depth + 1 }, (_, i) => ({ x: 0.5 + i * (width + BUS + BESIDE), width }));
}

/** All rows, and which of them some way leads to: a row by its id, or what comes after a question. */
export interface All {
  readonly rows: readonly WaysRow[];
  readonly wanted: ReadonlySet<string>;
}

/** Lays some of all rows on one drawing: again with more room at the right until its lanes have enough. */
export function pageOf(all: All, first: number, last: number): WaysPage {
  const depth = depthOf(all.rows.slice(first, last));
  let { page, room } = pageWith(all, first, last, columnsFor(depth, 0));
  for (let given = 0; room > given; ) {
    given = room;
    ({ page, room } = pageWith(all, first, last, columnsFor(depth, given)));
  }
  return page;
}

function pageWith(
  { rows: all, wanted }: All,
  first: number,
  last: number,
  columns: readonly Column[],
): { readonly page: WaysPage; readonly room: number } {
  const rows = all.slice(first, last);
  const sheet: Sheet = {
    columns,
    shapes: [],
    labels: [],
    lines: [],
    exits: [],
    joins: new Map(),
    wanted,
  };
  const from = first > 0;
  const { bottom, open, x } = layRows(sheet, rows, 0, from ? 6 : 1, from);
  const on = last < all.length;
  if (on && open)
    sheet.lines.push({
      points: [
        { x, y: bottom },
        { x, y: bottom + 4 },
      ],
      arrow: true,
    });
  const { joins, exits, shapes, labels } = sheet;
  const lanes = laneLines(exits, joins, laneStart(columns));
  const lines = [...sheet.lines, ...lanes.lines];
  const height = bottom + (on ? 9 : 1);
  return {
    page: { rows, shapes, labels, lines, connectors: lanes.connectors, height, from, on },
    room: lanes.room,
  };
}

const laneStart = (columns: readonly Column[]): number => {
  const last = columns.at(-1) as Column;
  return last.x + last.width;
};

/** Where a column of rows ends: its lowest y, the x of its line, and whether a way goes on from there. */
interface End {
  readonly bottom: number;
  readonly x: number;
  readonly open: boolean;
}

/** Lays rows in a column, one under the other, from `top`. `open`: whether a way comes in from above. */
function layRows(sheet: Sheet, rows: readonly WaysRow[], depth: number, top: number, open: boolean): End {
  const { x: left, width } = sheet.columns[depth] as Column;
  const x = left + width / 2;
  let end: End = { bottom: top, x, open };
  rows.forEach((row, index) => {
    const isWanted = sheet.wanted.has(row.id);
    // The first row of an answer has the answer's own line above it.
    const isFirst = index === 0 && (depth > 0 || !open);
    const y = isFirst ? end.bottom : end.bottom + GAP + (isWanted ? JOIN : 0);
    const join = { x, y: isFirst ? y - 1.4 : y - GAP + 1.4 };
    if (isWanted) sheet.joins.set(row.id, join);
    if (!isFirst && (end.open || isWanted))
      sheet.lines.push({ points: [end.open ? { x, y: end.bottom } : join, { x, y }], arrow: true });
    end = layRow(sheet, row, depth, y);
  });
  return end;
}

function layRow(sheet: Sheet, row: WaysRow, depth: number, y: number): End {
  const column = sheet.columns[depth] as Column;
  const block = blockOf(row, column.width);
  const x = column.x + column.width / 2;
  const shape: Shape = { ...block, kind: row.kind === "lead" ? "run" : row.kind, x: x - block.width / 2, y };
  sheet.shapes.push(shape);
  const bottom = y + block.height;
  if (row.kind === "lead") {
    sheet.exits.push({
      from: { x: shape.x + shape.width, y: y + block.height / 2 },
      to: row.to,
      number: row.number,
    });
    return { bottom, x, open: false };
  }
  if (row.kind !== "question") return { bottom, x, open: row.kind !== "end" };
  return layAnswers(sheet, row, depth, shape);
}

/** Lays the answers of a question beside it, each under the one before, and joins those that go on under them all. */
function layAnswers(
  sheet: Sheet,
  row: Extract<WaysRow, { kind: "question" }>,
  depth: number,
  shape: Shape,
): End {
  const column = sheet.columns[depth] as Column;
  const x = column.x + column.width / 2;
  const bus = column.x + column.width + BUS / 2;
  const right = { x: shape.x + shape.width, y: shape.y + shape.height / 2 };
  let bottom = shape.y - 2;
  row.branches.forEach((branch, index) => {
    const from = { bus, right, bottom, least: index === 0 ? right.y : 0 };
    bottom = layAnswer(sheet, row, branch, depth + 1, from);
  });
  const straight = shape.y + shape.height;
  let under = straight;
  if (row.straight !== null) {
    const label = labelOf(row.straight, column.width / 2 - 2);
    const height = label.lines.length * LABEL_LINE;
    sheet.labels.push({ ...label, at: { x: x + 1.5, y: straight + 0.8 + height } });
    under += 1.2 + height;
  }
  const joins = sheet.wanted.has(`after ${row.id}`);
  const end = Math.max(bottom, under) + (joins ? JOIN : 0);
  if (joins) sheet.joins.set(`after ${row.id}`, { x, y: end });
  if (row.straight !== null)
    sheet.lines.push({
      points: [
        { x, y: straight },
        { x, y: end },
      ],
      arrow: false,
    });
  return { bottom: end, x, open: joins || row.straight !== null };
}

/** Lays one answer, and returns the lowest y that it takes. */
function layAnswer(
  sheet: Sheet,
  row: Extract<WaysRow, { kind: "question" }>,
  branch: WaysBranch,
  depth: number,
  from: { readonly bus: number; readonly right: Point; readonly bottom: number; readonly least: number },
): number {
  const column = sheet.columns[depth] as Column;
  const x = column.x + column.width / 2;
  const { bus, right } = from;
  const label = labelOf(branch.label, column.width);
  const height = label.lines.length * LABEL_LINE;
  const y = Math.max(from.bottom + 2.5 + height, from.least);
  sheet.labels.push({ ...label, at: { x: bus + 1.2, y: y - 0.9 } });
  const top = y + 3;
  sheet.lines.push({
    points: [right, { x: bus, y: right.y }, { x: bus, y }, { x, y }, { x, y: top }],
    arrow: true,
  });
  const end = layRows(sheet, branch.rows, depth, top, false);
  const { leads } = branch;
  if (leads.kind === "end" || !end.open) return end.bottom;
  const to = leads.kind === "on" ? `after ${row.id}` : leads.to;
  const number = leads.kind === "on" ? "" : leads.number;
  const last = branch.rows.at(-1);
  if (last?.kind === "run") {
    const shape = sheet.shapes.at(-1) as Shape;
    sheet.exits.push({ from: { x: shape.x + shape.width, y: shape.y + shape.height / 2 }, to, number });
    return end.bottom;
  }
  // Beside a question at the end stand its own answers: the way leaves under it, where there is room for a circle.
  const room = leads.kind === "to" ? CIRCLE + 0.3 : 2;
  const under = end.bottom + room;
  sheet.lines.push({
    points: [
      { x, y: end.bottom },
      { x, y: under },
    ],
    arrow: false,
  });
  sheet.exits.push({ from: { x, y: under }, to, number });
  return leads.kind === "to" ? under + room : under;
}
