/**
 * Names bound within and across files; links and their problems; what is kept when a file changes.
 */
import { describe, expect, test } from "vitest";
import { readDocument } from "../../grammar";
import { buildProject, type FileModel, type Project } from "../../server/model";
import { documentsOf, projectOf, resolver } from "../support/project";

const MACHINE = `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
  part cover "Cover" {
    face rim "Rim of the cover"
  }
  fastener cover-bolts "Cover bolts" {
    secures cover
    stage   snug  10 N·m
    stage   final 20 N·m
  }
  set side "Side" of left, right
}
`;

const PROCEDURE = `torquil 1

use "winch.torquil"

procedure open-up "Open the winch" {
  on winch
  tool wrench "Torque wrench"  5 to 50 N·m
  section "Work" {
    step take-off "Take the cover off" {
      remove cover-bolts, cover
    }
    step "Put back" {
      fit cover
      fit cover-bolts  by hand
      tighten cover-bolts {
        stage snug  with wrench
        stage final  with wrench
      }
    }
  }
}
`;

const file = (project: Project, path: string): FileModel => project.files.get(path) as FileModel;
const unbound = (model: FileModel): string[] =>
  model.bindings.filter((b) => b.thing === null).map((b) => b.name);

describe("binding", () => {
  test("names are found in the file and in the file it uses", () => {
    const project = projectOf({ "winch.torquil": MACHINE, "open.torquil": PROCEDURE });
    const procedure = file(project, "open.torquil");
    expect(unbound(procedure)).toEqual([]);
    const cover = procedure.bindings.find((b) => b.name === "cover");
    expect(cover?.thing?.place).toEqual({ file: "winch.torquil", line: 4, start: 7, end: 12 });
    expect(procedure.procedures[0]?.machine?.thing.name).toBe("winch");
    expect(procedure.procedures[0]?.doubtful).toBe(false);
  });

  test("a stage name means the fastener that has the stage", () => {
    const project = projectOf({
      "winch.torquil": MACHINE,
      "open.torquil": PROCEDURE.replace("stage final", "stage last"),
    });
    const stages = file(project, "open.torquil").bindings.filter((b) => b.accepts[0] === "stage");
    expect(stages.map((b) => [b.name, b.thing?.name])).toEqual([
      ["snug", "cover-bolts"],
      ["last", undefined],
    ]);
  });

  test("a name of another kind is a misfit, an unknown one is not", () => {
    const text = PROCEDURE.replace("remove cover-bolts, cover", "remove wrench, lid");
    const bindings = file(
      projectOf({ "winch.torquil": MACHINE, "open.torquil": text }),
      "open.torquil",
    ).bindings;
    const found = bindings.filter((b) => b.thing === null).map((b) => [b.name, b.misfit?.kind]);
    expect(found).toEqual([
      ["wrench", "tool"],
      ["lid", undefined],
    ]);
  });

  test("names compare in NFC", () => {
    const machine = MACHINE.replace("part drum", "part tr\u00e4ger");
    const text = PROCEDURE.replace("remove cover-bolts, cover", "remove cover-bolts, cover, tra\u0308ger");
    expect(
      unbound(file(projectOf({ "winch.torquil": machine, "open.torquil": text }), "open.torquil")),
    ).toEqual([]);
  });

  test("another procedure's tools are out of sight", () => {
    const other = `${PROCEDURE}\nprocedure shut "Shut it" {\n  on winch\n  step "Tighten" {\n    tighten cover-bolts  with wrench\n  }\n}\n`;
    expect(
      unbound(file(projectOf({ "winch.torquil": MACHINE, "open.torquil": other }), "open.torquil")),
    ).toEqual(["wrench"]);
  });

  test("faces and members of a set can be named", () => {
    const text = PROCEDURE.replace("      fit cover\n", "      clean rim\n      fit cover\n");
    expect(
      unbound(file(projectOf({ "winch.torquil": MACHINE, "open.torquil": text }), "open.torquil")),
    ).toEqual([]);
  });
});

describe("links", () => {
  test("what a used file uses is in sight too", () => {
    const project = projectOf({
      "a/winch.torquil": MACHINE,
      "a/all.torquil": `use "winch.torquil"\n`,
      "open.torquil": PROCEDURE.replace("winch.torquil", "a/all.torquil"),
    });
    expect(unbound(file(project, "open.torquil"))).toEqual([]);
  });

  test.each([
    ["missing", "nowhere.torquil"],
    ["outside", "../winch.torquil"],
  ])("a path that is %s is a problem, and unknown names then prove nothing", (problem, path) => {
    const model = file(
      projectOf({ "open.torquil": PROCEDURE.replace("winch.torquil", path) }),
      "open.torquil",
    );
    expect(model.links[0]).toMatchObject({ problem, path, place: { line: 2, start: 4 } });
    expect(model.mayDeclareMore).toBe(true);
    expect(model.procedures[0]?.doubtful).toBe(true);
  });

  test("a loop is found in each file of it, and both still see each other", () => {
    const project = projectOf({
      "winch.torquil": `use "open.torquil"\n${MACHINE}`,
      "open.torquil": PROCEDURE,
    });
    expect(file(project, "winch.torquil").links[0]?.problem).toBe("loop");
    expect(file(project, "open.torquil").links[0]?.problem).toBe("loop");
    expect(unbound(file(project, "open.torquil"))).toEqual([]);
  });

  test("a file that uses a loop is not itself in it", () => {
    const project = projectOf({
      "a.torquil": `use "b.torquil"\n`,
      "b.torquil": `use "a.torquil"\n`,
      "c.torquil": `use "a.torquil"\n`,
    });
    expect(file(project, "c.torquil").links[0]?.problem).toBeNull();
  });
});

describe("doubt", () => {
  test("a broken declaration silences unknown names, a broken act does not", () => {
    const declared = projectOf({
      "winch.torquil": MACHINE.replace("part drum", "prat drum"),
      "open.torquil": PROCEDURE,
    });
    expect(file(declared, "open.torquil").mayDeclareMore).toBe(true);
    const act = projectOf({
      "winch.torquil": MACHINE,
      "open.torquil": PROCEDURE.replace("fit cover\n", "fit\n"),
    });
    expect(file(act, "open.torquil").mayDeclareMore).toBe(false);
    expect(file(act, "open.torquil").procedures[0]?.doubtful).toBe(true);
  });

  test("a fastener whose own block has a broken line is doubtful, its neighbours are not", () => {
    const things = file(
      projectOf({ "winch.torquil": MACHINE.replace("secures cover", "secures") }),
      "winch.torquil",
    ).things;
    expect(things.filter((t) => t.doubtful).map((t) => t.name)).toEqual(["cover-bolts"]);
  });
});

test("a machine that names what is nowhere makes the procedures on it doubtful", () => {
  const machine = MACHINE.replace("secures cover", "secures cvoer");
  const model = file(projectOf({ "winch.torquil": machine, "open.torquil": PROCEDURE }), "open.torquil");
  expect(model.procedures[0]?.doubtful).toBe(true);
  expect(model.mayDeclareMore).toBe(false);
});

describe("what is kept", () => {
  test("only files that see the change are bound again", () => {
    const texts = {
      "winch.torquil": MACHINE,
      "open.torquil": PROCEDURE,
      "other.torquil": `machine pump "Pump" {\n}\n`,
    };
    const documents = documentsOf(texts);
    const resolve = resolver(new Set(documents.keys()));
    const before = buildProject(documents, resolve);
    const changed = new Map(documents).set(
      "winch.torquil",
      readDocument(MACHINE.replace("Drum", "Rope drum")),
    );
    const after = buildProject(changed, resolve, before);
    expect(after.files.get("other.torquil")).toBe(before.files.get("other.torquil"));
    expect(after.files.get("open.torquil")).not.toBe(before.files.get("open.torquil"));
  });

  test("a used file that appears makes its names known", () => {
    const before = projectOf({ "open.torquil": PROCEDURE });
    expect(unbound(file(before, "open.torquil"))).toContain("cover");
    const after = projectOf({ "winch.torquil": MACHINE, "open.torquil": PROCEDURE }, before);
    expect(unbound(file(after, "open.torquil"))).toEqual([]);
  });
});
