/** Settings: what a file may say, and where a fault in it is told to be. */
import { expect, test } from "vitest";
import { memoryFiles } from "../../server/project/memory";
import { loadSettings } from "../../server/project/root";
import { DEFAULT_SETTINGS, readSettings } from "../../server/project/settings";
import { settingsJsonSchema } from "../../server/project/settings-schema";

/** The problems of a text as `line:character message`, from 1. */
function problemsOf(text: string): string[] {
  const { settings, problems } = readSettings(text);
  if (problems.length > 0) expect(settings).toEqual(DEFAULT_SETTINGS);
  return problems.map(({ line, start, message }) => `${line + 1}:${start + 1} ${message}`);
}

test("a file may say everything, with comments and a last comma", () => {
  const text = `\ufeff{
    "$schema": "./torquil.schema.json",
    // what this house minds
    "severities": { "allows-unknown": "warning", "allows-nothing": "off" },
    "hazards": [
      { "name": "asbestos", "title": "Asbestos", "least": "danger", "verbs": ["remove", "scrape"], "things": ["gasket"] },
    ],
    "paper": "letter", "language": "de", "units": "metric", "baseline": "known.json", "skip": ["old/**"],
  }`;
  expect(readSettings(text)).toEqual({
    settings: {
      rules: {
        severities: { "allows-unknown": "warning", "allows-nothing": "off" },
        language: "de",
        hazards: [
          {
            name: "asbestos",
            title: "Asbestos",
            least: "danger",
            verbs: ["remove", "scrape"],
            things: ["gasket"],
          },
        ],
      },
      paper: "letter",
      language: "de",
      units: "metric",
      skip: ["old/**"],
      baseline: "known.json",
    },
    problems: [],
  });
  expect(readSettings("{}")).toEqual({ settings: DEFAULT_SETTINGS, problems: [] });
});

test("a fault in the JSON is told where it is", () => {
  expect(problemsOf('{\n  "paper": "a4"\n  "units": "metric"\n}')).toEqual([
    "3:3 A comma is missing before this.",
  ]);
  expect(problemsOf('{ "paper" "a4" }')).toEqual(["1:11 A colon is missing before this."]);
  expect(problemsOf('{ "paper": }')).toEqual(["1:12 A value is expected here."]);
  expect(problemsOf('{\n  "paper": "a4')).toEqual(["2:12 The closing quote is missing."]);
  expect(problemsOf('{ "paper": "a4"')).toEqual(["1:16 A closing } is missing here."]);
  expect(problemsOf("{}\n{}")).toEqual(["2:1 The file should end before this."]);
  expect(problemsOf("paper: a4")[0]).toMatch(/^1:1 /);
  expect(problemsOf(" \n")).toEqual(["1:1 This file is empty. Write {} for the usual settings."]);
  expect(problemsOf("// nothing")[0]).toMatch(/^1:\d+ /);
});

test("too many brackets are told, not stumbled over", () => {
  for (const open of ["[", '{"a":']) expect(problemsOf(open.repeat(200_000))).toHaveLength(1);
});

test("an unknown key is told with the nearest there is", () => {
  expect(problemsOf('{ "papier": "a4" }')).toEqual([
    '1:3 There is no setting "papier" here. Did you mean "paper"?',
  ]);
  expect(problemsOf('{ "zzz": 1 }')[0]).toMatch(/^1:3 There is no setting "zzz" here\. There are .*"paper"/);
  expect(problemsOf('{\n  "severities": {\n    "allows-unknwon": "off"\n  }\n}')).toEqual([
    '3:5 There is no code "allows-unknwon". Did you mean "allows-unknown"?',
  ]);
  expect(problemsOf('{ "paper": "a4", "paper": "letter" }')).toEqual([
    '1:18 "paper" stands here twice. Keep one.',
  ]);
});

test("a wrong value is told with what may stand there", () => {
  expect(problemsOf('{ "paper": "lettr" }')).toEqual([
    '1:12 "lettr" cannot stand here. Did you mean "letter"?',
  ]);
  expect(problemsOf('{ "units": 3 }')).toEqual([
    '1:12 3 cannot stand here. Write "both", "metric" or "imperial".',
  ]);
  expect(problemsOf('{ "skip": "old" }')).toEqual(["1:11 A list in brackets, [ … ], is expected here."]);
  expect(problemsOf("[]")).toEqual(["1:1 An object in braces, { … }, is expected here."]);
});

test("a house hazard is checked member by member", () => {
  const hazard = { name: "lead", title: "Lead", least: "warning", verbs: ["grind"], things: ["paint"] };
  const with_ = (change: object): string[] =>
    problemsOf(JSON.stringify({ hazards: [{ ...hazard, ...change }] }));
  expect(with_({})).toEqual([]);
  expect(with_({ title: undefined })).toEqual(['1:13 "title" is missing here.']);
  expect(with_({ verbs: ["grnd"] })[0]).toMatch(/ "grnd" cannot stand here\. Did you mean "grind"\?$/);
  expect(with_({ verbs: [] })[0]).toMatch(/At least one is needed here\.$/);
  expect(with_({ name: "two words" })[0]).toMatch(/A name has letters, digits and hyphens/);
  expect(with_({ nmae: "x" })[0]).toMatch(/There is no setting "nmae" here\. Did you mean "name"\?$/);
});

test("several faults are told in the order of the text", () => {
  expect(problemsOf('{ "paper": 1,\n "zzzz": 2,\n "language": "xx" }').map((one) => one.slice(0, 3))).toEqual(
    ["1:1", "2:2", "3:1"],
  );
});

test("a settings file that cannot be read is a problem with a place; none at all is not", () => {
  const files = memoryFiles({ "/a/torquil.json": new Uint8Array([0x7b, 0x0a, 0xff]), "/b/x": "" });
  expect(loadSettings(files, "/a").problems).toMatchObject([
    { line: 1, start: 0, message: expect.stringMatching(/UTF-8/) },
  ]);
  expect(loadSettings(files, "/b")).toEqual({ settings: DEFAULT_SETTINGS, problems: [] });
});

test("the schema for editors knows the settings, the codes and the verbs", () => {
  const schema = JSON.parse(settingsJsonSchema());
  expect(Object.keys(schema.properties)).toContain("severities");
  expect(schema.properties.severities.properties["allows-unknown"].enum).toEqual([
    "error",
    "warning",
    "hint",
    "off",
  ]);
  expect(schema.properties.hazards.items.properties.verbs.items.enum).toContain("tighten");
  expect(schema.additionalProperties).toBe(false);
});
