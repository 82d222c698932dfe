/** The command line as a whole: help, version, what is not known, colours, and a mistake of ours. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { wantsColour } from "../../server/cli/io";
import { COMMANDS } from "../../server/cli/run";
import { argumentsIn, usageProblem } from "./command-lines";
import { inProcess } from "./in-process";
import { buildBundle, discard, folderWith, torquil } from "./process";

let folder = "";
beforeAll(async () => {
  await buildBundle();
  folder = folderWith({ "a.torquil": 'torquil 1\n\nallow no-such-code "x"\n' });
});
afterAll(() => discard(folder));

test("without a command the overview is shown, and it is wrong use", async () => {
  const { code, out, err } = await inProcess([]);
  expect({ code, out }).toEqual({ code: 2, out: "" });
  for (const command of Object.keys(COMMANDS)) expect(err).toMatch(new RegExp(`^  ${command} `, "m"));
});

test("help and version are there on everything", async () => {
  expect(await inProcess(["--version"])).toMatchObject({ code: 0, out: "torquil 1.2.3\n" });
  for (const args of [["--help"], ["-h"], ["help"]])
    expect((await inProcess(args)).out).toContain("Commands:");
  for (const command of Object.keys(COMMANDS)) {
    const { code, out } = await inProcess([command, "--help"]);
    expect(code).toBe(0);
    expect(out).toContain(`torquil ${command} `);
    expect((await inProcess(["help", command])).out).toBe(out);
    expect((await inProcess([command, "-h"])).out).toBe(out);
    expect((await inProcess([command, "--version"])).out).toBe("torquil 1.2.3\n");
    // A purpose, what may be said, how it ends, and lines to copy: the same for all.
    expect(out).toMatch(/\nOptions:\n.*--help [^\n]*\n\nExit code: 0 .*\n\nExamples:\n {2}torquil /s);
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(120);
    const near = await inProcess([command, "--hlep"]);
    expect(near).toMatchObject({ code: 2, out: "" });
    expect(near.err).toContain(`Did you mean --help?\n"torquil ${command} --help" shows how it is used.`);
  }
});

test("every example in a help is taken by its command", async () => {
  for (const command of Object.keys(COMMANDS)) {
    const { out } = await inProcess([command, "--help"]);
    const lines = out.split("Examples:\n")[1]?.match(/^ {2}torquil .*?(?= {2}|$)/gm) ?? [];
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) expect([line, await usageProblem(argumentsIn(line))]).toEqual([line, null]);
  }
});

test("an unknown command or option is told with the nearest", async () => {
  const said = async (word: string) => {
    const { code, err } = await inProcess([word]);
    expect(code).toBe(2);
    return err.split("\n")[0];
  };
  expect(await said("chekc")).toBe("error: There is no command chekc. Did you mean check?");
  expect(await said("--versoin")).toBe("error: There is no option --versoin. Did you mean --version?");
  expect(await said("frobnicate")).toBe("error: There is no command frobnicate.");
  expect(await said("constructor")).toBe("error: There is no command constructor.");
});

test("the usual variables decide on colour before the terminal does", () => {
  expect(wantsColour({}, true)).toBe(true);
  expect(wantsColour({}, false)).toBe(false);
  expect(wantsColour({ TERM: "dumb" }, true)).toBe(false);
  expect(wantsColour({ NO_COLOR: "1" }, true)).toBe(false);
  expect(wantsColour({ NO_COLOR: "" }, true)).toBe(true);
  expect(wantsColour({ FORCE_COLOR: "1" }, false)).toBe(true);
  expect(wantsColour({ FORCE_COLOR: "0" }, true)).toBe(false);
});

test("the bundle tells its version, colours only when asked to, and ends as the command does", () => {
  expect(torquil(folder, ["--version"])).toEqual({ code: 0, out: "torquil 0.1.0\n", err: "" });
  const plain = torquil(folder, ["check"]);
  expect(plain).toMatchObject({ code: 0, err: "" });
  expect(plain.out).toMatch(/^a\.torquil:3:7: warning: /);
  const coloured = torquil(folder, ["check"], { env: { FORCE_COLOR: "1" } });
  expect(coloured.out).toContain("\u001b[33m");
  expect(torquil(folder, ["check", "--max-warnings", "0"]).code).toBe(1);
  expect(torquil(folder, ["nonsense"]).code).toBe(2);
});

test("a mistake of ours is told as one, without its stack unless that is asked for", () => {
  // What every command sooner or later calls is broken before the bundle begins.
  const planted = encodeURIComponent('JSON.stringify = () => { throw new TypeError("planted"); };');
  const broken = { NODE_OPTIONS: `--import=data:text/javascript,${planted}` };
  const told = torquil(folder, ["check"], { env: broken });
  expect(told.code).toBe(2);
  expect(told.err).toMatch(/^This is a mistake in Torquil, not in your files\..*\n.*planted/);
  expect(told.err).not.toMatch(/^\s+at /m);
  expect(torquil(folder, ["check"], { env: { ...broken, TORQUIL_DEBUG: "1" } }).err).toMatch(/^\s+at /m);
});
