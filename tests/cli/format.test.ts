/** `torquil format`: the usual form, nothing lost, nothing half written, and what cannot be formatted left alone. */
import { spawnSync } from "node:child_process";
import { chmodSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeAll, expect, test } from "vitest";
import { inProcess } from "./in-process";
import { buildBundle, discard, folderWith, torquil } from "./process";

beforeAll(buildBundle);

let folder = "";
afterEach(() => {
  if (folder) discard(folder);
  folder = "";
});

const LOOSE = 'torquil 1\n\n\nmachine winch "Hand winch" {   // ours\n part drum   "Drum"  weight 4 kg\n}\n';
const USUAL = 'torquil 1\n\nmachine winch "Hand winch" {  // ours\n  part drum "Drum"  weight 4 kg\n}\n';
const UNBALANCED = 'torquil 1\n\nmachine winch "Hand winch" {\n part drum "Drum"\n';

test("files are brought into the usual form, and those that are in it stay", async () => {
  const { code, out, err, read } = await inProcess(["format"], {
    "/home/a.torquil": LOOSE,
    "/home/b.torquil": USUAL,
  });
  expect({ code, err }).toEqual({ code: 0, err: "" });
  expect(out).toBe("a.torquil is formatted.\n1 file formatted, 1 file in the usual form already.\n");
  expect(read("/home/a.torquil")).toBe(USUAL);
  expect(read("/home/b.torquil")).toBe(USUAL);
});

test("a byte order mark and the kind of line ends stay", async () => {
  const windows = (text: string): string => `\ufeff${text.replaceAll("\n", "\r\n")}`;
  const { read } = await inProcess(["format"], { "/home/a.torquil": windows(LOOSE) });
  expect(read("/home/a.torquil")).toBe(windows(USUAL));
  const again = await inProcess(["format", "--check"], { "/home/a.torquil": windows(USUAL) });
  expect(again.code).toBe(0);
});

test("with --check nothing is written, and the first line that differs is shown", async () => {
  const { code, out, read } = await inProcess(["format", "--check"], {
    "/home/a.torquil": LOOSE,
    "/home/b.torquil": USUAL,
  });
  expect(code).toBe(1);
  expect(out).toBe(
    [
      "a.torquil:3: not in the usual form",
      "    3 - ",
      '      + machine winch "Hand winch" {  // ours',
      "1 file not in the usual form, 1 file in the usual form already.",
      "",
    ].join("\n"),
  );
  expect(read("/home/a.torquil")).toBe(LOOSE);
  expect((await inProcess(["format", "--check"], { "/home/b.torquil": USUAL })).code).toBe(0);
});

test("a difference at the end of a file is shown too", async () => {
  const { code, out } = await inProcess(["format", "--check"], { "/home/a.torquil": USUAL.trimEnd() });
  expect(code).toBe(1);
  expect(out).toMatch(/^a\.torquil:\d+: not in the usual form\n/);
});

test("a file whose braces do not balance is left alone; the others are formatted", async () => {
  const { code, out, err, read } = await inProcess(["format"], {
    "/home/a.torquil": UNBALANCED,
    "/home/b.torquil": LOOSE,
  });
  expect(code).toBe(1);
  expect(err).toMatch(
    /^a\.torquil:3:1: error: The braces here do not balance, so the file is left as it is\./,
  );
  expect(out).toBe("b.torquil is formatted.\n1 file formatted, 1 file left alone.\n");
  expect(read("/home/a.torquil")).toBe(UNBALANCED);
});

test("what cannot be read is 2, and the others are formatted", async () => {
  const entries = {
    "/home/a.torquil": new Uint8Array([0xff]),
    "/home/b.torquil": LOOSE,
    "/home/torquil.json": "{",
  };
  const { code, err, read } = await inProcess(["format", ".", "gone.torquil"], entries);
  expect(code).toBe(2);
  expect(err).toMatch(
    /^gone\.torquil: error: There is no such file.*\na\.torquil:1:1: error: This is not UTF-8/,
  );
  expect(read("/home/b.torquil")).toBe(USUAL);
});

test("a text on the standard input comes out formatted, or not at all", async () => {
  expect(await inProcess(["format", "--stdin"], {}, { stdin: LOOSE })).toMatchObject({
    code: 0,
    out: USUAL,
    err: "",
  });
  const unbalanced = await inProcess(["format", "--stdin"], {}, { stdin: UNBALANCED });
  expect(unbalanced).toMatchObject({ code: 1, out: "" });
  expect(unbalanced.err).toMatch(/^standard input:3:1: error: /);
  expect(await inProcess(["format", "--stdin"], {}, { stdin: new Uint8Array([0x61, 0]) })).toMatchObject({
    code: 2,
    out: "",
  });
  expect(await inProcess(["format", "--stdin", "--check"], {}, { stdin: LOOSE })).toMatchObject({ code: 1 });
  expect(await inProcess(["format", "--stdin", "--check"], {}, { stdin: USUAL })).toMatchObject({
    code: 0,
    out: "",
  });
  expect((await inProcess(["format", "--stdin", "a.torquil"])).err).toContain("--stdin takes no paths");
  expect((await inProcess(["format", "-"])).code).toBe(2);
});

test("the bundle reads its standard input to the end and gives every byte", () => {
  folder = folderWith({});
  const long = `torquil 1\n\n${"// “N·m”, 20 °C\n".repeat(40_000)}`;
  expect(torquil(folder, ["format", "--stdin"], { input: long })).toEqual({ code: 0, out: long, err: "" });
});

test("on the disk a file keeps its rights, and no other file is left", () => {
  folder = folderWith({ "a.torquil": LOOSE });
  chmodSync(join(folder, "a.torquil"), 0o640);
  expect(torquil(folder, ["format"]).code).toBe(0);
  expect(readFileSync(join(folder, "a.torquil"), "utf8")).toBe(USUAL);
  expect(statSync(join(folder, "a.torquil")).mode & 0o777).toBe(0o640);
  expect(readdirSync(folder)).toEqual(["a.torquil"]);
});

test("a write that fails half-way leaves the old file; what a killed run left is swept up by the next", () => {
  const long = `${LOOSE}${"// a remark\n".repeat(5_000)}`;
  folder = folderWith({ "a.torquil": long });
  const failed = torquil(folder, ["format"], { fileBlocks: 8 });
  expect(failed.code).not.toBe(0);
  expect(failed.err).not.toMatch(/^\s+at /m);
  expect(readFileSync(join(folder, "a.torquil"), "utf8")).toBe(long);
  const ended = spawnSync(process.execPath, ["-e", ""]).pid;
  writeFileSync(join(folder, `.torquil-${ended}-1.part`), "half");
  expect(torquil(folder, ["format"]).code).toBe(0);
  expect(readFileSync(join(folder, "a.torquil"), "utf8").startsWith(USUAL)).toBe(true);
  expect(readdirSync(folder)).toEqual(["a.torquil"]);
});
