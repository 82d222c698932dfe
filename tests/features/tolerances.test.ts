/** Tolerances with two sides and adapters at an angle, as an editor shows them: hover, hints in the text, completion. */
import { expect, test } from "vitest";
import { inlayHints } from "../../server/features";
import type { FileModel } from "../../server/model";
import { changed, labels, MACHINE, marked, PROCEDURE, told } from "./support";

const SNUG = "40 +4/-2 N·m";
const machine = MACHINE.replace("40 N·m", SNUG);
const procedure = PROCEDURE.replace(
  "  tool angle-gauge",
  '  tool adapter "Crowfoot adapter"  angled 50 mm at 45° wrench 400 mm\n  tool angle-gauge',
)
  .replace("stage snug  with torque-wrench", "stage snug  with torque-wrench, adapter")
  .replace("tighten pump-bolt {", "tighten pump-b$0olt {");

test("hover tells both deviations in both units, and the setting under the adapter", () => {
  // 40 × 400 / (400 + 50 cos 45°) = 36.75, by hand.
  const said = told(marked({ "wren-4.torquil": machine, "renew.torquil": procedure })).join("\n");
  expect(said.replaceAll(/[\u00a0\u202f]/g, " ")).toContain(
    "snug: 40 +4 / −2 N·m (30 +3 / −1 lb·ft), set wrench to 36.8 N·m (27.1 lb·ft).",
  );
});

test("the other unit stands behind the line, each deviation as coarse as it was meant", () => {
  const at = marked({ "wren-4.torquil": machine, "renew.torquil": PROCEDURE.replace("step", "st$0ep") });
  const file = at.project.files.get("wren-4.torquil") as FileModel;
  const hints = inlayHints(file, 0, file.document.lines.length, { otherUnit: true, stepNumbers: false }).map(
    (hint) => hint.text,
  );
  expect(hints.join("\n").replaceAll(/[\u00a0\u202f]/g, " ")).toMatch(/30 \+3 ?\/ ?[-−]1 lb·ft/);
});

test("completion goes on behind a tolerance, wants a unit in it, and knows the words of an adapter", () => {
  const clauses = labels(changed("stage   snug   40 N·m", "stage   snug   40 +4/-2 N·m $0"));
  expect(clauses).toEqual(labels(changed("stage   snug   40 N·m", "stage   snug   40 N·m $0")));
  const units = labels(changed("stage   snug   40 N·m", "stage   snug   40 +4/-2 $0"));
  expect(units).toEqual(labels(changed("stage   snug   40 N·m", "stage   snug   40 $0")));
  const tool = (behind: string) =>
    labels(
      changed("  tool angle-gauge", `  tool adapter "Crowfoot adapter"  ${behind}$0\n  tool angle-gauge`),
    );
  expect(tool("")).toContain("angled");
  expect(tool("angled 50 mm ")).toContain("at");
  expect(tool("angled 50 mm at 45° ")).toContain("wrench");
});
