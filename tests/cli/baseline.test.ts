/** The baseline file: what is recorded is hidden, wherever it moves to, and what has gone is named. */
import { expect, test } from "vitest";
import type { MemoryEntry } from "../../server/project/memory";
import { inProcess } from "./in-process";

const WRONG = 'torquil 1\n\nuse "none.torquil"\n';
const WARNED = 'torquil 1\n\nallow no-such-code "x"\n';
const START = { "/home/jobs/a.torquil": WRONG, "/home/jobs/b.torquil": WARNED };

type Entries = Readonly<Record<string, MemoryEntry>>;

/** Records what is found in these files, and gives them back with the baseline beside. */
async function recorded(entries: Entries, ...args: string[]): Promise<Record<string, MemoryEntry>> {
  const { code, read } = await inProcess(
    ["check", ...args, "--baseline", "known.json", "--write-baseline"],
    entries,
  );
  expect(code).toBe(0);
  return { ...entries, "/home/known.json": read("/home/known.json") ?? "" };
}

const checked = (entries: Entries, ...args: string[]) =>
  inProcess(["check", "--baseline", "known.json", ...args], entries);

test("it is a file for a review: a finding a line, sorted, with file, code and words", async () => {
  const { "/home/known.json": text } = await recorded(START);
  const { version, findings } = JSON.parse(text as string);
  expect(version).toBe(1);
  expect(findings.map((one: { file: string; code: string }) => [one.file, one.code])).toEqual([
    ["jobs/a.torquil", "missing-file"],
    ["jobs/b.torquil", "allows-unknown"],
  ]);
  expect(findings[0].message).toMatch(/none\.torquil/);
  expect((text as string).split("\n").filter((line) => line.includes('"code"'))).toHaveLength(2);
  // Once more gives the same bytes, from another folder too.
  const again = await inProcess(
    ["check", "--baseline", "known.json", "--write-baseline"],
    await recorded(START),
  );
  expect(again.read("/home/known.json")).toBe(text);
});

test("what is recorded is hidden and counted, and the rest is found as before", async () => {
  const entries = await recorded(START);
  const same = await checked(entries);
  expect(same).toMatchObject({
    code: 0,
    out: "Nothing found in 2 files.\nHidden, since the baseline records it: 1 error, 1 warning.\n",
  });
  const more = await checked({
    ...entries,
    "/home/jobs/b.torquil": WARNED.replace("torquil 1\n", 'torquil 1\n\nuse "gone.torquil"\n'),
  });
  expect(more.code).toBe(1);
  expect(more.out).toContain("gone.torquil");
  expect(more.out).not.toContain("no-such-code");
  expect(more.out).toMatch(
    /1 error in 2 files\.\nHidden, since the baseline records it: 1 error, 1 warning\.\n$/,
  );
  expect((await checked(entries, "--no-baseline")).code).toBe(2);
  expect((await inProcess(["check", "--no-baseline"], entries)).code).toBe(1);
});

test("it survives that lines move, and does not hide the same fault a second time", async () => {
  const entries = await recorded(START);
  const moved = { ...entries, "/home/jobs/a.torquil": WRONG.replace("use", "// one\n// two\n\nuse") };
  expect((await checked(moved)).code).toBe(0);
  const twice = { ...entries, "/home/jobs/a.torquil": `${WRONG}use "none.torquil"\n` };
  const { code, out } = await checked(twice);
  expect(code).toBe(1);
  expect(out.match(/\[missing-file\]/g)).toHaveLength(1);
  const both = await recorded(twice);
  expect(JSON.parse(both["/home/known.json"] as string).findings[0].count).toBe(2);
  expect((await checked(both)).code).toBe(0);
});

test("what is no longer found is named, and taken out when it is written anew", async () => {
  const entries = await recorded(START);
  const mended = { ...entries, "/home/jobs/a.torquil": "torquil 1\n" };
  const { code, out } = await checked(mended);
  expect(code).toBe(0);
  expect(out).toMatch(
    /In the baseline there is 1 entry that is no longer found:\n {2}jobs\/a\.torquil: .*none\.torquil.* \[missing-file\]\nTake them out with --write-baseline\.\n$/,
  );
  const { "/home/jobs/a.torquil": _, ...gone } = entries;
  expect((await checked(gone)).out).toContain("1 entry that is no longer found");
  const anew = await recorded(mended);
  expect(JSON.parse(anew["/home/known.json"] as string).findings).toHaveLength(1);
});

test("of files that are not looked at, nothing is said and nothing is taken out", async () => {
  const entries = await recorded(START);
  const { out } = await checked(entries, "jobs/b.torquil");
  expect(out).toBe("Nothing found in 1 file.\nHidden, since the baseline records it: 1 warning.\n");
  const anew = await recorded(entries, "jobs/b.torquil");
  expect(anew["/home/known.json"]).toBe(entries["/home/known.json"]);
});

test("the settings name the baseline of a project, from its folder", async () => {
  const settings = { "/home/jobs/torquil.json": '{ "baseline": "old/known.json" }' };
  const first = await inProcess(["check", "jobs", "--write-baseline"], { ...START, ...settings });
  expect(first.err).toBe("Written: jobs/old/known.json.\n");
  const text = first.read("/home/jobs/old/known.json") ?? "";
  expect(JSON.parse(text).findings[0].file).toBe("../a.torquil");
  const entries = { ...START, ...settings, "/home/jobs/old/known.json": text };
  expect((await inProcess(["check", "jobs"], entries)).code).toBe(0);
  expect((await inProcess(["check", "jobs", "--no-baseline"], entries)).code).toBe(1);
});

test("reports leave out what is hidden; JSON tells what the baseline did", async () => {
  const entries = await recorded(START);
  const json = JSON.parse(
    (await checked({ ...entries, "/home/jobs/a.torquil": "torquil 1\n" }, "--json")).out,
  );
  expect(json.findings).toEqual([]);
  expect(json.baseline).toEqual({
    hidden: { errors: 0, warnings: 1, hints: 0 },
    stale: [{ file: "jobs/a.torquil", code: "missing-file", message: expect.stringMatching(/none/) }],
  });
  expect(JSON.parse((await checked(entries, "--report", "sarif")).out).runs[0].results).toEqual([]);
});

test("printing refuses errors that are recorded all the same", async () => {
  const job =
    'torquil 1\n\nmachine winch "Winch" {\n  part drum "Drum"\n}\n\nprocedure p "Look" {\n  on winch\n  remove none\n}\n';
  const entries = await recorded({
    "/home/a.torquil": job,
    "/home/torquil.json": '{ "baseline": "known.json" }',
  });
  expect((await inProcess(["check"], entries)).code).toBe(0);
  expect((await inProcess(["print", "--to", "html"], entries)).code).toBe(1);
});

test("a baseline that cannot be read is told and hides nothing", async () => {
  const told = async (known: string | undefined): Promise<string> => {
    const { code, out, err } = await checked({
      ...START,
      ...(known === undefined ? {} : { "/home/known.json": known }),
    });
    expect(code).toBe(2);
    expect(out).toMatch(/1 error, 1 warning in 2 files; 1 problem with reading/);
    return err;
  };
  expect(await told(undefined)).toBe(
    'known.json: error: There is no such baseline file. "torquil check --write-baseline" makes it.\n',
  );
  expect(await told("{")).toMatch(
    /is no JSON any more\. Bring back its last good state, or ".*" makes it anew\.$/m,
  );
  expect(await told('{ "findings": [] }')).toMatch(
    /This is not a baseline file, or has been changed by hand\./,
  );
  expect(await told('{ "version": 2, "findings": [] }')).toMatch(/written by a newer Torquil/);
});

test("wrong use is told, and nothing is written where something could not be read", async () => {
  const where = await inProcess(["check", "--write-baseline"], START);
  expect(where.code).toBe(2);
  expect(where.err).toMatch(/^error: Say which file: --baseline FILE/);
  const unread = await inProcess(["check", "--baseline", "known.json", "--write-baseline"], {
    ...START,
    "/home/c.torquil": new Uint8Array([0xff]),
  });
  expect(unread.code).toBe(2);
  expect(unread.err).toContain("The baseline is not written: put right first what cannot be read.");
  expect(unread.read("/home/known.json")).toBeUndefined();
});
