/** Declarations that are missing are added where they belong; what procedures share is moved to the machine. */
import { expect, test } from "vitest";
import { documentText } from "../../grammar";
import { type Action, inUsualForm, offeredActions } from "../../server/features";
import { editedDocument, tried } from "../../server/features/trial";
import { checkProject } from "../../server/rules";
import { changed, MACHINE, type Marked, marked, PROCEDURE } from "./support";

function offeredAt({ project, findings, path, position }: Marked): readonly Action[] {
  return offeredActions(project, path, findings.get(path) ?? [], { from: position, to: position });
}

function after({ project }: Marked, action: Action | undefined): Record<string, string> {
  const edits = inUsualForm(project, action?.edits ?? []);
  return Object.fromEntries(
    [...project.files].map(([path, { document }]) => [
      path,
      documentText(editedDocument(document, path, edits)),
    ]),
  );
}

const titles = (at: Marked, kind: Action["kind"]): string[] =>
  offeredAt(at)
    .filter((a) => a.kind === kind)
    .map((a) => a.title);

const LINE = "      remove belt\n";

test("an unknown tool is declared in the procedure, behind the last one", () => {
  const at = changed(LINE, "      remove belt  with pull$0er\n");
  const [first] = offeredAt(at).filter((a) => a.kind === "declare");
  expect(first?.title).toBe("Declare tool puller in the procedure “Renew the water pump”");
  expect(after(at, first)["renew.torquil"]).toContain(
    '  tool angle-gauge "Angle gauge"\n  tool puller "Puller"\n  temporary pin',
  );
});

test("unknown parts and fasteners are declared in the machine's file, of the kind that the line means", () => {
  const part = changed(LINE, "      remove gua$0rd\n");
  expect(titles(part, "declare")[0]).toBe("Declare part guard in the machine “Wren 4 water pump”");
  expect(
    after(
      part,
      offeredAt(part).find((a) => a.kind === "declare"),
    )["wren-4.torquil"],
  ).toContain('  part guard "Guard"\n  fastener cover-bolts');
  expect(titles(changed(LINE, "      remove guard-bo$0lts\n"), "declare")[0]).toMatch(
    /^Declare fastener guard-bolts/,
  );
  expect(titles(changed(LINE, "      loosen thi$0ng\n"), "declare")[0]).toMatch(/^Declare fastener thing/);
  expect(titles(changed(LINE, "      connect the-li$0ne\n"), "declare")[0]).toMatch(
    /^Declare connector the-line/,
  );
  // In a machine's own block too.
  expect(titles(changed("secures cover\n", "secures li$0d\n"), "declare")[0]).toMatch(
    /^Declare part lid in the machine/,
  );
  // What needs more than a name and a title is left to the writer.
  expect(titles(changed("        go on\n", "        go to nowh$0ere\n"), "declare")).toEqual([]);
});

test("a fastener with the stages that the line asks for", () => {
  const at = changed("tighten pump-bolt {", "tighten flange-bo$0lts {");
  const [first] = offeredAt(at).filter((a) => a.kind === "declare");
  expect(after(at, first)["wren-4.torquil"]).toContain(
    '  fastener flange-bolts "Flange bolts" {\n    stage   snug\n    stage   final\n  }\n',
  );
});

test("without any wrench: one whose range the torque lies in, and the line says it", () => {
  const text = PROCEDURE.replace('  tool torque-wrench "Torque wrench"  10 to 100 N·m\n', "").replace(
    "stage snug  with torque-wrench",
    "stage   sn$0ug",
  );
  const at = marked({ "wren-4.torquil": MACHINE, "renew.torquil": text });
  const wrench = offeredAt(at).find((a) => a.title.includes("torque-wrench"));
  const texts = after(at, wrench);
  expect(texts["renew.torquil"]).toContain('  tool torque-wrench "Torque wrench"  10 to 100 N·m\n');
  expect(texts["renew.torquil"]).toMatch(/stage +snug {2}with torque-wrench\n/);
});

const SHARED = PROCEDURE.replace(
  "  tool torque-wrench",
  '  allow unused-declaration "Named on the tin."\n  consumable cleaner "Parts cleaner" {\n    harmful\n  }\n  tool torque-wrench',
).replace(LINE, `${LINE}      clean pump  with cleaner\n`);

const withCursor = (text: string, at: string): string => text.replace(at, `${at}$0`);

test("a supply is moved to the machine with its allowance, and its uses keep their meaning", () => {
  const at = marked({ "wren-4.torquil": MACHINE, "renew.torquil": withCursor(SHARED, "consumable cle") });
  const [move] = offeredAt(at).filter((a) => a.kind === "move");
  expect(move?.disabled).toBeUndefined();
  const texts = after(at, move);
  expect(texts["renew.torquil"]).not.toContain("consumable");
  expect(texts["renew.torquil"]).not.toContain("allow");
  expect(texts["wren-4.torquil"]).toContain(
    '  allow unused-declaration "Named on the tin."\n  consumable cleaner "Parts cleaner" {\n    harmful\n  }\n',
  );
  const now = tried(at.project, move?.edits ?? []);
  const codes = [...checkProject(now).values()].flat().map((f) => f.code);
  expect(codes).not.toContain("unknown-name");
  expect(now.files.get("renew.torquil")?.bindings.find((b) => b.name === "cleaner")?.thing?.file).toBe(
    "wren-4.torquil",
  );
});

test("what cannot be moved says why", () => {
  const move = (files: Record<string, string>): string | undefined =>
    offeredAt(marked(files)).find((a) => a.kind === "move")?.disabled;
  const text = withCursor(SHARED, "consumable cle");
  expect(
    move({ "renew.torquil": text.replace('use "wren-4.torquil"\n', "").replace("  on wren-4\n", "") }),
  ).toContain("not known which machine");
  const taken = SHARED.replaceAll("renew-pump", "other-pump");
  expect(move({ "wren-4.torquil": MACHINE, "renew.torquil": text, "other.torquil": taken })).toContain(
    "“cleaner” is declared in other.torquil, line",
  );
  const broken = text.replace("    harmful\n", "    harmful 7 ,\n");
  expect(move({ "wren-4.torquil": MACHINE, "renew.torquil": broken })).toContain("cannot be read");
  // A tool belongs to a procedure.
  expect(
    move({ "wren-4.torquil": MACHINE, "renew.torquil": withCursor(SHARED, "tool torque-wr") }),
  ).toBeUndefined();
});

test("a part written into a procedure by mistake is moved where it belongs; one that rests on the procedure is not", () => {
  const stray = PROCEDURE.replace(
    "  tool torque-wrench",
    '  part bra$0cket "Bracket"  behind cover\n  tool torque-wrench',
  );
  const at = marked({ "wren-4.torquil": MACHINE, "renew.torquil": stray });
  const [move] = offeredAt(at).filter((a) => a.kind === "move");
  expect(after(at, move)["wren-4.torquil"]).toContain('  part bracket "Bracket"  behind cover\n');
  const own = stray
    .replace("behind cover", "behind own-part")
    .replace("  tool torque-wrench", '  part own-part "Own"\n  tool torque-wrench');
  const held = marked({ "wren-4.torquil": MACHINE, "renew.torquil": own });
  expect(offeredAt(held).find((a) => a.kind === "move")?.disabled).toContain("own-part");
});
