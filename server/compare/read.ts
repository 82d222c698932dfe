/**
 * Reads a project, and its settings, as the nodes of one side of a comparison.
 */
import { type Child, type Detail, type Entry, type Slot, slotIn } from "../facts";
import type { FileModel, Project, Thing } from "../model";
import { stepOf } from "../units/amount";
import { formatQuantity } from "../units/format";
import { type Quantity, shapeSaid } from "../units/quantity";
import {
  FILE,
  PROJECT,
  PROSE,
  type QuantityValue,
  SETTING,
  SETTINGS,
  type SlotForm,
  UNREAD,
  type Value,
} from "./form";
import type { Lines, Meant, Node, Piece, Side } from "./node";

/** A project as it is compared. */
export interface Given {
  readonly project: Project;
  /** The settings, flat: by key, each with its value as text; null where a folder's settings are not compared. */
  readonly settings: GivenSettings | null;
  /** The name by which a file is told from others, where it is not its path. */
  readonly nameOf?: (file: string) => string;
}

/** The settings of a project: the usual ones where it has no file. */
export interface GivenSettings {
  readonly file: string;
  readonly values: Readonly<Record<string, string>>;
  /** The text of the file; null where there is none. */
  readonly text: string | null;
}

/** A node that is being made. */
type Draft = { -readonly [K in keyof Node]: Node[K] } & { children: Node[] };

interface Reader {
  readonly nodes: Draft[];
  readonly byThing: Map<Thing, Node>;
}

/** Where a file's names lead, by line and column. */
interface Names {
  readonly file: FileModel;
  readonly meant: ReadonlyMap<string, Thing | null>;
  readonly declared: ReadonlyMap<string, Thing>;
}

/** Reads one side. */
export function readSide({ project, settings, nameOf = (file) => file }: Given): Side {
  const reader: Reader = { nodes: [], byThing: new Map() };
  const nowhere: Lines = { file: "", line: 0, endLine: 0 };
  const root = add(reader, null, { kind: PROJECT, place: nowhere });
  const files = [...project.files.values()].map((file) => ({ file, name: nameOf(file.path) }));
  for (const { file, name } of files.sort((a, b) => (a.name < b.name ? -1 : 1)))
    readFile(reader, root, file, name);
  if (settings) readSettings(reader, root, settings);
  for (const node of [...reader.nodes].reverse())
    node.size = 1 + node.children.reduce((sum, child) => sum + child.size, 0);
  return { root, nodes: reader.nodes, byThing: reader.byThing, files: project.files };
}

function add(
  reader: Reader,
  parent: Draft | null,
  given: Partial<Node> & Pick<Node, "kind" | "place">,
): Draft {
  const node: Draft = {
    words: [],
    slots: [],
    written: "",
    column: 0,
    pieces: [],
    thing: null,
    meant: [],
    size: 1,
    ...given,
    number: reader.nodes.length,
    parent,
    children: [],
  };
  reader.nodes.push(node);
  parent?.children.push(node);
  if (node.thing) reader.byThing.set(node.thing, node);
  return node;
}

const text = (role: string, said: string): SlotForm => ({ role, value: { kind: "text", text: said } });

function readSettings(reader: Reader, root: Draft, { file, values, text: whole }: GivenSettings): void {
  const place = { file, line: 0, endLine: 0 };
  const node = add(reader, root, {
    kind: SETTINGS,
    slots: [text("path", file)],
    place,
    written: whole ?? "",
  });
  for (const key of Object.keys(values).sort()) {
    const slots = [text("key", key), text("value", values[key] ?? "")];
    add(reader, node, { kind: SETTING, slots, place, pieces: [{ text: key }] });
  }
}

const placeKey = (line: number, start: number): string => `${line}:${start}`;

function readFile(reader: Reader, root: Draft, file: FileModel, name: string): void {
  const place = { file: file.path, line: 0, endLine: Math.max(0, file.document.lines.length - 1) };
  const node = add(reader, root, { kind: FILE, slots: [text("path", name)], place });
  const names: Names = {
    file,
    meant: new Map(file.bindings.map((b) => [placeKey(b.place.line, b.place.start), b.thing])),
    declared: new Map(file.things.map((t) => [placeKey(t.place.line, t.place.start), t])),
  };
  for (const { row, entry } of file.entries) readEntry(reader, names, node, entry, row);
}

function readEntry(reader: Reader, names: Names, parent: Draft, entry: Entry, line: number): void {
  const place = { file: names.file.path, line, endLine: line + entry.lineCount - 1 };
  if (entry.construct === "" || !entry.line) {
    const said = (entry.line?.text ?? "")
      .trim()
      .replace(/\s+/g, " ")
      .replace(/\s*\{$/, "");
    const node = add(reader, parent, {
      kind: UNREAD,
      slots: [text("text", said)],
      place,
      written: said,
      pieces: [{ text: said }],
    });
    readInside(reader, names, node, entry, line);
    return;
  }
  const kind = entry.construct === "clause" ? `clause:${entry.form.clause}` : entry.construct;
  const node = add(reader, parent, { kind, ...saidBy(names, entry.form, line), place });
  readInside(reader, names, node, entry, line);
}

function readInside(reader: Reader, names: Names, node: Draft, entry: Entry, line: number): void {
  const sorted = [...entry.details].sort((a, b) =>
    a.clause === b.clause ? 0 : a.clause < b.clause ? -1 : 1,
  );
  for (const detail of sorted) readDetail(reader, names, node, detail, line);
  const items: (Child | Entry["paragraphs"][number])[] = [...entry.children, ...entry.paragraphs];
  for (const item of items.sort((a, b) => a.row - b.row)) {
    const at = line + item.row;
    if ("entry" in item) readEntry(reader, names, node, item.entry, at);
    else {
      const place = { file: names.file.path, line: at, endLine: at + item.rows - 1 };
      const said = item.text;
      add(reader, node, {
        kind: PROSE,
        slots: [text("text", said)],
        place,
        written: said,
        pieces: [{ text: said }],
      });
    }
  }
}

function readDetail(reader: Reader, names: Names, parent: Draft, detail: Detail, line: number): void {
  const at = line + detail.at.row;
  const place = { file: names.file.path, line: at, endLine: at };
  const column = detail.at.span.start;
  const node = add(reader, parent, {
    kind: `+${detail.clause}`,
    ...saidBy(names, detail, line),
    place,
    column,
  });
  const sorted = [...detail.details].sort((a, b) =>
    a.clause === b.clause ? 0 : a.clause < b.clause ? -1 : 1,
  );
  for (const other of sorted) readDetail(reader, names, node, other, line);
}

function saidBy(
  names: Names,
  detail: Detail,
  line: number,
): Pick<Node, "words" | "slots" | "written" | "pieces" | "thing" | "meant"> {
  const at = line + detail.at.row;
  const source = names.file.document.lines[at]?.text ?? "";
  const meant = detail.slots.flatMap((slot) =>
    slot.names.map(
      (one): Meant => ({ name: one.name, thing: names.meant.get(placeKey(at, one.at.span.start)) ?? null }),
    ),
  );
  return {
    words: detail.words,
    slots: detail.slots.map((slot) => ({ role: slot.role, value: valueIn(slot, source) })),
    written: source.slice(detail.at.span.start, detail.at.span.end).trim(),
    pieces: piecesOf(names, detail, at, source),
    thing: declaredBy(names, detail, at),
    meant,
  };
}

/** What a form declares: told by its name, or by its title where it has none. */
function declaredBy(names: Names, detail: Detail, line: number): Thing | null {
  for (const role of ["name", "face", "title"]) {
    const slot = slotIn(detail, role);
    const start = slot?.names[0]?.at.span.start ?? slot?.at.span.start;
    const thing = start === undefined ? undefined : names.declared.get(placeKey(line, start));
    if (thing) return thing;
  }
  return null;
}

function valueIn(slot: Slot, source: string): Value {
  if (slot.quantity) return quantityValue(slot.quantity);
  if (slot.point && slot.problems.length === 0)
    return { kind: "point", at: slot.point.map((one) => one && quantityValue(one)) };
  if (slot.problems.length > 0)
    return {
      kind: "quantity",
      text: source.slice(slot.at.span.start, slot.at.span.end).replace(/\s+/g, " "),
      shape: UNREAD,
      low: null,
      high: null,
      nominal: null,
      ends: [true, true],
      step: 0,
      system: "",
    };
  if (slot.names.length > 0) return { kind: "names", names: slot.names.map((one) => one.name) };
  if (slot.holes.length > 0) return { kind: "holes", holes: slot.holes };
  if (slot.count !== null) return { kind: "count", count: slot.count };
  return { kind: "text", text: slot.text };
}

function quantityValue(quantity: Quantity): QuantityValue {
  const { shape, low, high, nominal, lowIncluded, highIncluded } = quantity;
  const figures = [low, high, nominal].filter((figure) => figure !== null);
  return {
    kind: "quantity",
    text: formatQuantity(quantity, { plain: true }),
    shape: shapeSaid(quantity),
    low: (low ?? (shape === "about" ? nominal : null))?.si ?? null,
    high: (high ?? (shape === "about" ? nominal : null))?.si ?? null,
    nominal: nominal?.si ?? null,
    ends: [lowIncluded, highIncluded],
    step: Math.max(0, ...figures.map(stepOf)),
    system: quantity.unit.system,
  };
}

/** The line's words, its names replaced by the titles of what they mean. */
function piecesOf(names: Names, detail: Detail, line: number, source: string): Piece[] {
  const pieces: Piece[] = [];
  let at = detail.at.span.start;
  const say = (to: number): void => {
    const words = source.slice(at, to).replace(/\s+/g, " ");
    if (words !== "") pieces.push({ text: words });
    at = to;
  };
  for (const slot of detail.slots) {
    if (slot.quantity || (slot.point && slot.problems.length === 0)) {
      say(slot.at.span.start);
      const value = valueIn(slot, source);
      if (value.kind === "quantity") pieces.push({ text: value.text });
      else if (value.kind === "point")
        pieces.push({ text: value.at.map((one) => one?.text ?? "").join(", ") });
      at = slot.at.span.end;
    }
    for (const { name, at: where } of slot.names) {
      const thing = names.meant.get(placeKey(line, where.span.start));
      if (!thing) continue;
      say(where.span.start);
      pieces.push({ name, title: thing.title || name.replaceAll("-", " ") });
      at = where.span.end;
    }
  }
  say(detail.at.span.end);
  return pieces;
}
