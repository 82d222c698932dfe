/** `torquil check`: what it shows, as text and as JSON, and how it ends. */
import { expect, test } from "vitest";
import { inProcess } from "./in-process";

const CLEAN = 'torquil 1\n\nuse "winch.torquil"\n';
const MACHINE = 'torquil 1\n\nmachine winch "Hand winch" {\n  part drum "Drum"\n}\n';
const WARNED = 'torquil 1\n\nallow no-such-code "x"\n';
const WRONG = 'torquil 1\n\nuse "none.torquil"\n';

test("nothing found ends with 0 and says how many files were looked at", async () => {
  const { code, out, err } = await inProcess(["check"], { "/home/a.torquil": MACHINE });
  expect({ code, out, err }).toEqual({ code: 0, out: "Nothing found in 1 file.\n", err: "" });
});

test("a finding shows place, severity, words, code, line and mark, and what to do", async () => {
  const { code, out } = await inProcess(["check", "a.torquil"], { "/home/a.torquil": WRONG });
  expect(code).toBe(1);
  const lines = out.split("\n");
  expect(lines[0]).toMatch(/^a\.torquil:3:5: error: .+ \[missing-file\]$/);
  expect(lines[1]).toBe('    3 | use "none.torquil"');
  expect(lines[2]).toBe("      |     ^^^^^^^^^^^^^^");
  expect(out).toMatch(/\n\n1 error in 1 file\.\n$/);
});

test("the other place is shown with a line of its own", async () => {
  const { out } = await inProcess(["check"], {
    "/home/a.torquil": MACHINE.replace("}", '  part drum "Again"\n}'),
  });
  expect(out).toMatch(/^a\.torquil:5:8: error: .*\[duplicate-name\]$/m);
  expect(out).toMatch(/^ {2}see a\.torquil:4:8: .+\n {4}4 \| {3}part drum "Drum"\n {6}\| {8}\^{4}$/m);
});

test("files are named as seen from the folder of the command, those they use too", async () => {
  const files = {
    "/home/torquil.json": "{}",
    "/home/jobs/a.torquil": 'torquil 1\n\nuse "../lib/m.torquil"\n',
    "/home/lib/m.torquil": WRONG,
  };
  expect((await inProcess(["check", "jobs"], files)).out).toMatch(/^lib\/m\.torquil:3:5: error/);
  const above = { "/proj/torquil.json": "{}", "/proj/a.torquil": WRONG };
  expect((await inProcess(["check", "../proj"], above)).out).toMatch(/^\/proj\/a\.torquil:3:5: error/);
});

test("warnings do not fail unless there are more than are allowed", async () => {
  const files = { "/home/a.torquil": WARNED, "/home/b.torquil": WARNED };
  expect((await inProcess(["check"], files)).code).toBe(0);
  expect((await inProcess(["check", "--max-warnings", "2"], files)).code).toBe(0);
  const over = await inProcess(["check", "--max-warnings=1"], files);
  expect(over.code).toBe(1);
  expect(over.out).toMatch(/2 warnings in 2 files\.\nThat is more than 1 warning\.\n$/);
});

test("quiet shows errors only, and counts the others all the same", async () => {
  const files = { "/home/a.torquil": WARNED, "/home/b.torquil": WRONG };
  const { code, out } = await inProcess(["check", "--quiet", "--max-warnings", "0"], files);
  expect(code).toBe(1);
  expect(out).not.toContain("allows-unknown");
  expect(out).toMatch(/1 error, 1 warning in 2 files/);
});

test("settings decide severities, and 2 beats 1", async () => {
  const settings = '{ "severities": { "allows-unknown": "error" } }';
  expect(
    (await inProcess(["check"], { "/home/a.torquil": WARNED, "/home/torquil.json": settings })).code,
  ).toBe(1);
  const both = await inProcess(["check", ".", "gone"], {
    "/home/a.torquil": WARNED,
    "/home/torquil.json": settings,
  });
  expect(both.code).toBe(2);
  expect(both.out).toMatch(/1 error in 1 file; 1 problem with reading\.\n$/);
  expect(both.err).toMatch(/^gone: error: There is no such file/);
});

test("of very many findings alike, the first are shown and the others counted", async () => {
  const { out } = await inProcess(["check"], {
    "/home/a.torquil": `torquil 1\n${'allow none "x"\n\n'.repeat(1_030)}`,
  });
  expect(out.match(/\[allows-unknown\]/g)).toHaveLength(25);
  expect(out).toContain("… and 1,005 more of allows-unknown in a.torquil.\n");
  expect(out).toContain("1,030 warnings in 1 file");
});

test("JSON has the shape that is promised", async () => {
  const files = {
    "/home/a.torquil": MACHINE.replace("}", '  part drum "Again"\n}'),
    "/home/b.torquil": new Uint8Array([0x0a, 0xff]),
  };
  const { code, out, err } = await inProcess(["check", "--json"], files);
  expect(code).toBe(2);
  expect(err).toBe("");
  const report = JSON.parse(out);
  expect(Object.keys(report)).toEqual(["version", "findings", "problems", "summary", "baseline"]);
  expect(report.version).toBe(1);
  const finding = report.findings.find((one: { code: string }) => one.code === "duplicate-name");
  expect(finding).toEqual({
    code: "duplicate-name",
    severity: "error",
    message: expect.stringMatching(/drum/),
    hint: finding.hint,
    file: "a.torquil",
    range: { start: { line: 4, character: 7 }, end: { line: 4, character: 11 } },
    related: [
      {
        message: expect.any(String),
        file: "a.torquil",
        range: { start: { line: 3, character: 7 }, end: { line: 3, character: 11 } },
      },
    ],
    way: [],
    fixes: finding.fixes,
    fingerprint: expect.stringMatching(/^[0-9a-f]+$/),
  });
  expect(report.problems).toEqual([
    {
      file: "b.torquil",
      message: expect.stringMatching(/UTF-8/),
      range: { start: { line: 1, character: 0 }, end: { line: 1, character: 0 } },
    },
  ]);
  expect(report.summary).toEqual({ files: 1, errors: report.findings.length, warnings: 0, hints: 0 });
  expect(report.baseline).toBeNull();
});

test("JSON tells fixes as edits with places", async () => {
  const files = {
    "/home/a.torquil": 'torquil 1\n\nmachine winch "Hand winch" {\n  part drum "Drum"  weight 4,5 kg\n}\n',
  };
  const { findings } = JSON.parse((await inProcess(["check", "--json"], files)).out);
  const fixes = findings.flatMap((finding: { fixes: unknown[] }) => finding.fixes);
  expect(fixes).toContainEqual({
    title: expect.any(String),
    safe: expect.any(Boolean),
    edits: [
      {
        file: "a.torquil",
        range: expect.objectContaining({ start: { line: 3, character: expect.any(Number) } }),
        newText: expect.stringContaining("4.5"),
      },
    ],
  });
});

test("a fingerprint stays when lines move", async () => {
  const of = async (text: string): Promise<string> =>
    JSON.parse((await inProcess(["check", "--json"], { "/home/a.torquil": text })).out).findings[0]
      .fingerprint;
  expect(await of(WRONG)).toBe(await of(WRONG.replace("use", "// moved\n\nuse")));
});

test("nothing in a file can steer the terminal", async () => {
  const text = 'torquil 1\n\nuse "no\u001b[2Jne\u202e.torquil"\n';
  const { out } = await inProcess(["check"], { "/home/a.torquil": text });
  expect(out).not.toContain("\u001b");
  expect(out).not.toContain("\u202e");
  expect(out).toContain("no\ufffd[2Jne\ufffd.torquil");
});

test("colour is there when it is wanted", async () => {
  const { out } = await inProcess(["check"], { "/home/a.torquil": WRONG }, { colour: true });
  expect(out).toContain("\u001b[31merror");
});

test("wrong use is told with the nearest that is right, and nothing is checked", async () => {
  const wrong = async (...args: string[]) => {
    const { code, out, err } = await inProcess(["check", ...args], { "/home/a.torquil": CLEAN });
    expect({ code, out }).toEqual({ code: 2, out: "" });
    return err.split("\n")[0];
  };
  expect(await wrong("--jsno")).toBe("error: There is no option --jsno. Did you mean --json?");
  expect(await wrong("-j")).toBe("error: There is no option -j.");
  expect(await wrong("--json=yes")).toBe("error: The option --json takes no value.");
  expect(await wrong("--max-warnings")).toBe(
    "error: The option --max-warnings needs a value: --max-warnings N.",
  );
  expect(await wrong("--max-warnings", "--json")).toMatch(/needs a value/);
  expect(await wrong("--max-warnings", "many")).toBe(
    'error: The option --max-warnings takes a whole number, not "many".',
  );
});

test("help tells the form, the options and the exit codes", async () => {
  const { code, out } = await inProcess(["check", "--help"]);
  expect(code).toBe(0);
  for (const part of ["torquil check [paths…]", "--json", "--max-warnings N", "--quiet", "Exit code: 0"])
    expect(out).toContain(part);
});

test("a procedure that could not be followed is named, one that could is not", async () => {
  const procedure = (act: string): string =>
    `${MACHINE}\nprocedure p "Renew the drum" {\n  on winch\n  step "Work" {\n    ${act}\n    fit drum\n  }\n}\n`;
  const unread = await inProcess(["check"], { "/home/a.torquil": procedure("remvoe drum") });
  expect(unread.out).toContain("\nNot followed step by step yet: “Renew the drum”. ");
  const read = await inProcess(["check"], { "/home/a.torquil": procedure("remove drum") });
  expect(read.out).toBe("Nothing found in 1 file.\n");
});
