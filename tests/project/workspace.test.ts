/** A project kept open: what it gives is what one opened afresh would give, whatever happened before. */
import { expect, test } from "vitest";
import { readDocument } from "../../grammar";
import { type MemoryFiles, memoryFiles } from "../../server/project/memory";
import { createWorkspace, type Workspace } from "../../server/project/workspace";

const MACHINE = 'torquil 1\n\nmachine winch "Hand winch" {\n  part drum "Drum"\n}\n';
const JOB = 'torquil 1\n\nuse "winch.torquil"\n\nprocedure drum "Drum" {\n  on winch\n}\n';
const ALLOWS = 'torquil 1\n\nallow no-such-code "Reason."\n';

/** Where the links of a file lead, or why they do not. */
function links(workspace: Workspace, file: string): (string | null)[] {
  const model = workspace.project().files.get(file);
  return (model?.links ?? []).map((link) => link.file ?? link.problem);
}

const names = (workspace: Workspace): string[] => [...workspace.project().files.keys()];

test("all files of the folder are open, and those they use", () => {
  const workspace = createWorkspace(
    memoryFiles({
      "/p/torquil.json": "{}",
      "/p/job.torquil": JOB,
      "/p/winch.torquil": MACHINE,
      "/p/inner/torquil.json": "{}",
      "/p/inner/x.torquil": "",
    }),
    "/p",
  );
  expect(names(workspace)).toEqual(["job.torquil", "winch.torquil"]);
  expect(links(workspace, "job.torquil")).toEqual(["winch.torquil"]);
  expect([...workspace.check().keys()]).toEqual(["job.torquil", "winch.torquil"]);
});

test("files that are named are open with what they use, wherever in the project that lies", () => {
  const files = memoryFiles({
    "/p/job.torquil": JOB.replace("winch.", "dist/winch."),
    "/p/other.torquil": "",
    "/p/dist/winch.torquil": MACHINE,
  });
  expect(names(createWorkspace(files, "/p", ["job.torquil"]))).toEqual(["dist/winch.torquil", "job.torquil"]);
});

test("a used file that appears, cannot be read, or vanishes is noticed when the disk is looked at again", () => {
  const files = memoryFiles({ "/p/job.torquil": JOB });
  const workspace = createWorkspace(files, "/p");
  expect(links(workspace, "job.torquil")).toEqual(["missing"]);
  files.set("/p/winch.torquil", MACHINE);
  expect(links(workspace, "job.torquil")).toEqual(["missing"]);
  workspace.refresh(["winch.torquil"]);
  expect(links(workspace, "job.torquil")).toEqual(["winch.torquil"]);
  files.set("/p/winch.torquil", new Uint8Array([0xff]));
  workspace.refresh();
  expect(links(workspace, "job.torquil")).toEqual(["unreadable"]);
  expect(workspace.problems()).toMatchObject([{ file: "winch.torquil", problem: { kind: "encoding" } }]);
  files.remove("/p/winch.torquil");
  workspace.refresh();
  expect(links(workspace, "job.torquil")).toEqual(["missing"]);
  expect(workspace.problems()).toEqual([]);
});

test("a text laid over a file counts until it is taken away; the file need not be there", () => {
  const workspace = createWorkspace(memoryFiles({ "/p/job.torquil": JOB }), "/p");
  expect(links(workspace, "job.torquil")).toEqual(["missing"]);
  workspace.setOverlay("winch.torquil", readDocument(MACHINE));
  expect(links(workspace, "job.torquil")).toEqual(["winch.torquil"]);
  workspace.setOverlay("job.torquil", ALLOWS);
  expect(
    workspace
      .check()
      .get("job.torquil")
      ?.map((one) => one.code),
  ).toEqual(["allows-unknown"]);
  workspace.remove("job.torquil");
  expect(
    workspace
      .check()
      .get("job.torquil")
      ?.map((one) => one.code),
  ).not.toContain("allows-unknown");
  workspace.remove("winch.torquil");
  expect(links(workspace, "job.torquil")).toEqual(["missing"]);
  expect(names(workspace)).toEqual(["job.torquil"]);
});

test("settings come from the disk or from the text laid over them, and decide severities", () => {
  const files = memoryFiles({ "/p/job.torquil": ALLOWS });
  const workspace = createWorkspace(files, "/p");
  const severities = (): string[] => (workspace.check().get("job.torquil") ?? []).map((one) => one.severity);
  expect(severities()).toEqual(["warning"]);
  files.set("/p/torquil.json", '{ "severities": { "allows-unknown": "error" } }');
  workspace.refresh(["torquil.json"]);
  expect(severities()).toEqual(["error"]);
  workspace.setOverlay("torquil.json", '{ "severities": { "allows-unknown": "off" } }');
  expect(severities()).toEqual([]);
  workspace.setOverlay("torquil.json", "{");
  expect(severities()).toEqual(["warning"]);
  expect(workspace.settingsProblems()).toHaveLength(1);
  workspace.remove("torquil.json");
  expect(severities()).toEqual(["error"]);
});

test("a file is named by where it really lies; one outside has no name", () => {
  const files = memoryFiles({
    "/real/p/a.torquil": "",
    "/real/p/b.torquil": { link: "a.torquil" },
    "/link": { link: "/real/p" },
    "/x": "",
  });
  const workspace = createWorkspace(files, "/link");
  expect(workspace.root).toBe("/real/p");
  expect(workspace.fileAt("/link/a.torquil")).toBe("a.torquil");
  expect(workspace.fileAt("/link/b.torquil")).toBe("a.torquil");
  expect(workspace.fileAt("/link/new.torquil")).toBe("new.torquil");
  expect(workspace.fileAt("/x")).toBeNull();
  expect(workspace.fileAt("/real/none/new.torquil")).toBeNull();
});

test("what did not change is not read, bound or checked again", () => {
  const workspace = createWorkspace(
    memoryFiles({ "/p/job.torquil": JOB, "/p/winch.torquil": MACHINE }),
    "/p",
  );
  const before = workspace.project();
  const findings = workspace.check();
  expect(workspace.check()).toBe(findings);
  workspace.refresh();
  expect(workspace.project().files.get("winch.torquil")).toBe(before.files.get("winch.torquil"));
  const settings = workspace.settings();
  workspace.refresh(["torquil.json"]);
  expect(workspace.settings()).toBe(settings);
});

test("after any changes, everything is as in a project opened afresh", () => {
  const texts = [
    MACHINE,
    JOB,
    ALLOWS,
    'use "c.torquil"\n',
    'use "a.torquil"\nuse "b.torquil"\n',
    JOB.replace("winch.", "a."),
    "",
    "machine {\n",
  ];
  const settings = ["{}", '{ "severities": { "allows-unknown": "off" } }', '{ "skip": ["b.torquil"] }', "{"];
  const places = ["a.torquil", "b.torquil", "c.torquil", "winch.torquil", "torquil.json"];
  const disk = memoryFiles({ "/p/a.torquil": MACHINE });
  const overlays = new Map<string, string>();
  const workspace = createWorkspace(disk, "/p");
  const random = numbers(7);
  let different = 0;
  let last = "";
  for (let i = 0; i < 600; i++) {
    const file = places[random(places.length)] as string;
    const choices = file === "torquil.json" ? settings : texts;
    change(disk, workspace, overlays, file, choices[random(choices.length)] as string, random(4));
    const fresh = createWorkspace(disk, "/p");
    for (const [name, text] of overlays) fresh.setOverlay(name, text);
    const now = seen(workspace);
    expect(now).toBe(seen(fresh));
    if (now !== last) different++;
    last = now;
  }
  expect(different).toBeGreaterThan(200);
});

function change(
  disk: MemoryFiles,
  workspace: Workspace,
  overlays: Map<string, string>,
  file: string,
  text: string,
  how: number,
): void {
  if (how === 0) {
    overlays.set(file, text);
    workspace.setOverlay(file, text);
  } else if (how === 1) {
    overlays.delete(file);
    workspace.remove(file);
  } else {
    if (how === 2) disk.set(`/p/${file}`, text);
    else disk.remove(`/p/${file}`);
    workspace.refresh(text.length % 2 === 0 ? [file] : undefined);
  }
}

/** Everything that can be seen of a project, as one text. */
function seen(workspace: Workspace): string {
  const files = [...workspace.project().files].map(([path, file]) => [
    path,
    file.document.lines.map((line) => line.text),
    file.links,
    file.bindings.map(({ name, thing }) => [name, thing?.id]),
  ]);
  const found = [...workspace.check()];
  return JSON.stringify([
    files,
    found,
    workspace.problems(),
    workspace.settings(),
    workspace.settingsProblems(),
  ]);
}

/** Numbers that look random and are the same every time: a linear congruence (Numerical Recipes' constants). */
function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}
