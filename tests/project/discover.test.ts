/** What is named becomes the files meant: folders, patterns and links, each file once, in its own project. */
import { expect, test } from "vitest";
import { discover } from "../../server/project/discover";
import { type MemoryEntry, memoryFiles } from "../../server/project/memory";

/** What is found for some names in /home: `root: files`, and the problems as `path: message`. */
function found(entries: Readonly<Record<string, MemoryEntry>>, ...names: string[]) {
  const { projects, problems } = discover(memoryFiles(entries), "/home", names);
  return {
    files: projects.map(({ root, files }) => `${root}: ${files.join(" ")}`),
    problems: problems.map(({ path, message }) => `${path}: ${message}`),
  };
}

const TREE = {
  "/home/p/torquil.json": "{}",
  "/home/p/a.torquil": "",
  "/home/p/jobs/b.torquil": "",
  "/home/p/jobs/deep/c.torquil": "",
  "/home/p/jobs/readme.md": "",
  "/home/p/node_modules/kit/d.torquil": "",
  "/home/p/dist/e.torquil": "",
  "/home/p/.git/f.torquil": "",
};

test("a folder gives its files in the order of names, but not those of packages, builds and version control", () => {
  expect(found(TREE, "p")).toEqual({
    files: ["/home/p: a.torquil jobs/b.torquil jobs/deep/c.torquil"],
    problems: [],
  });
});

test("a file, a folder and a pattern that mean the same give each file once", () => {
  const { files } = found(TREE, "p/jobs/b.torquil", "p/jobs", "p/**/*.torquil");
  expect(files).toEqual(["/home/p: jobs/b.torquil jobs/deep/c.torquil a.torquil"]);
});

test("a pattern means files, and folders with all below them", () => {
  expect(found(TREE, "p/*.torquil").files).toEqual(["/home/p: a.torquil"]);
  expect(found(TREE, "p/*").files).toEqual(["/home/p: a.torquil jobs/b.torquil jobs/deep/c.torquil"]);
  expect(found(TREE, "p/{jobs,other}/*.torquil").files).toEqual(["/home/p: jobs/b.torquil"]);
  expect(found(TREE, "p/x*.torquil").problems).toEqual([
    "p/x*.torquil: No .torquil file matches this pattern.",
  ]);
  expect(found({ "/home/a[1].torquil": "" }, "a[1].torquil").files).toEqual(["/home: a[1].torquil"]);
});

test("the project is the nearest folder with settings, else the nearest under version control, else the folder named", () => {
  const both = {
    "/home/.git/HEAD": "",
    "/home/s/torquil.json": "{}",
    "/home/s/x/.git/HEAD": "",
    "/home/s/x/a.torquil": "",
  };
  expect(found(both, "s/x/a.torquil").files).toEqual(["/home/s: x/a.torquil"]);
  expect(found(both, "s").files).toEqual(["/home/s: x/a.torquil"]);
  const git = {
    "/home/.git/HEAD": "",
    "/home/m/.git/HEAD": "",
    "/home/m/n/a.torquil": "",
    "/home/b.torquil": "",
  };
  expect(found(git, "m/n/a.torquil").files).toEqual(["/home/m: n/a.torquil"]);
  expect(found(git, ".").files).toEqual(["/home: b.torquil", "/home/m: n/a.torquil"]);
  expect(found({ "/home/x/y/a.torquil": "" }, "x").files).toEqual(["/home/x: y/a.torquil"]);
  expect(found({ "/home/x/y/a.torquil": "" }, "x/y/a.torquil").files).toEqual(["/home/x/y: a.torquil"]);
});

test("projects in a folder are found as such", () => {
  const tree = { "/home/all/p/torquil.json": "{}", "/home/all/p/a.torquil": "", "/home/all/b.torquil": "" };
  expect(found(tree, "all").files).toEqual(["/home/all: b.torquil", "/home/all/p: a.torquil"]);
});

test("what settings skip is not looked at, but may be named", () => {
  const tree = { ...TREE, "/home/p/torquil.json": '{ "skip": ["jobs/deep", "*.torquil"] }' };
  expect(found(tree, "p").files).toEqual(["/home/p: jobs/b.torquil"]);
  expect(found(tree, "p/a.torquil").files).toEqual(["/home/p: a.torquil"]);
});

test("what is missing is told, with the name that was probably meant", () => {
  expect(found(TREE, "p/jobs/bb.torquil", "nothing").problems).toEqual([
    "/home/p/jobs/bb.torquil: There is no such file or folder.",
    "/home/nothing: There is no such file or folder.",
  ]);
  expect(found({ "/home/belt-service.torquil": "" }, "belt-servise.torquil").problems).toEqual([
    "/home/belt-servise.torquil: There is no such file or folder. Did you mean belt-service.torquil?",
  ]);
  expect(found(TREE, "p/jobs/readme.md").problems).toEqual([
    "/home/p/jobs/readme.md: This is not a procedure file: their names end in .torquil.",
  ]);
  expect(found({ "/home/x/readme.md": "" }, "x").problems).toEqual([
    "/home/x: There is no .torquil file in this folder.",
  ]);
});

test("a link within the project is followed, to each file once", () => {
  const tree = {
    ...TREE,
    "/home/p/jobs/link": { link: "../more" },
    "/home/p/more/m.torquil": "",
    "/home/p/z.torquil": { link: "a.torquil" },
  };
  expect(found(tree, "p").files).toEqual([
    "/home/p: a.torquil jobs/b.torquil jobs/deep/c.torquil more/m.torquil",
  ]);
});

test("a link that leads outside, in a loop, or to nothing is a problem; the other files are still found", () => {
  const tree = {
    ...TREE,
    "/etc/secret.torquil": "",
    "/home/p/jobs/out.torquil": { link: "/etc/secret.torquil" },
    "/home/p/jobs/outside": { link: "/etc" },
    "/home/p/jobs/up": { link: ".." },
    "/home/p/jobs/one.torquil": { link: "two.torquil" },
    "/home/p/jobs/two.torquil": { link: "one.torquil" },
    "/home/p/jobs/gone.torquil": { link: "none.torquil" },
    "/home/p/jobs/gone": { link: "none" },
  };
  const { files, problems } = found(tree, "p");
  expect(files).toEqual(["/home/p: a.torquil jobs/b.torquil jobs/deep/c.torquil"]);
  expect(problems.map((one) => one.split(/[:.] /)[0])).toEqual([
    "/home/p/jobs/gone.torquil",
    "/home/p/jobs/one.torquil",
    "/home/p/jobs/out.torquil",
    "/home/p/jobs/outside",
    "/home/p/jobs/two.torquil",
    "/home/p/jobs/up",
  ]);
  expect(problems[2]).toMatch(/leads outside the project folder/);
  expect(problems[5]).toMatch(/leads back to where it came from/);
  expect(found(tree, "p/jobs/out.torquil")).toMatchObject({
    files: [],
    problems: [expect.stringMatching(/outside/)],
  });
  expect(found(tree, "p/jobs/one.torquil")).toMatchObject({
    files: [],
    problems: [expect.stringMatching(/leads back/)],
  });
});

test("a link out of the project may be skipped by the settings", () => {
  const tree = {
    ...TREE,
    "/home/p/photos": { link: "/etc" },
    "/etc/x": "",
    "/home/p/torquil.json": '{ "skip": ["photos"] }',
  };
  expect(found(tree, "p").problems).toEqual([]);
});
