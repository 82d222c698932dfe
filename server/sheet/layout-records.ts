/**
 * Lays out what is kept of the job: recorded values, job record, sign-off, and the sheet's revisions.
 */
import { type Language, say } from "../phrases/sheet";
import { cell, LINE_BREAK, plain, quantity, runs, stepNumbers, strong, text } from "./atoms";
import type { JobRecord, RecordedValues, Revisions, SignOff } from "./blocks";
import type { Atom, Node } from "./nodes";
import { listed, row } from "./tables";

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
          ...(index > 0 ? [LINE_BREAK] : []),
          ...(place === "" ? [] : [text(`${place} `)]),
          {
            kind: "field",
            id: `${item.id}.value${index + 1}`,
            name: `${plain(runs(item.name))} ${place}`.trim(),
            size: item.measure === undefined ? "medium" : "short",
            input: "text",
            unit: item.unit ?? "",
            ...(item.measure === undefined ? {} : { copies: `${item.measure}.value${index + 1}` }),
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
        cell(
          `${item.id}.${part}`,
          `${role}: ${say(language, `column.${part}`)}`,
          part === "date" ? "date" : "text",
        );
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
