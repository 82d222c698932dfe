/** A name is changed everywhere it means the same thing, and refused in words where anything would mean another. */
import { expect, test } from "vitest";
import { documentText, formatDocument, KEYWORDS } from "../../grammar";
import { renamable, rename } from "../../server/features";
import { editedDocument, tried } from "../../server/features/trial";
import type { Project } from "../../server/model";
import { checkProject, findingText, type TextEdit } from "../../server/rules";
import { findUnit } from "../../server/units/lookup";
import { examplesIn } from "../support/examples";
import { projectOf } from "../support/project";
import { pick, seeded } from "../support/random";
import { changed, MACHINE, type Marked, marked, PROCEDURE } from "./support";

const renamed = (at: Marked, to: string): ReturnType<typeof rename> =>
  rename(at.project, at.path, at.position, to);
const refusal = (at: Marked, to: string): string => {
  const done = renamed(at, to);
  return "refused" in done ? done.refused : "";
};

/** The texts after a rename; a refusal fails the test. */
function after(at: Marked, to: string): Record<string, string> {
  const done = renamed(at, to);
  if ("refused" in done) throw new Error(done.refused);
  return textsAfter(at.project, done.edits);
}

const textsAfter = (project: Project, edits: readonly TextEdit[]): Record<string, string> =>
  Object.fromEntries(
    [...project.files].map(([path, { document }]) => [
      path,
      documentText(editedDocument(document, path, edits)),
    ]),
  );

const word = (text: string, name: string): number =>
  text.match(new RegExp(`(?<![\\w-])${name}(?![\\w-])`, "gu"))?.length ?? 0;

test("a machine's thing: its declaration, its uses in its file, in procedures, in the kit", () => {
  const texts = after(changed("fit new pump-bolt", "fit new pump-b$0olt"), "flange-bolt");
  expect(texts["wren-4.torquil"]).toBe(MACHINE.replaceAll("pump-bolt", "flange-bolt"));
  expect(texts["renew.torquil"]).toBe(PROCEDURE.replaceAll("pump-bolt", "flange-bolt"));
});

test("from any of its places, and at either edge of the name", () => {
  const all = ["secures $0cover", "secures cover$0", "secures co$0ver"].map((to) =>
    after(changed("secures cover\n", `${to}\n`), "lid"),
  );
  expect(all[1]).toEqual(all[0]);
  expect(all[2]).toEqual(all[0]);
  expect(word(all[0]?.["renew.torquil"] ?? "", "lid")).toBe(1);
  // Longer names that only begin alike are other names.
  expect(all[0]?.["renew.torquil"]).toContain("remove cover-bolts, lid");
});

test("stages, in the machine and in every tightening; their column stays", () => {
  const texts = after(changed("stage snug  with", "stage sn$0ug  with"), "first-draw");
  expect(texts["wren-4.torquil"]).toContain("stage   first-draw   40 N·m");
  expect(texts["renew.torquil"]).toContain("stage first-draw  with torque-wrench");
});

test("hazards in cautions, outcomes that a check chooses, the way round, members of a set", () => {
  const machine = `torquil 1

machine m "M" {
  set side "Side" of left, right
  hazard splinters "Splinters" {
    raised-by remove crate
    least     warning
  }
  part crate "Crate" {
    way-round up "The arrow"
  }
  part shim "Shim"
  fastener nut "Nut" {
    secures crate
    left-hand on left
    one for each side
  }
}
`;
  const procedure = `torquil 1

use "m.torquil"

procedure p "P" {
  on m
  kit "K" {
    item shim 1  only if gap thin
  }
  warning splinters {
    "Splinters fly."
    can "Blind."
    so  "Wear glasses."
  }
  step "Off" {
    remove nut, crate
    fit crate  way-round up
  }
  check gap "Gap" {
    choose thin under 1 mm
    choose thick at least 1 mm
    if thin {
      go on
    }
  }
  step "More" {
    when gap thin {
      fit shim
    }
  }
}
`;
  const both = (from: string, to: string): Marked =>
    marked({ "m.torquil": machine, "p.torquil": procedure.replace(from, to) });
  const count = (at: Marked, to: string): number[] => {
    const texts = after(at, to);
    return ["m.torquil", "p.torquil"].map((file) => word(texts[file] ?? "", to));
  };
  expect(count(both("warning splinters", "warning splint$0ers"), "chips")).toEqual([1, 1]);
  expect(count(both("if thin", "if th$0in"), "narrow")).toEqual([0, 4]);
  expect(count(both("way-round up", "way-round u$0p"), "top")).toEqual([1, 1]);
  const member = marked({ "m.torquil": machine.replace("on left", "on le$0ft"), "p.torquil": procedure });
  expect(count(member, "near-side")).toEqual([2, 0]);
  expect(refusal(both("if thin", "if th$0in"), "over")).toContain("outcome of this check");
  expect(refusal(both("if thin", "if th$0in"), "thick")).toContain("outcome of this check");
  expect(refusal(both("warning splinters", "warning splint$0ers"), "burn")).toContain(
    "of the language's own",
  );
});

test("a procedure that another file follows", () => {
  const other = `torquil 1

use "wren-4.torquil"

procedure whole "The whole" {
  on wren-4
  follow renew-pump from "renew.torquil"
}
`;
  const files = {
    "wren-4.torquil": MACHINE,
    "renew.torquil": PROCEDURE.replace("procedure renew-pump", "procedure renew-$0pump"),
    "whole.torquil": other,
  };
  expect(after(marked(files), "new-pump")["whole.torquil"]).toContain('follow new-pump from "renew.torquil"');
});

test("names on a line that cannot be read go with the others", () => {
  const texts = after(changed("remove belt", "remove ,, cov$0er"), "lid");
  expect(texts["renew.torquil"]).toContain("remove ,, lid");
});

test("what cannot be renamed is said in words", () => {
  const said = (at: Marked): string => {
    const found = renamable(at.project, at.path, at.position);
    return "refused" in found ? found.refused : "";
  };
  expect(said(changed("remove belt", "rem$0ove belt"))).toContain("is a word of the language");
  expect(said(changed('use "wren-4', 'use "wr$0en-4'))).toContain("This is a path");
  expect(said(changed('step "Fit it"', 'step "Fi$0t it"'))).toContain("a title and no name");
  expect(said(changed("remove belt", "remove no-su$0ch"))).toContain(
    "Nothing in sight has the name “no-such”",
  );
  expect(said(changed('"WP-4"', '"W$0P-4"'))).toContain("no name here");
  expect(said(changed("torquil 1\n\nuse", "torquil 1\n$0\nuse"))).toContain("no name here");
  const outside = `torquil 1\n\nuse "../../far.torquil"\n\nprocedure p "P" {\n  step "S" {\n    remove lo$0st\n  }\n}\n`;
  expect(said(marked({ "a.torquil": outside }))).toContain(
    "../../far.torquil, which lies outside the project",
  );
});

test("a name that is taken, would be mistaken, or is none", () => {
  const bolt = changed("fit new pump-bolt", "fit new pump-b$0olt");
  expect(refusal(bolt, "cover-bolts")).toMatch(
    /“cover-bolts” is taken: .+“Cover bolts”.+wren-4\.torquil, line \d+/,
  );
  expect(refusal(bolt, "pump-bolt")).toContain("its name already");
  for (const odd of ["", "7", "two words", "a,b", "x{", '"x"', "-x", "a--b", "N·m", "a//b", "a\nb"])
    expect(refusal(bolt, odd)).toContain("is no name");
  // A name of the procedure would hide the machine's.
  expect(refusal(changed("part cover", "part co$0ver"), "pin")).toMatch(
    /“pin” (is taken|would then mean)|line/,
  );
  expect(refusal(changed("stage snug  with", "stage sn$0ug  with"), "final")).toContain("is taken");
});

test("a use that meant nothing may come to mean what is renamed", () => {
  const at = changed("part cover ", "part lid$0 ");
  expect(renamed(at, "cover")).toMatchObject({ edits: [{ file: "wren-4.torquil" }] });
});

const PROJECTS = [
  "examples/tractor",
  "examples/marine-generator",
  "examples/faulty",
  "tests/grammar/fixtures",
];

test("random renames over the examples: the same findings but for the name, formatted as before", () => {
  const random = seeded(11);
  const words = [...KEYWORDS].filter((w) => /^[a-z-]+$/.test(w));
  let done = 0;
  let refused = 0;
  for (const folder of PROJECTS) {
    const texts = Object.fromEntries(
      examplesIn(folder).map((e) => [e.path.slice(folder.length + 1), e.text]),
    );
    const project = projectOf(texts);
    const before = findingsOf(project);
    const things = [...project.files.values()].flatMap((f) => f.things).filter((t) => t.named);
    for (let round = 0; round < 20; round++) {
      const thing = pick(random, things);
      const to = pick(random, [
        pick(random, words),
        `zz-${round}`,
        "Öldruck",
        "ключ",
        "x",
        "a-very-long-name-indeed",
        pick(random, things).name,
      ]);
      const position = { line: thing.place.line, character: thing.place.start };
      const result = rename(project, thing.file, position, to);
      if ("refused" in result) {
        expect(result.refused).not.toMatch(/\{\w+\}/);
        refused++;
        continue;
      }
      done++;
      const afterwards = tried(project, result.edits);
      expect(findingsOf(afterwards).length, `${thing.name} → ${to}`).toBe(before.length);
      expect(codesOf(afterwards)).toEqual(codesOf(project));
      for (const [path, { document }] of afterwards.files) {
        const old = project.files.get(path)?.document;
        if (!old || old === document || documentText(old) !== formatDocument(old, findUnit)) continue;
        expect(documentText(document)).toBe(formatDocument(document, findUnit));
      }
      // And back again: the very texts there were.
      const spot = afterwards.files.get(thing.file)?.things[
        project.files.get(thing.file)?.things.indexOf(thing) ?? -1
      ];
      const again =
        spot &&
        rename(afterwards, spot.file, { line: spot.place.line, character: spot.place.start }, thing.name);
      expect(again && "edits" in again && textsAfter(afterwards, again.edits)).toEqual(texts);
    }
  }
  expect(done).toBeGreaterThan(30);
  expect(refused).toBeGreaterThan(0);
}, 60_000);

const findingsOf = (project: Project): string[] =>
  [...checkProject(project).values()]
    .flat()
    .map((f) => `${f.place.file}:${f.place.line} ${f.code} ${findingText(f)}`);
const codesOf = (project: Project): string[] =>
  [...checkProject(project).values()]
    .flat()
    .map((f) => `${f.place.file}:${f.place.line} ${f.code} ${f.severity}`);
