/** What is shown in a text: uses of a name, paths, what may be selected, remarks between the words, what is found. */
import { expect, test } from "vitest";
import { folding, highlights, inlayHints, pathLinks, searchSymbols, selections } from "../../server/features";
import type { FileModel } from "../../server/model";
import { changed, MACHINE, type Marked, marked, PROCEDURE } from "./support";

const fileOf = ({ project, path }: Marked): FileModel => project.files.get(path) as FileModel;
const textAt = (file: FileModel, line: number, start: number, end: number): string =>
  file.document.lines[line]?.text.slice(start, end) ?? "";

test("the name at the cursor, wherever it stands in the file; its declaration told apart", () => {
  const at = changed("secures cover\n", "secures co$0ver\n");
  const found = highlights(at.project, at.path, at.position);
  expect(found.map((m) => textAt(fileOf(at), m.place.line, m.place.start, m.place.end))).toEqual(
    found.map(() => "cover"),
  );
  expect(found.map((m) => m.declares)).toEqual([true, false, false, false]);
  const stage = changed("stage snug  with", "stage sn$0ug  with");
  expect(highlights(stage.project, stage.path, stage.position)).toMatchObject([{ declares: false }]);
  const nothing = changed("remove belt", "rem$0ove belt");
  expect(highlights(nothing.project, nothing.path, nothing.position)).toEqual([]);
});

test("paths without their quotes, each with where it leads; those that lead nowhere are left out", () => {
  const files = {
    "deep/a.torquil": 'torquil 1\n\nuse "../b.torquil"\nuse "gone.torquil"\nuse "$0"\n',
    "b.torquil": "torquil 1\n",
  };
  const at = marked(files);
  const links = pathLinks(fileOf(at));
  expect(links).toMatchObject([{ file: "b.torquil", tooltip: "Open b.torquil" }]);
  const [{ place }] = links as [(typeof links)[number]];
  expect(textAt(fileOf(at), place.line, place.start, place.end)).toBe("../b.torquil");
});

test("selections grow from the word to the whole text, each holding the one before", () => {
  const at = changed('tool torque-wrench "Torque wrench"', 'tool torque-wrench "Torque wr$0ench"');
  const file = fileOf(at);
  const found = selections(file, at.position);
  const text = (i: number): string => {
    const { start, end } = found[i] ?? { start: at.position, end: at.position };
    return textAt(file, start.line, start.character, end.character);
  };
  expect([0, 1, 2, 3].map(text)).toEqual([
    "wrench",
    "Torque wrench",
    '"Torque wrench"',
    'tool torque-wrench "Torque wrench"  10 to 100 N·m',
  ]);
  expect(found.at(-1)?.start).toEqual({ line: 0, character: 0 });
  for (const [i, one] of found.entries()) {
    const next = found[i + 1];
    if (!next) continue;
    const before = (a: { line: number; character: number }, b: typeof a): boolean =>
      a.line < b.line || (a.line === b.line && a.character <= b.character);
    expect(before(next.start, one.start) && before(one.end, next.end)).toBe(true);
  }
  for (const [line, { text: whole }] of file.document.lines.entries())
    for (let character = 0; character <= whole.length + 2; character += 3)
      expect(selections(file, { line, character }).length).toBeGreaterThan(0);
  expect(selections(file, { line: 9999, character: 0 })).toEqual([]);
});

const BOTH = { otherUnit: true, stepNumbers: true };
const shown = (at: Marked, options = BOTH, first = 0, last = 9999): string[] =>
  inlayHints(fileOf(at), first, last, options).map(({ line, character, text }) => {
    const before = fileOf(at).document.lines[line]?.text.slice(0, character) ?? "";
    return `${before.trim().split(/ {2,}/).at(-1)} ${text}`;
  });

test("figures in the other unit, as exact as they are written; numbers of steps and checks", () => {
  expect(shown(changed("torquil 1\n\nmachine", "torquil 1\n\n$0machine"))).toEqual([
    "4.2 L (4.4 US qt)",
    "weight 4 kg (9 lb)",
    "tighten 22 N·m (16 lb·ft)",
    "40 N·m (30 lb·ft)",
  ]);
  const procedure = changed("remove belt", "$0remove belt");
  expect(shown(procedure)).toEqual([
    "10 to 100 N·m (7 to 74 lb·ft)",
    "diameter 6 mm (0.24 in)",
    "step 1",
    "check 2",
    "limit 5 to 8 mm (0.2 to 0.3 in)",
    "step 3",
  ]);
  expect(shown(procedure, { otherUnit: false, stepNumbers: true })).toEqual(["step 1", "check 2", "step 3"]);
  expect(shown(procedure, { otherUnit: false, stepNumbers: false })).toEqual([]);
  expect(shown(procedure, BOTH, 14, 16)).toEqual(["step 1"]);
  expect(shown(procedure, BOTH, -5, -1)).toEqual([]);
  // What the writer gave in both units needs no remark, nor does what has none.
  expect(shown(changed("weight 4 kg", "weight 4 kg (9 lb)$0"))).not.toContain("weight 4 kg (9 lb) (9 lb)");
});

test("what is declared is found by some of its letters, in every file, the best first", () => {
  const at = marked({
    "wren-4.torquil": MACHINE,
    "renew.torquil": PROCEDURE,
    "o.torquil": 'machine m "M" {\n  fluid oil "Öldruck"\n  $0\n}\n',
  });
  const found = (query: string): string[] => searchSymbols(at.project, query).map((h) => h.label);
  expect(found("pump").slice(0, 2)).toEqual(["pump — Water pump", "pump-bolt — Pump bolt"]);
  expect(found("pbo")[0]).toBe("pump-bolt — Pump bolt");
  expect(found("oldr")).toEqual(["oil — Öldruck"]);
  expect(found("undo it")).toContain("undo — Undo it");
  expect(found("zzz")).toEqual([]);
  expect(found("").length).toBeGreaterThan(10);
  expect(searchSymbols(at.project, "snug it")).toEqual([]);
  expect(searchSymbols(at.project, "fit it")).toMatchObject([{ kind: "step", container: "Put on" }]);
});

test("several files that are used fold into the first", () => {
  const at = marked({ "a.torquil": 'torquil 1\n\nuse "b.torquil"\nuse "c.torquil"\n// x\n// y\n$0\n' });
  expect(folding(fileOf(at))).toEqual([
    { line: 2, lastLine: 3, kind: "uses" },
    { line: 4, lastLine: 5, kind: "comment" },
  ]);
});
