/** The reports of `torquil check` for other programs, held to their published schemas, and what each says. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import addFormats from "ajv-formats";
import { beforeAll, expect, test } from "vitest";
import { validateXML } from "xmllint-wasm";
import { inProcess, type Outcome } from "./in-process";

const FILE = "Prüf stand/öl, 100 %.torquil";
/** Marks of three sorts: of XML, of URIs, of commands. */
const MACHINE = `torquil 1

machine winch "Winch <A & B>" {
  part cover "Drum cover"
  part drum "Drum"  weight 4.5 kg
  variant late "Late"  serial 500 to 900
}
`;
/** Faults of every severity, with a related place, a way, and fixes, in files of their own where one hides another. */
const ENTRIES = {
  "/home/torquil.json": '{ "severities": { "tool-unused": "hint" } }',
  [`/home/${FILE}`]: MACHINE.replace("  variant", '  part drum "Again"\n  variant'),
  "/home/comma.torquil": MACHINE.replace("4.5", "4,5"),
  "/home/clean.torquil": MACHINE,
  "/home/late.torquil": `${MACHINE}
allow no-such-code "x"

procedure look "Look at 100 %: it, all" {
  on winch
  tool spare "Spare spanner"
  step "Open" {
    when late {
      remove cover
    }
  }
}
`,
  "/home/no text.torquil": new Uint8Array([0x0a, 0xff]),
};

const run = (...args: string[]) => inProcess(["check", ...args], ENTRIES);

// biome-ignore lint/suspicious/noExplicitAny: reports are read as another program would, by name.
type Json = any;
let sarif: Json;
let json: Json;
beforeAll(async () => {
  sarif = JSON.parse((await run("--report", "sarif")).out);
  json = JSON.parse((await run("--report", "json")).out);
});

/** A validator that follows a JSON schema as it is; those of draft 4 differ in their `id` only, as far as SARIF's goes. */
function validator(schema: Json) {
  const { $schema: _, id: __, ...plain } = schema;
  const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
  addFormats.default(ajv);
  return ajv.compile(plain);
}

test("JSON is as its published schema says", async () => {
  const schema = JSON.parse(
    readFileSync(new URL("../../server/cli/check.schema.json", import.meta.url), "utf8"),
  );
  const valid = validator(schema);
  expect(valid(json) || valid.errors).toBe(true);
  expect(valid({ ...json, version: 2 })).toBe(false);
  expect(valid({ ...json, findings: [{}] })).toBe(false);
  expect(json.findings.length).toBeGreaterThan(4);
  expect((await run("--json")).out).toBe((await run("--report", "json")).out);
});

test("SARIF is as its schema says: OASIS, version 2.1.0", () => {
  // The schema as @microsoft/jest-sarif carries it: the standard's, revision rtm.5.
  const require = createRequire(import.meta.url);
  const valid = validator(require("@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json"));
  expect(valid(sarif) || valid.errors).toBe(true);
  expect(valid({ ...sarif, runs: [{ ...sarif.runs[0], columnKind: "bytes" }] })).toBe(false);
});

test("SARIF has every severity, related places, fixes, and URIs that are encoded", () => {
  const [{ results, tool, artifacts, columnKind, invocations }] = sarif.runs;
  expect(new Set(results.map((one: Json) => one.level))).toEqual(new Set(["error", "warning", "note"]));
  expect(columnKind).toBe("utf16CodeUnits");
  const uri = "Pr%C3%BCf%20stand/%C3%B6l%2C%20100%20%25.torquil";
  expect(artifacts.map((one: Json) => one.location.uri)).toEqual([
    uri,
    "clean.torquil",
    "comma.torquil",
    "late.torquil",
  ]);
  const twice = results.find((one: Json) => one.ruleId === "duplicate-name");
  expect(twice.locations[0].physicalLocation).toEqual({
    artifactLocation: { uri, uriBaseId: "%SRCROOT%", index: 0 },
    region: { startLine: 6, startColumn: 8, endLine: 6, endColumn: 12 },
  });
  expect(twice.relatedLocations[0].physicalLocation.region.startLine).toBe(5);
  expect(twice.relatedLocations[0].message.text).not.toBe("");
  const comma = results.find((one: Json) => one.ruleId === "decimal-comma");
  expect(comma.fixes[0].artifactChanges).toEqual([
    {
      artifactLocation: { uri: "comma.torquil", uriBaseId: "%SRCROOT%", index: 2 },
      replacements: [
        {
          deletedRegion: { startLine: 5, startColumn: 28, endLine: 5, endColumn: 31 },
          insertedContent: { text: "4.5" },
        },
      ],
    },
  ]);
  for (const { ruleId, ruleIndex, partialFingerprints } of results) {
    expect(tool.driver.rules[ruleIndex].id).toBe(ruleId);
    expect(partialFingerprints["torquil/v1"]).not.toBe("");
  }
  expect(invocations[0]).toMatchObject({ executionSuccessful: false, exitCode: 2 });
  expect(invocations[0].toolExecutionNotifications[0].message.text).toMatch(/UTF-8/);
});

test("SARIF tells of a rule what the catalogue does", () => {
  const rules: Json[] = sarif.runs[0].tool.driver.rules;
  for (const { shortDescription, fullDescription, help, defaultConfiguration } of rules) {
    expect(fullDescription.text.startsWith(shortDescription.text)).toBe(true);
    expect(help.text).toContain("torquil 1");
    expect(help.markdown).toContain("```torquil\n");
    expect(defaultConfiguration.level).toMatch(/^(error|warning|note)$/);
  }
  // The level of a result is the project's, that of the rule is the usual one.
  expect(rules.find(({ id }) => id === "tool-unused").defaultConfiguration.level).toBe("warning");
});

test("SARIF says on which way a fault is", () => {
  const ways = sarif.runs[0].results.filter((one: Json) => one.properties?.way);
  expect(ways.map((one: Json) => one.ruleId)).toContain("part-left-off");
  for (const one of ways)
    expect(one.message.text).toContain(`The way: ${one.properties.way.join(", then ")}.`);
});

test("a file outside the folder of the command has a whole URI", async () => {
  const { out } = await inProcess(["check", "../other side", "--report", "sarif"], {
    "/other side/a.torquil": 'torquil 1\n\nuse "none.torquil"\n',
  });
  const [result] = JSON.parse(out).runs[0].results;
  expect(result.locations[0].physicalLocation.artifactLocation).toEqual({
    uri: "file:///other%20side/a.torquil",
    index: 0,
  });
});

/** Whether an XML is as the schema says: the errors. */
async function xmlErrors(xml: string): Promise<string[]> {
  const schema = readFileSync(new URL("schemas/jenkins-junit.xsd", import.meta.url), "utf8");
  const { errors } = await validateXML({
    xml: { fileName: "report.xml", contents: xml },
    schema: { fileName: "junit.xsd", contents: schema },
  });
  return errors.map(({ message }) => message);
}

test("JUnit is as the schema says that Jenkins reads it by", async () => {
  for (const args of [[], ["--max-warnings", "0"], ["--quiet"]]) {
    const { out } = await run("--report", "junit", ...args);
    expect(await xmlErrors(out)).toEqual([]);
  }
  const { out } = await run("--report", "junit");
  expect(await xmlErrors(out.replace("<system-out>", "<stray/><system-out>"))).not.toEqual([]);
});

test("JUnit has a suite for each file, and fails what fails the run", async () => {
  const { out } = await run("--report", "junit");
  const suites = [
    ...out.matchAll(/<testsuite name="([^"]+)".*? tests="(\d+)" failures="(\d+)" errors="(\d+)"/g),
  ];
  const errorsIn = (file: string) =>
    String(json.findings.filter((one: Json) => one.file === file && one.severity === "error").length);
  expect(suites.map(([, ...values]) => values)).toEqual([
    [FILE, errorsIn(FILE), errorsIn(FILE), "0"],
    ["clean.torquil", "1", "0", "0"],
    ["comma.torquil", "1", "1", "0"],
    ["late.torquil", errorsIn("late.torquil"), errorsIn("late.torquil"), "0"],
    ["no text.torquil", "1", "0", "1"],
  ]);
  expect(out.match(/<failure type="error"/g)).toHaveLength(json.summary.errors);
  expect(out).not.toContain('<failure type="warning"');
  expect(out).toContain("warning: There is no code");
  expect(out).toContain('timestamp="2026-11-20T08:30:00"');
  const strict = (await run("--report", "junit", "--max-warnings", "0")).out;
  expect(strict.match(/<failure type="warning"/g)).toHaveLength(json.summary.warnings);
});

test("JUnit holds no sign that XML cannot", async () => {
  const { out } = await inProcess(["check", "--report", "junit"], {
    "/home/a.torquil": 'torquil 1\n\nuse "a\u0001\uffff<&>\u001b.torquil"\n',
  });
  expect(await xmlErrors(out)).toEqual([]);
  expect(out).toContain("&lt;&amp;&gt;");
});

test("commands for GitHub have their properties and texts escaped", async () => {
  const { code, out } = await run("--report", "github");
  expect(code).toBe(2);
  const lines = out.split("\n");
  const commands = lines.filter((line) => line.startsWith("::"));
  expect(commands).toHaveLength(json.findings.length + json.problems.length);
  expect(commands.some((line) => line.startsWith("::notice file="))).toBe(true);
  expect(commands.find((line) => line.includes("title=duplicate-name"))).toMatch(
    /^::error file=Prüf stand\/öl%2C 100 %25\.torquil,line=6,endLine=6,col=8,endColumn=11,title=duplicate-name::.+%0A/,
  );
  expect(commands.find((line) => line.includes("title=cannot be read"))).toMatch(
    /^::error file=no text\.torquil,line=2,.*::This is not UTF-8: the byte FF/,
  );
  // What follows is for whoever reads the log.
  expect(out).toMatch(/\n\d+ errors?, .* in 4 files; 1 problem with reading\.\n$/);
});

test("several reports come from one run, each to its file, and the text to the person", async () => {
  const { code, out, read } = await run("--report", "sarif=out/a.sarif", "--report", "junit=out/b.xml");
  expect(code).toBe(2);
  expect(out).toBe((await run()).out);
  expect(JSON.parse(read("/home/out/a.sarif") ?? "")).toEqual(sarif);
  expect(read("/home/out/b.xml")).toMatch(/^<\?xml/);
  const one = await run("--report", "json", "--out", "c.json");
  expect(JSON.parse(one.read("/home/c.json") ?? "")).toEqual(json);
  const text = await run("--out", "d.txt");
  expect(text.read("/home/d.txt")).toMatch(/^no text\.torquil:2:1: error: This is not UTF-8/m);
  expect(text.out).toBe((await run()).out);
});

test("reports that cannot be given are told", async () => {
  const wrong = async (...args: string[]): Promise<string> => {
    const { code, out, err }: Outcome = await run(...args);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    return err.split("\n")[0] ?? "";
  };
  expect(await wrong("--report", "xml")).toMatch(
    /does not take "xml"\. It takes text, json, sarif, junit, github\.$/,
  );
  expect(await wrong("--report", "junti")).toMatch(/Did you mean junit\?$/);
  expect(await wrong("--report", "sarif=")).toMatch(/--report sarif=FILE\.$/);
  expect(await wrong("--report", "sarif", "--json")).toMatch(/^error: Only one report/);
  expect(await wrong("--report", "sarif=x", "--report", "json=x")).toBe(
    "error: Two reports cannot both go to x.",
  );
  expect(await wrong("--report", "sarif=x", "--out", "y")).toMatch(/has one already/);
  expect(await wrong("--report", "sarif", "--report", "json", "--out", "y")).toMatch(/--report FORM=FILE/);
  expect(await wrong("--max-warnings", "1", "--max-warnings", "2")).toBe(
    "error: The option --max-warnings is given twice, as 1 and 2. Keep one.",
  );
  const folder = await inProcess(["check", "--report", "json=x"], {
    "/home/clean.torquil": "torquil 1\n",
    "/home/x/y": "",
  });
  expect(folder.code).toBe(2);
  expect(folder.err).toBe(
    "error: The report x could not be written. This is a folder, and a file is needed here.\n",
  );
});
