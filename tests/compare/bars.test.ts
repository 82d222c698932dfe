/** Bars in the margin: beside what has changed, what names what has changed, and where something is gone. */
import { expect, it } from "vitest";
import { barsOf, compareRevisions, goneText, lineKey } from "../../server/features/compare";
import { buildSheet } from "../../server/sheet/build";
import { markChanged } from "../../server/sheet/changed";
import { renderHtml } from "../../server/sheet/html";
import { projectOf } from "../support/project";
import { FLAGSHIP, MACHINE, PROCEDURE, revised } from "./flagship";

function marked(after: Readonly<Record<string, string>>) {
  const [old, fresh] = [projectOf(FLAGSHIP), projectOf(after)];
  const side = (project: typeof old) => ({ project, settings: null });
  const procedure = fresh.files.get(PROCEDURE)?.procedures[0];
  if (!procedure) throw new Error("the flagship has a procedure");
  const bars = barsOf(compareRevisions(side(old), side(fresh)), fresh, procedure);
  const options = {
    language: "en",
    paper: "a4",
    units: "both",
    draft: false,
    pictures: () => undefined,
  } as const;
  const plain = buildSheet(fresh, procedure, options);
  const sheet = markChanged(plain, {
    revision: "B",
    isChanged: (file, line) => bars.lines.has(lineKey(file, line)),
    removed: bars.removed.map(goneText),
  });
  return { sheet, plain, ids: changedIds(sheet) };
}

function changedIds(value: unknown): string[] {
  if (value === null || typeof value !== "object") return [];
  const { id, changed } = value as { id?: string; changed?: true };
  return [...(changed ? [id ?? ""] : []), ...Object.values(value).flatMap(changedIds)];
}

it("without a change nothing is marked", () => {
  expect(marked(FLAGSHIP).ids).toEqual([]);
});

it("a torque is marked in the table and where it is tightened, and nowhere else", () => {
  const { ids } = marked(revised(MACHINE, "snug 40 N·m", "snug 45 N·m"));
  expect(ids.filter((id) => id.includes("tighten"))).toEqual([
    "tightening:sprocket-bolt",
    "check:end-float/if:over/tighten:sprocket-bolt",
  ]);
  expect(ids.filter((id) => /lubricate|fit:|remove:/.test(id))).toEqual([]);
});

it("a line is marked by itself, its step only when its own head has changed", () => {
  expect(marked(revised(PROCEDURE, "wait 5 min", "wait 2 min")).ids).toEqual([
    expect.stringMatching(/^step:Clean where the belt runs\/wait/),
  ]);
});

it("what is gone is told at the head of the sheet, and a bar stands where it was", () => {
  const { sheet, ids } = marked(revised(PROCEDURE, "      close drain-tap\n", ""));
  expect(sheet.removedSince).toEqual(["close Drain tap on the block"]);
  expect(ids).toEqual([expect.stringMatching(/^step:Drain the coolant\/drain:coolant/)]);
  const html = renderHtml(sheet);
  expect(html).toContain("A bar in the margin marks what has changed since revision B.");
  expect(html).toContain("Removed since then: close Drain tap on the block.");
});

it("other spaces, other names: no bars", () => {
  expect(
    marked({ ...FLAGSHIP, [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "").replaceAll("\n    ", "\n      ") }).ids,
  ).toEqual([]);
  const renamed = Object.fromEntries(
    Object.entries(FLAGSHIP).map(([path, text]) => [path, text.replaceAll("belt-guard", "drive-guard")]),
  );
  expect(marked(renamed).ids).toEqual([]);
});
