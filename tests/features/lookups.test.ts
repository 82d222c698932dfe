/** Hover, definition, references, outline and folding tell of the place that is pointed at. */
import { expect, test } from "vitest";
import { definition, folding, hover, type OutlineItem, outline, references } from "../../server/features";
import { changed, MACHINE, type Marked, marked, PROCEDURE, told } from "./support";

test("a thing: its kind, its title, and what its block says, figures in both units", () => {
  expect(told(changed("tighten pump-bolt {", "tighten pump-b$0olt {"))).toEqual([
    "fastener pump-bolt",
    "Pump bolt",
    "On the sheet, tightened at step 3:",
    "1 × M12 × 1.25, 10.9.",
    "Thread state: Flange sealant.",
    "snug: 40 N·m (30 lb·ft).",
    "final: 90° further.",
    "Renew every time.",
    "Secures pump.",
    "40 N·m clamps with 11 to 31 kN and uses 15 to 38 % of the yield (M12 x 1.25, 10.9, oiled, taken as µ 0.08 to 0.24).",
    "After the angle it clamps with 27 to 110 kN, for a clamped length of 12 mm to 240 mm; its “grip” would say more.",
    "A hexagon of this thread takes 18 mm (ISO 272), older ones 19 mm, 17 mm.",
  ]);
  // In the machine's own file no sheet is known: what the block says.
  expect(told(changed("fastener pump-bolt", "fastener pump-b$0olt"))).toEqual([
    "fastener pump-bolt",
    "Pump bolt",
    "Secures pump.",
    "1 × M12 x 1.25, class 10.9, oiled with sealant.",
    "Tightening: snug 40 N·m (30 lb·ft), then final 90°.",
    "Renewed every time.",
    "40 N·m clamps with 11 to 31 kN and uses 15 to 38 % of the yield (M12 x 1.25, 10.9, oiled, taken as µ 0.08 to 0.24).",
    "After the angle it clamps with 27 to 110 kN, for a clamped length of 12 mm to 240 mm; its “grip” would say more.",
    "A hexagon of this thread takes 18 mm (ISO 272), older ones 19 mm, 17 mm.",
  ]);
  expect(told(changed("secures cover\n", "secures cov$0er\n"))).toEqual([
    "part cover",
    "Belt cover",
    "Weight 4 kg (9 lb).",
    "Held by cover-bolts.",
  ]);
  expect(told(changed("contains coolant", "contains co$0olant"))).toEqual([
    "fluid coolant",
    "Coolant",
    "The machine holds 4.2 L (4.4 US qt).",
    "Hot in use.",
    "Under pressure in use.",
  ]);
  expect(told(changed("with torque-wrench", "with tor$0que-wrench"))).toEqual([
    "tool torque-wrench",
    "Torque wrench",
    "Range or size: 10 to 100 N·m (7 to 74 lb·ft).",
  ]);
  expect(told(changed("temporary pin", "temporary p$0in"))).toEqual([
    "temporary pin",
    "Locking pin",
    "Goes into pump.",
    "Diameter 6 mm (0.24 in).",
  ]);
});

test("a step and a check with their number on the sheet", () => {
  expect(told(changed("check slack", "check sl$0ack"))).toEqual([
    "check slack",
    "Slack of the belt",
    "Number 2 on the sheet.",
    "In the section “Take off”.",
    "Limit 5 to 8 mm (0.2 to 0.3 in).",
    "If over: on to what comes next.",
    "How everything stands before it:",
    "Off or out: Cover bolts; Belt cover; Drive belt.",
    "Owed before the end: fit and tighten “Cover bolts”; fit “Belt cover”; fit “Drive belt”.",
  ]);
  expect(told(changed('step "Fit it"', 'step "Fi$0t it"'))).toContain("Number 3 on the sheet.");
});

test("a fastener with an adapter: what the wrench is set to, order, left-hand thread, in the sheet's language", () => {
  const machine = MACHINE.replace(
    "    secures pump\n",
    "    secures pump\n    left-hand\n    count   2\n    crosswise\n",
  );
  const procedure = PROCEDURE.replace(
    "  tool angle-gauge",
    '  tool adapter "Crowfoot adapter"  in-line 50 mm wrench 400 mm\n  tool angle-gauge',
  )
    .replace("stage snug  with torque-wrench", "stage snug  with torque-wrench, adapter")
    .replace("tighten pump-bolt {", "tighten pump-b$0olt {");
  const at = marked({ "wren-4.torquil": machine, "renew.torquil": procedure });
  expect(told(at)).toEqual([
    "fastener pump-bolt",
    "Pump bolt",
    "On the sheet, tightened at step 3:",
    "2 × M12 × 1.25, 10.9.",
    "Thread state: Flange sealant.",
    "Left-hand thread.",
    "snug: 40 N·m (30 lb·ft), set wrench to 35.6 N·m (26.3 lb·ft).",
    "final: 90° further.",
    "Order: crosswise.",
    "Renew every time.",
    "Secures pump.",
    "40 N·m clamps with 11 to 31 kN and uses 15 to 38 % of the yield (M12 x 1.25, 10.9, oiled, taken as µ 0.08 to 0.24).",
    "After the angle it clamps with 27 to 110 kN, for a clamped length of 12 mm to 240 mm; its “grip” would say more.",
    "A hexagon of this thread takes 18 mm (ISO 272), older ones 19 mm, 17 mm.",
  ]);
  const look = { language: "de", units: "metric" } as const;
  const german = hover(at.project, at.path, at.position, look)?.sentences ?? [];
  expect(german).toContain("Linksgewinde.");
  expect(german.join(" ")).not.toContain("lb·ft");
});

test("a check with where each outcome leads", () => {
  const at = changed(
    "        go on\n      }\n",
    '        remove belt\n        check again at most 2 times\n      }\n      if still over {\n        end job "Renew it."\n      }\n      if under {\n        repeat from un$0do at most 1 time\n      }\n',
  );
  const check = at.project.files.get(at.path)?.things.find((t) => t.name === "slack");
  const position = { line: check?.place.line ?? 0, character: check?.place.start ?? 0 };
  expect(told({ ...at, position }).filter((s) => s.startsWith("If"))).toEqual([
    "If over: what stands there is done, then the same check again, at most 2 times.",
    "If still over: the job ends, “Renew it”.",
    "If under: back to step 1, “Undo it”, once at most.",
  ]);
});

test("a quantity in its other unit", () => {
  expect(told(changed("tighten 22 N·m", "tighten 2$02 N·m"))).toEqual([
    "quantity, torque 22 N·m",
    "22 N·m is 16 lb·ft.",
    "22 N·m clamps with 5.6 to 15 kN and uses 35 to 75 % of the yield (M8, 8.8, dry, taken as µ 0.14 to 0.35).",
  ]);
  expect(told(changed("final  90°", "final  9$00°"))).toEqual([
    "quantity, angle 90°",
    "90°: the same everywhere.",
  ]);
});

test("what a tightening comes to: without a class the force alone, without a state nothing, a spanner as given, an angle that decides", () => {
  const of = (lines: string): readonly string[] =>
    told(
      marked({
        "winch.torquil": `torquil 1\n\nmachine winch "Winch" {\n  fastener l$0id "Lid bolts" {\n    ${lines}\n  }\n}\n`,
      }),
    ).slice(3);
  expect(of("thread M8\n    dry\n    spanner 13 mm\n    tighten 22 N·m")).toEqual([
    "Tightening: 22 N·m (16 lb·ft).",
    "Width across flats 13 mm.",
    "22 N·m clamps with 5.6 to 15 kN (M8, dry, taken as µ 0.14 to 0.35).",
  ]);
  expect(of("thread M8\n    class 8.8\n    tighten 22 N·m").join(" ")).not.toContain("kN");
  expect(of("thread M8\n    dry\n    threads-into plastic\n    tighten 4 N·m").join(" ")).not.toContain("kN");
  expect(of("class 8.8\n    dry\n    tighten 22 N·m").join(" ")).not.toMatch(/kN|hexagon/);
  const angle = (degrees: number): string =>
    of(
      `thread M10\n    class 8.8\n    dry\n    threads-into steel\n    grip 40 mm\n    stage snug 20 N·m\n    stage final ${degrees}°`,
    ).join(" ");
  expect(angle(270)).toContain("the bolt has yielded");
  expect(angle(2)).toContain("the bolt has not yielded");
});

test("a word of the language, also on a line that cannot be read", () => {
  expect(told(changed("remove belt", "rem$0ove belt"))).toEqual([
    "word of the language remove",
    "Takes off.",
  ]);
  expect(told(changed("  by hand\n", "  by ha$0nd\n"))[1]).toContain("by hand only");
  expect(told(changed("remove belt", "rem$0ove 7 , belt"))).toEqual([
    "word of the language remove",
    "Takes off.",
  ]);
  expect(told(changed("remove belt", "remove 7 , be$0lt"))[0]).toBe("belt belt");
});

test("stages, files, codes; nothing in comments and blank lines", () => {
  expect(told(changed("stage snug  with", "stage sn$0ug  with"))).toEqual([
    "stage snug",
    "A stage in tightening pump-bolt.",
    "snug 40 N·m (30 lb·ft).",
    "40 N·m clamps with 11 to 31 kN and uses 15 to 38 % of the yield (M12 x 1.25, 10.9, oiled, taken as µ 0.08 to 0.24).",
  ]);
  expect(told(changed("stage   snug", "stage   sn$0ug"))[0]).toBe("stage snug");
  expect(told(changed('use "wren-4', 'use "wr$0en-4'))).toEqual(["file", "Leads to wren-4.torquil."]);
  expect(
    told(changed("      remove belt\n", '      allow unknown-n$0ame "x"\n      remove belt\n'))[0],
  ).toContain("unknown-name");
  expect(told(changed("remove belt\n", "remove belt // rem$0ove\n"))).toEqual([]);
  expect(told(changed("torquil 1\n\nmachine", "torquil 1\n$0\nmachine"))).toEqual([]);
});

const found = (at: Marked): unknown => definition(at.project, at.path, at.position)?.to;
const where = (text: string, what: string): { line: number; start: number; end: number } => {
  const lines = text.split("\n");
  const line = lines.findIndex((l) => l.includes(what));
  const start = lines[line]?.indexOf(what) ?? 0;
  return { line, start, end: start + what.length };
};

test("definition: across files, of stages, of files, of nothing", () => {
  const bolt = where(MACHINE, "pump-bolt");
  expect(found(changed("tighten pump-bolt {", "tighten pump-b$0olt {"))).toEqual({
    file: "wren-4.torquil",
    ...bolt,
  });
  const stage = where(MACHINE, "snug");
  expect(found(changed("stage snug  with", "stage sn$0ug  with"))).toEqual({
    file: "wren-4.torquil",
    ...stage,
  });
  expect(found(changed('use "wren', 'use "wr$0en'))).toMatchObject({ file: "wren-4.torquil", line: 0 });
  expect(found(changed("remove belt", "remove no-$0such"))).toBeUndefined();
  expect(found(changed("remove belt", "rem$0ove belt"))).toBeUndefined();
});

test("references: every use in every file, the declaration if asked for", () => {
  const at = changed("part cover", "part co$0ver");
  const uses = references(at.project, at.path, at.position, false);
  expect(uses.map((u) => [u.file, u.line])).toEqual([
    ["renew.torquil", where(PROCEDURE, "remove cover-bolts, cover").line],
    ["wren-4.torquil", where(MACHINE, "behind belt, cover").line],
    ["wren-4.torquil", where(MACHINE, "secures cover").line],
    ["wren-4.torquil", where(MACHINE, "ribbed  behind cover").line],
  ]);
  expect(references(at.project, at.path, at.position, true)[0]).toMatchObject({
    file: "wren-4.torquil",
    ...where(MACHINE, "cover"),
  });
  const stage = changed("stage   snug", "stage   sn$0ug");
  expect(references(stage.project, stage.path, stage.position, false)).toMatchObject([
    { file: "renew.torquil", ...where(PROCEDURE, "snug") },
  ]);
  const file = changed('use "wren', 'use "wr$0en');
  expect(references(file.project, file.path, file.position, true)).toHaveLength(1);
});

test("a name used in two files by two procedures is told apart by what it means", () => {
  const two = `procedure b "B" {\n  tool torque-wrench "Another"\n  section "S" {\n    step "T" {\n      remove x  with torque-wrench\n    }\n  }\n}\n`;
  const at = marked({
    "wren-4.torquil": MACHINE,
    "renew.torquil": PROCEDURE.replace("tool torque-wrench", "tool tor$0que-wrench"),
    "b.torquil": two,
  });
  expect(references(at.project, at.path, at.position, false).map((p) => p.file)).toEqual(["renew.torquil"]);
});

function lines(items: readonly OutlineItem[], depth = 0): string[] {
  return items.flatMap((i) => [
    `${"  ".repeat(depth)}${i.kind} ${i.label} ${i.line}-${i.lastLine}`,
    ...lines(i.children, depth + 1),
  ]);
}

test("the outline is the tree of what is declared", () => {
  const { project } = changed("remove belt", "remove belt$0");
  const file = project.files.get("renew.torquil");
  expect(file && lines(outline(file))).toEqual(
    [
      "procedure Renew the water pump 4-35",
      "  kit K-1 6-9",
      "  tool Torque wrench 10-10",
      "  tool Angle gauge 11-11",
      "  temporary Locking pin 12-12",
      "  section Take off 14-25",
      "    step Undo it 15-18",
      "    check Slack of the belt 19-24",
      "      if if over 21-23",
      "  section Put on 26-34",
      "    step Fit it 27-33",
    ].map((l) => l.replace(/ $/, "")),
  );
});

test("blocks fold up to their brace, comments of several lines fold too", () => {
  const at = marked({
    "a.torquil": '// one\n// two\nmachine m "M" {\n  part a "A" {\n    weight 1 kg\n  }\n',
  });
  const file = at.project.files.get("a.torquil");
  expect(file && folding(file)).toEqual([
    { line: 0, lastLine: 1, kind: "comment" },
    { line: 2, lastLine: 5, kind: "block" },
    { line: 3, lastLine: 4, kind: "block" },
  ]);
});
