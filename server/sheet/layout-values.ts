/**
 * Lays out what is written down during the work: values measured against a limit, and waits with their times.
 */
import { type Language, type SheetWord, say } from "../phrases/sheet";
import { base, LINE_BREAK, plain, runs, text, tick } from "./atoms";
import type { Measure, Wait } from "./blocks";
import type { Atom, Field, Frame, Table } from "./nodes";
import { row, table } from "./tables";

/** A wait has boxes for when it began and when it may end, or one for what is measured before going on. */
export function wait(language: Language, work: Wait): Frame {
  const name = plain(runs(work.sentence));
  const write = (part: string, word: SheetWord, more: Partial<Field>): Atom[] => [
    text(`${say(language, word)} `),
    {
      kind: "field",
      id: `${work.id}.${part}`,
      name: `${name}: ${say(language, word)}`,
      size: "short",
      input: "time",
      unit: "",
      ...more,
    },
  ];
  const time =
    work.minutes === undefined
      ? []
      : [
          ...write("start", "wait-started", {}),
          text("   "),
          ...write("earliest", "wait-earliest", {
            after: { field: `${work.id}.start`, minutes: work.minutes },
          }),
        ];
  const until =
    work.until === undefined
      ? []
      : [
          ...write("value1", "measured", { input: "number", unit: work.until.unit, range: work.until.range }),
          text("  ("),
          ...runs(work.until.limit),
          text(")"),
        ];
  return {
    kind: "frame",
    ...base(work),
    look: "wait",
    head: [
      tick(`${work.id}.box`, name),
      ...runs(work.sentence),
      ...(time.length > 0 ? [LINE_BREAK, ...time] : []),
      ...(until.length > 0 ? [LINE_BREAK, ...until] : []),
    ],
    body: [],
  };
}

/** A measurement is a table of one row: limit, places to write, temperature, instrument. */
export function measure(language: Language, work: Measure): Table {
  const values = work.places.flatMap((place, index): Atom[] => [
    ...(index > 0 ? [LINE_BREAK] : []),
    ...(place === "" ? [] : [text(`${place} `)]),
    {
      kind: "field",
      id: `${work.id}.value${index + 1}`,
      name: `${say(language, "measured")} ${plain(runs(work.what))} ${place}`.replace(/\s+/g, " ").trim(),
      size: "short",
      input: "number",
      unit: work.unit,
      range: work.range,
    },
  ]);
  const all: readonly (readonly [SheetWord, number, readonly Atom[]])[] = [
    ["column.what", 3, runs(work.what)],
    ["column.limit", 3, runs(work.limit)],
    ["column.measured", 4, values],
    ["column.temperature", 2.4, runs(work.temperature)],
    ["column.instrument", 2.8, runs(work.instrument)],
  ];
  const kept = all.filter(([, , cell]) => cell.length > 0);
  return {
    ...table(language, {
      id: work.id,
      head: "measured",
      columns: kept.map(([word, width]) => [word, width]),
      tall: true,
      rows: [row(work, ...kept.map(([, , cell]) => cell))],
    }),
  };
}
