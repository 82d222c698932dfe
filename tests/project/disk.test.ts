/** The disk: what is read is what stands there, what is written is written whole, and each problem has its name. */

import { spawnSync } from "node:child_process";
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { diskFiles } from "../../server/project/disk";

let folder = "";
const at = (name: string): string => join(folder, name);

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "torquil-disk-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** The number of a process that has ended. */
function endedProcess(): number {
  return spawnSync(process.execPath, ["-e", ""]).pid;
}

test("a file is read, listed and found; what is not there is missing", () => {
  const files = diskFiles();
  writeFileSync(at("b.torquil"), "torquil 1\n");
  mkdirSync(at("a"));
  symlinkSync("b.torquil", at("c"));
  expect(files.readText(at("b.torquil"))).toEqual({ text: "torquil 1\n" });
  expect(files.list(folder)).toEqual({
    entries: [
      { name: "a", kind: "folder" },
      { name: "b.torquil", kind: "file" },
      { name: "c", kind: "link" },
    ],
  });
  expect(files.look(at("c"))).toEqual({ kind: "file" });
  expect(files.realPath(at("c"))).toEqual(files.realPath(at("b.torquil")));
  for (const wrong of ["none", "b.torquil/none", "zero\0byte", "x".repeat(5000)])
    expect(files.readText(at(wrong))).toMatchObject({ problem: { kind: "missing" } });
});

test("a folder, a pipe and a link in a loop are told, without waiting", () => {
  const files = diskFiles();
  mkdirSync(at("folder"));
  symlinkSync("two", at("one"));
  symlinkSync("one", at("two"));
  spawnSync("mkfifo", [at("pipe")]);
  expect(files.readText(at("folder"))).toEqual({ problem: { kind: "folder" } });
  expect(files.readText(at("one"))).toMatchObject({ problem: { kind: "link-loop" } });
  expect(files.readText(at("pipe"))).toEqual({ problem: { kind: "not-a-file" } });
});

test("writing makes folders, keeps the rights of what stood there, and leaves nothing else behind", () => {
  const files = diskFiles();
  expect(files.write(at("deep/er/new"), "one")).toBeNull();
  expect(readFileSync(at("deep/er/new"), "utf8")).toBe("one");
  chmodSync(at("deep/er/new"), 0o640);
  expect(files.write(at("deep/er/new"), new Uint8Array([65]))).toBeNull();
  expect(readFileSync(at("deep/er/new"), "utf8")).toBe("A");
  expect(statSync(at("deep/er/new")).mode & 0o777).toBe(0o640);
  expect(readdirSync(at("deep/er"))).toEqual(["new"]);
});

test("a link that is written through stays a link", () => {
  const files = diskFiles();
  mkdirSync(at("there"));
  writeFileSync(at("there/file"), "old");
  symlinkSync("there/file", at("link"));
  expect(files.write(at("link"), "new")).toBeNull();
  expect(readFileSync(at("there/file"), "utf8")).toBe("new");
  expect(
    readdirSync(folder, { withFileTypes: true })
      .find((entry) => entry.name === "link")
      ?.isSymbolicLink(),
  ).toBe(true);
});

test("a write that fails leaves what stood there, and no half file", () => {
  const files = diskFiles();
  mkdirSync(at("folder"));
  writeFileSync(at("file"), "old");
  expect(files.write(at("folder"), "new")).toMatchObject({ kind: "folder" });
  expect(files.write(at("file/below"), "new")).not.toBeNull();
  expect(readFileSync(at("file"), "utf8")).toBe("old");
  expect(readdirSync(folder)).toEqual(["file", "folder"]);
});

test("what a killed run left is swept up; a running one's is not", () => {
  writeFileSync(at(`.torquil-${endedProcess()}-1.part`), "half");
  writeFileSync(at(`.torquil-${process.ppid}-1.part`), "being written");
  writeFileSync(at(".torquil-notes.part"), "somebody's own");
  expect(diskFiles().write(at("file"), "new")).toBeNull();
  expect(readdirSync(folder)).toEqual(
    [`.torquil-${process.ppid}-1.part`, ".torquil-notes.part", "file"].sort(),
  );
});

test("what has not changed for long is swept up whoever bears its number, folders too", () => {
  const left = at(`.torquil-${process.ppid}-1.part`);
  mkdirSync(join(left, "jobs"), { recursive: true });
  writeFileSync(join(left, "jobs/half"), "half");
  const anHourAgo = Date.now() / 1000 - 3600;
  utimesSync(left, anHourAgo, anHourAgo);
  expect(diskFiles().write(at("file"), "new")).toBeNull();
  expect(readdirSync(folder)).toEqual(["file"]);
});

test("new files are made all at once, in a folder that is there and in one that is not", () => {
  const files = diskFiles();
  writeFileSync(at("mine"), "mine");
  expect(files.create(folder, { one: "1", "deep/er/two": "2" })).toBeNull();
  expect(files.create(at("new/folder"), { one: "1", "deep/two": "2" })).toBeNull();
  expect(readdirSync(folder).sort()).toEqual(["deep", "mine", "new", "one"]);
  expect(readFileSync(at("deep/er/two"), "utf8")).toBe("2");
  expect(readdirSync(at("new/folder")).sort()).toEqual(["deep", "one"]);
  expect(readdirSync(at("new"))).toEqual(["folder"]);
});

test("when one of them cannot be made, none is, and what stood there stays", () => {
  const files = diskFiles();
  writeFileSync(at("b"), "mine");
  expect(files.create(folder, { a: "1", "deep/er/a": "1", b: "2", c: "3" })).toEqual({
    path: at("b"),
    problem: { kind: "exists", detail: "EEXIST" },
  });
  expect(files.create(folder, { a: "1", "b/below": "2" })?.path).toBe(at("b/below"));
  expect(readdirSync(folder)).toEqual(["b"]);
  expect(readFileSync(at("b"), "utf8")).toBe("mine");
  expect(files.create(at("b/new/folder"), { a: "1" })).not.toBeNull();
  expect(readdirSync(folder)).toEqual(["b"]);
});
