/** Completion offers what fits where the cursor is, on lines that are finished or not. */
import { expect, test } from "vitest";
import { completionDetails } from "../../server/features";
import { changed, labels, MACHINE, type Marked, marked, offered, PROCEDURE } from "./support";

const LINE = "      remove belt\n";

test("at the start of a line: what may stand in the block, clauses of its head first, allowances last", () => {
  const inStep = labels(changed(LINE, "      $0\n"));
  expect(inStep.slice(0, 3)).toEqual(["remove", "fit", "loosen"]);
  expect(inStep.at(-1)).toBe("allow");
  expect(inStep).not.toContain("section");
  expect(inStep).not.toContain("check again");
  expect(labels(changed("        go on\n", "        $0\n"))).toContain("check again");
  const inFastener = labels(changed("    count   4\n", "    $0\n"), "clause");
  expect(inFastener).toContain("count");
  expect(inFastener).not.toContain("thread");
  expect(inFastener).not.toContain("dry");
  expect(inFastener).not.toContain("oiled");
  expect(inFastener).not.toContain("stage");
  expect(labels(changed('  kit "K-1" {', '  kit "K-1" {\n    $0'), "word")).toEqual(["item", "allow"]);
});

test("a block's clauses are those of its head, not of all blocks of its kind", () => {
  const gear = labels(marked({ "a.torquil": 'machine m "M" {\n  gear g "G" {\n    $0\n  }\n}\n' }));
  expect(gear).toContain("meshes");
  const part = labels(marked({ "a.torquil": 'machine m "M" {\n  part p "P" {\n    $0\n  }\n}\n' }));
  expect(part).toContain("spring-loaded");
  expect(part).not.toContain("meshes");
});

test("otherwise only behind a when", () => {
  const text = (before: string): string =>
    `procedure p "P" {\n  symptom s "S"\n  section "A" {\n${before}    $0\n  }\n}\n`;
  expect(labels(marked({ "a.torquil": text("") }))).not.toContain("otherwise");
  expect(labels(marked({ "a.torquil": text("    when s {\n    }\n") }))).toContain("otherwise");
});

test("names of things of the kinds that fit, and none twice; what is off already comes last", () => {
  const taken = ["lead", "belt", "pump", "pump-bolt"];
  expect(labels(changed(LINE, "      remove $0\n"))).toEqual([...taken, "cover", "cover-bolts"]);
  expect(labels(changed(LINE, "      remove cover, $0\n"))).toEqual([...taken, "cover-bolts"]);
  expect(labels(changed(LINE, "      drain $0\n"))).toEqual(["coolant"]);
  expect(labels(changed(LINE, "      remove belt  with $0\n"))).toEqual([
    "torque-wrench",
    "angle-gauge",
    "pin",
    "coolant",
    "sealant",
  ]);
  expect(labels(changed("        go on\n", "        go to $0\n"))).toEqual(["slack", "undo"]);
  const [wrench] = offered(changed(LINE, "      remove belt  with $0\n"));
  expect(wrench?.detail).toBe("tool · Torque wrench");
});

test("after fit new: what is in the kit comes first", () => {
  expect(labels(changed("fit new pump-bolt  by hand", "fit new $0"), "thing").slice(0, 2)).toEqual([
    "pump",
    "pump-bolt",
  ]);
  expect(labels(changed("fit new pump-bolt  by hand", "fit $0")).slice(0, 2)).toEqual(["new", "old"]);
});

test("names of a procedure are not offered in another", () => {
  const two = `machine m "M" {\n  part p "P"\n}\nprocedure a "A" {\n  on m\n  tool one "One"\n  section "S" {\n    step "T" {\n      remove p  with $0\n    }\n  }\n}\nprocedure b "B" {\n  on m\n  tool two "Two"\n}\n`;
  expect(labels(marked({ "a.torquil": two }))).toEqual(["one"]);
});

test("clauses that are not said yet and do not contradict what is", () => {
  const after = labels(changed(LINE, "      remove belt  keep  $0\n"));
  expect(after).toContain("with");
  expect(after).not.toContain("keep");
  expect(after).not.toContain("discard");
  const fastener = labels(changed("    count   4\n", "    oiled sealant on $0\n"));
  expect(fastener).toEqual(["thread"]);
});

test("units of the kinds that fit, with a space behind a figure", () => {
  const units = offered(changed("tighten 22 N·m  crosswise", "tighten 22$0"));
  expect(units.map((u) => u.label).slice(0, 2)).toEqual(["N·m", "kN·m"]);
  expect(units.map((u) => u.label)).not.toContain("mm");
  expect(units[0]?.text).toBe(" N·m");
  expect(units.find((u) => u.label === "°")?.text).toBe("°");
  const [started] = offered(changed("tighten 22 N·m  crosswise", "tighten 22 N$0 crosswise"));
  expect(started?.text).toBe("N·m");
  expect(labels(changed("weight 4 kg", "weight 4 $0"))).not.toContain("N·m");
  expect(labels(changed("limit 5 to 8 mm", "limit 5 to 8 $0"))).toEqual(
    expect.arrayContaining(["mm", "in", "bar", "N·m"]),
  );
});

test("outcomes that a check can have and has not yet", () => {
  expect(labels(changed("      if over {", "      if $0 {"), "outcome")).toEqual([
    "met",
    "not met",
    "over",
    "under",
  ]);
  const second = "      if over {\n        go on\n      }\n      if $0 {";
  expect(labels(changed("      if over {", second), "outcome")).toEqual(["met", "not met", "under"]);
  expect(labels(changed("      if over {", second.replace("$0", "still $0")), "outcome")).toContain("over");
  const asked = 'observe "Is it worn?"\n      if $0';
  expect(labels(changed("limit 5 to 8 mm", asked), "outcome")).toEqual(["yes", "no"]);
  expect(labels(changed('item pump 1 "WP-4"', 'item pump 1 "WP-4"  only if slack $0'), "outcome")).toEqual([
    "met",
    "not met",
    "over",
    "under",
  ]);
});

test("stages of the fasteners that are meant", () => {
  expect(labels(changed(LINE, "      tighten pump-bolt  to $0\n"))).toEqual(["snug", "final"]);
  expect(labels(changed("        stage final with angle-gauge\n", "        stage $0\n"))).toEqual([
    "snug",
    "final",
  ]);
  expect(labels(changed(LINE, "      tighten cover-bolts  to $0\n"))).toEqual([]);
  expect(labels(changed("    stage   final  90°\n", "    stage $0\n"))).toEqual([]);
});

test("codes after allow, hazards after a signal word", () => {
  expect(labels(changed(LINE, "      allow $0\n"))).toEqual(
    expect.arrayContaining(["unknown-name", "unknown-unit"]),
  );
  const hazards = labels(changed(LINE, "      danger $0 {\n      }\n"));
  expect(hazards[0]).toBe("electric-shock");
  expect(hazards).toContain("burn");
});

test("files after a quote, with or without its end", () => {
  const closed = offered(changed('use "wren-4.torquil"', 'use "w$0"'));
  expect(closed).toMatchObject([{ label: "wren-4.torquil", start: 5, end: 6 }]);
  expect(labels(changed('use "wren-4.torquil"', 'use "$0'))).toEqual(["wren-4.torquil"]);
  const files = { "deep/in/a.torquil": 'use "$0', "deep/b.torquil": "", "c.torquil": "" };
  expect(labels(marked(files))).toEqual(["../../c.torquil", "../b.torquil"]);
  expect(labels(changed('tool torque-wrench "Torque', 'tool torque-wrench "$0Torque'))).toEqual([]);
});

test("the word at the cursor is replaced as a whole, in UTF-16", () => {
  const [item] = offered(changed(LINE, '      label cover "10 N·m 🔩"  with torq$0ue-x\n'));
  const start = '      label cover "10 N·m 🔩"  with '.length;
  expect(item).toMatchObject({ label: "torque-wrench", start, end: start + "torque-x".length });
});

test("on a line that is wrong before the cursor, the clauses that it lacks", () => {
  const after = labels(changed(LINE, "      remove ,, belt $0\n"));
  expect(after).toContain("with");
  expect(after).toContain("keep");
});

test("nothing in a comment, in prose, or behind a brace; nothing falls over anywhere", () => {
  expect(labels(changed(LINE, "      remove belt // $0\n"))).toEqual([]);
  expect(labels(changed(LINE, '      "Some prose $0\n'))).toEqual([]);
  expect(labels(changed("      tighten pump-bolt {", "      tighten pump-bolt { $0"))).toEqual([]);
  const { project, path } = changed(LINE, LINE);
  const lines = project.files.get(path)?.document.lines ?? [];
  for (const [line, { text }] of lines.entries()) {
    for (let character = 0; character <= text.length + 1; character++)
      offered({ project, path, position: { line, character }, findings: new Map() });
  }
  expect(offered({ project, path, position: { line: 9999, character: 0 }, findings: new Map() })).toEqual([]);
});

test("by place: what can be fitted, tightened, drained as things stand there", () => {
  const again = 'step "Fit it" {\n';
  const at = (line: string): Marked => changed(again, `${again}      ${line}\n`);
  // Off are cover, cover-bolts and belt, the belt last; bolts hold what is not on yet.
  expect(labels(at("fit $0"), "thing").slice(0, 2)).toEqual(["belt", "cover"]);
  expect(labels(at("fit cover, $0"), "thing").slice(0, 2)).toEqual(["cover-bolts", "belt"]);
  expect(labels(at("tighten $0"))[0]).toBe("pump-bolt");
  expect(labels(changed("tighten pump-bolt {", "tighten $0 {"))[0]).toBe("pump-bolt");
  expect(labels(at("disconnect $0"))).toEqual(["lead"]);
});

test("for the kit: what is renewed every time first, what is in it already last", () => {
  const more = MACHINE.replace(
    'part cover "Belt cover"',
    'part gasket "Gasket"  renew every time\n  part cover "Belt cover"',
  );
  const text = PROCEDURE.replace('    item pump 1 "WP-4"\n', '    item pump 1 "WP-4"\n    item $0\n');
  const items = labels(marked({ "wren-4.torquil": more, "renew.torquil": text }), "thing");
  expect(items[0]).toBe("gasket");
  expect(items.slice(-2)).toEqual(["pump", "pump-bolt"]);
});

test("what an outcome or condition does counts only within it", () => {
  const text = (inside: string, behind: string): string => `torquil 1

machine m "M" {
  part a "A"
  part b "B"
}
procedure p "P" {
  on m
  check c "C" {
    observe "Worn?"
    if yes {
      remove a
${inside}    }
  }
  step "S" {
${behind}    remove b
  }
}
`;
  const inside = labels(marked({ "a.torquil": text("      remove $0\n", "") }));
  expect(inside).toEqual(["b", "a"]);
  expect(labels(marked({ "a.torquil": text("", "    remove $0\n") }))).toEqual(["a", "b"]);
});

test("a wrench that reaches the torque comes before others; go to offers what follows", () => {
  const more = '  tool torque-wrench "Torque wrench"  10 to 100 N·m\n';
  const small = '  tool small "Small wrench"  1 to 5 N·m\n';
  const line = "tighten pump-bolt  with $0";
  const again = 'step "Fit it" {\n';
  const at = changed(again, `${again}      ${line}\n`);
  const text = PROCEDURE.replace(more, small + more).replace(again, `${again}      ${line}\n`);
  expect(labels(marked({ "wren-4.torquil": MACHINE, "renew.torquil": text })).slice(0, 3)).toEqual([
    "torque-wrench",
    "small",
    "angle-gauge",
  ]);
  expect(labels(at)[0]).toBe("torque-wrench");
  const later = PROCEDURE.replace('step "Fit it"', 'step fit-it "Fit it"').replace("go on", "go to $0");
  expect(labels(marked({ "wren-4.torquil": MACHINE, "renew.torquil": later }))[0]).toBe("fit-it");
});

test("what there is to read about an offer: the facts of a thing, a sentence on a word", () => {
  const at = changed(LINE, "      remove $0\n");
  const cover = offered(at).find((o) => o.label === "cover");
  expect(cover && completionDetails(at.project, cover)).toEqual([
    "Weight 4 kg (9 lb).",
    "Held by cover-bolts.",
  ]);
  const [word] = offered(changed(LINE, "      $0\n"));
  expect(word && completionDetails(at.project, word)).toEqual(["Takes off."]);
});
