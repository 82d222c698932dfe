/**
 * A comparison as JSON, for other programs; `compare-schema.ts` says its shape.
 */
import { type Change, told } from "../features/compare";
import { type CompareReport, countsOf, type Shown } from "./compare-report";
import type { CompareJson } from "./compare-schema";

type JsonChange = CompareJson["changes"][number];

/** The whole report, as a text. */
export function compareJson(report: CompareReport): string {
  const json: CompareJson = {
    version: 1,
    before: report.names.before,
    after: report.names.after,
    changes: report.shown.map(jsonChange),
    problems: report.problems.map(({ name, message }) => ({ file: name, message })),
    summary: countsOf(report),
  };
  return `${JSON.stringify(json, null, 2)}\n`;
}

function jsonChange({ change, before, after }: Shown): JsonChange {
  const { rank, kind, what, concerns, values, places, steps, touches, does } = change;
  return {
    rank,
    kind,
    what,
    text: told(change)
      .headline.map(({ kind: word, text }) => (word === "ours" ? text : `“${text}”`))
      .join(""),
    concerns,
    before: factsOf(values.before),
    after: factsOf(values.after),
    places: {
      before: places.before && { ...places.before, file: before(places.before.file) },
      after: places.after && { ...places.after, file: after(places.after.file) },
    },
    steps,
    touches: touches.map(({ procedure, file, steps: reached }) => ({
      procedure,
      file: after(file),
      steps: [...reached],
    })),
    does: does as unknown as JsonChange["does"],
  };
}

/** Lines as they are told, and what they say by themselves. */
function factsOf(said: Change["values"]["before"]): JsonChange["before"] {
  if (said === null) return null;
  return said.map(({ pieces, form }) => ({
    line: [...pieces],
    what: form.kind,
    words: [...form.words],
    values: form.slots.map(({ role, value }) => ({ role, value: value as JsonValue })),
  }));
}

type JsonValue = NonNullable<JsonChange["before"]>[number]["values"][number]["value"];
