/** `torquil new`: what it makes checks clean, is in the usual form, and prints; and nothing is ever written over. */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeAll, expect, test } from "vitest";
import { nameFrom, STARTER, starterFiles } from "../../server/cli/starter";
import { inProcess } from "./in-process";
import { buildBundle, discard, folderWith, torquil } from "./process";

beforeAll(buildBundle);

let folder = "";
afterEach(() => {
  if (folder) discard(folder);
  folder = "";
});

test("a new project has no findings, hints included, is formatted, and prints", () => {
  folder = folderWith({});
  const made = torquil(folder, ["new", "jobs"]);
  expect(made).toMatchObject({ code: 0, err: "" });
  expect(made.out.split("\n").slice(0, 4)).toEqual([
    "jobs/torquil.json",
    "jobs/wren-12-rinse-pump.torquil",
    "jobs/renew-the-impeller.torquil",
    "",
  ]);
  expect(torquil(folder, ["check", "jobs"]).out).toBe("Nothing found in 2 files.\n");
  expect(torquil(folder, ["format", "--check", "jobs"]).out).toBe("2 files in the usual form already.\n");
  const printed = torquil(folder, ["print", "jobs", "--to", "both", "--out", "sheets"]);
  expect(printed).toMatchObject({ code: 0, err: "" });
  expect(readdirSync(join(folder, "sheets"))).toEqual(["W12-0001.html", "W12-0001.pdf", "index.html"]);
  expect(readdirSync(folder).sort()).toEqual(["jobs", "sheets"]);
});

test("what it says to do next can be done", () => {
  folder = folderWith({});
  const { out } = torquil(folder, ["new", "my jobs"]);
  const lines = out.split("\n").filter((line) => line.startsWith("  torquil "));
  expect(lines).toEqual(['  torquil check "my jobs"', '  torquil print "my jobs" --to both --out sheets']);
  expect(torquil(folder, ["check", "my jobs"]).code).toBe(0);
});

test("titles of one's own, whatever is in them", async () => {
  const { code, read } = await inProcess([
    "new",
    "--machine",
    'The "Öl" \\ pump',
    "--title",
    "12 Öle",
    "--paper",
    "letter",
  ]);
  expect(code).toBe(0);
  expect(read("/home/torquil.json")).toContain('"paper": "letter"');
  const entries = Object.fromEntries(
    ["torquil.json", "the-öl-pump.torquil", "öle.torquil"].map((file) => [
      `/home/${file}`,
      read(`/home/${file}`) ?? "",
    ]),
  );
  expect((await inProcess(["check"], entries)).out).toBe("Nothing found in 2 files.\n");
  const page = (await inProcess(["print", "--to", "html"], entries)).read("/home/W12-0001.html");
  expect(page).toContain('The "Öl" \\ pump');
});

test("the same title twice gives two files, and a name is always one", () => {
  const files = starterFiles({ ...STARTER, machineTitle: "Pump", procedureTitle: "Pump" });
  expect(Object.keys(files)).toEqual(["torquil.json", "pump.torquil", "pump-job.torquil"]);
  expect(nameFrom("  4 × 4, 2nd: Öl/Filter ", "x")).toBe("öl-filter");
  expect(nameFrom("3 + 4", "machine")).toBe("machine");
  expect(nameFrom("x".repeat(200), "")).toHaveLength(60);
});

test("whatever stands in the way is listed, and nothing is made", () => {
  folder = folderWith({ "torquil.json": "{}", "renew-the-impeller.torquil": "mine\n" });
  const { code, out, err } = torquil(folder, ["new"]);
  expect({ code, out }).toEqual({ code: 1, out: "" });
  expect(err).toBe(
    "error: These 2 files are there already, and nothing is written over:\n  torquil.json\n  renew-the-impeller.torquil\nNothing was made. Name a new folder, or move them away.\n",
  );
  expect(readdirSync(folder).sort()).toEqual(["renew-the-impeller.torquil", "torquil.json"]);
  expect(readFileSync(join(folder, "renew-the-impeller.torquil"), "utf8")).toBe("mine\n");
});

test("beside other files it makes its own; a file for a folder is refused", () => {
  folder = folderWith({ "readme.txt": "mine\n" });
  expect(torquil(folder, ["new"]).code).toBe(0);
  expect(readdirSync(folder)).toHaveLength(4);
  for (const where of ["readme.txt", "readme.txt/jobs/new"]) {
    const { code, err } = torquil(folder, ["new", where]);
    expect(code).toBe(1);
    expect(err).toMatch(/^error: This is there already, and nothing is written over:\n {2}readme\.txt\n/);
  }
});

test("when the disk takes no more, nothing is made", () => {
  folder = folderWith({ "here/readme.txt": "mine\n" });
  for (const where of ["here", "there"]) {
    // The system lets this process write no file of more than two blocks, and the procedure has more.
    const { code, err } = torquil(folder, ["new", where], { fileBlocks: 2 });
    expect(code).not.toBe(0);
    expect(err).not.toMatch(/^\s+at /m);
  }
  writeFileSync(join(folder, "here/after.txt"), "");
  expect(torquil(folder, ["new", "here"]).code).toBe(0);
  expect(torquil(folder, ["new", "there"]).code).toBe(0);
  expect(readdirSync(folder).sort()).toEqual(["here", "there"]);
  expect(readdirSync(join(folder, "here"))).toHaveLength(5);
});

test("wrong use is told", async () => {
  const wrong = async (...args: string[]) => {
    const { code, err } = await inProcess(["new", ...args]);
    expect(code).toBe(2);
    return err.split("\n")[0];
  };
  expect(await wrong("my", "jobs")).toBe(
    "error: One folder is made at a time, not 2. Put a name with spaces in quotes.",
  );
  expect(await wrong("--title", "a\nb")).toBe("error: The option --title takes a title of one line.");
  expect(await wrong("--machine", " ")).toBe("error: The option --machine takes a title of one line.");
  expect(await wrong("--tilte", "x")).toBe("error: There is no option --tilte. Did you mean --title?");
});
