/** Repairs and formatting: edits that are few, do not collide, and do what they say. */
import { expect, test } from "vitest";
import { applyEdits, documentText, formatDocument, readDocument } from "../../grammar";
import { type Action, actions, diagnostics, fixAll, formatting } from "../../server/features";
import { findUnit } from "../../server/units/lookup";
import { below, pick, seeded } from "../support/random";
import { changed, MACHINE, type Marked, marked, PROCEDURE } from "./support";

function offeredAt({ project, findings, path, position }: Marked): readonly Action[] {
  const file = project.files.get(path);
  return file ? actions(file, findings.get(path) ?? [], { from: position, to: position }) : [];
}

/** The text of a file after an action's edits. */
function after({ project, path }: Marked, action: Action | null | undefined): string {
  const document = project.files.get(path)?.document ?? readDocument("");
  const own = (action?.edits ?? []).filter((e) => e.file === path);
  const fromBehind = [...own].sort(
    (a, b) => b.start.line - a.start.line || b.start.character - a.start.character,
  );
  return documentText(applyEdits(document, fromBehind));
}

test("a fix repairs its finding, and only where it is asked for", () => {
  const at = changed("weight 4 kg", "weight 4$0,2 kg");
  const [fix] = offeredAt(at);
  expect(fix).toMatchObject({ kind: "fix", safe: true });
  expect(after(at, fix)).toContain("weight 4.2 kg");
  expect(offeredAt({ ...at, position: { line: 0, character: 0 } })).toEqual([]);
});

test("a finding can be allowed above its line, with its indentation and the text's line ends", () => {
  const at = changed("  tool angle-gauge", '  tool spare$0 "Spare"\n  tool angle-gauge');
  const allow = offeredAt(at).find((a) => a.kind === "allow");
  const text = after(at, allow);
  expect(text).toMatch(/\n {2}allow tool-unused ".+"\n {2}tool spare "Spare"\n/);
  const again = marked({ "wren-4.torquil": MACHINE, "renew.torquil": text });
  expect((again.findings.get("renew.torquil") ?? []).map((f) => f.code)).not.toContain("tool-unused");
  const windows = marked({
    "a.torquil": 'torquil 1\r\nmachine m "M" {\r\n  part p "P"\r\n  part p$0 "P again"\r\n}\r\n',
  });
  expect(offeredAt(windows).find((a) => a.kind === "allow")?.edits[0]?.text).toMatch(/"\r\n$/);
});

test("what cannot be read is not to be allowed, nor an allowance", () => {
  const broken = changed("remove belt", "remove$0 7");
  expect(offeredAt(broken).filter((a) => a.kind === "allow")).toEqual([]);
  const idle = changed("      remove belt", '      allow unk$0nown-unit "no reason"\n      remove belt');
  expect((idle.findings.get(idle.path) ?? []).map((f) => f.code)).toContain("allows-nothing");
  expect(offeredAt(idle).filter((a) => a.kind === "allow")).toEqual([]);
});

test("all safe repairs of a file in one", () => {
  const at = marked({
    "a.torquil":
      'torquil 1\nmachine m "M" {\n  part a "A"  weight 4,2 kg\n  part b "B"  weight 1,5 kg  behind a\n}\n',
  });
  const file = at.project.files.get(at.path);
  const all = file && fixAll(file, at.findings.get(at.path) ?? []);
  expect(after(at, all)).toBe(
    'torquil 1\nmachine m "M" {\n  part a "A"  weight 4.2 kg\n  part b "B"  weight 1.5 kg  behind a\n}\n',
  );
  const clean = marked({ "a.torquil": "torquil 1\n" });
  const cleanFile = clean.project.files.get("a.torquil");
  expect(cleanFile && fixAll(cleanFile, [])).toBeNull();
});

test("a finding in words carries its places, and what has no effect is marked", () => {
  const at = changed(
    "  tool angle-gauge",
    '  tool spare "Spare"\n  tool torque-wrench "Again"$0\n  tool angle-gauge',
  );
  const words = diagnostics(at.findings.get(at.path) ?? []);
  const twice = words.find((d) => d.code === "duplicate-name");
  expect(twice?.related.map((r) => r.place.file)).toEqual(["renew.torquil"]);
  expect(twice?.text).not.toMatch(/\{\w+\}/);
  expect(words.find((d) => d.code === "tool-unused")).toMatchObject({ unnecessary: true });
  expect(twice?.unnecessary).toBe(false);
});

const spell = (unit: string): ReturnType<typeof findUnit> => findUnit(unit);

test("formatting gives what the printer gives, line by line", () => {
  const random = seeded(4);
  const texts = [MACHINE, PROCEDURE];
  let edited = 0;
  for (let round = 0; round < 400; round++) {
    const lines = pick(random, texts)
      .split("\n")
      .map((line) => (below(random, 6) === 0 ? roughened(line, random) : line));
    const text = lines.join(pick(random, ["\n", "\r\n"])) + pick(random, ["", "\n", "\n\n\n"]);
    const document = readDocument(pick(random, ["", "\ufeff"]) + text);
    const edits = formatting(document, spell);
    if (!edits) {
      expect(document.tree.balanced).toBe(false);
      continue;
    }
    const fromBehind = [...edits].reverse();
    expect(documentText(applyEdits(document, fromBehind))).toBe(formatDocument(document, spell));
    const places = edits.map((e) => [e.start.line, e.start.character]);
    expect(places).toEqual(
      [...places].sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0) || (a[1] ?? 0) - (b[1] ?? 0)),
    );
    if (edits.length > 0) edited++;
  }
  expect(edited).toBeGreaterThan(200);
});

function roughened(line: string, random: () => number): string {
  switch (below(random, 6)) {
    case 0:
      return `   ${line}`;
    case 1:
      return line.replace(/ +/g, "  ");
    case 2:
      return `${line}   `;
    case 3:
      return `${line}\n\n\n`;
    case 4:
      return line.replace("N·m", "Nm");
    default:
      return `\n${line}`;
  }
}

test("what is formatted has no edits, and braces that do not balance leave the text alone", () => {
  const once = formatDocument(readDocument(MACHINE), spell);
  expect(formatting(readDocument(once), spell)).toEqual([]);
  expect(
    formatting(
      readDocument(PROCEDURE.replace('  section "Put on" {\n', '  section "Put on" {\n}\n}\n}\n')),
      spell,
    ),
  ).toBeNull();
});
