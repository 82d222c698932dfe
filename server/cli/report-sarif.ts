/**
 * The report of `check` as SARIF 2.1.0, the OASIS standard by which build services show findings beside the code.
 *
 * Files are named by URIs from the folder of the command, each part percent-encoded. The ways that lead to a finding are
 * decisions without a place of their own, so they are told in words and as a property, and not as code flows.
 */
import { type Finding, type Page, pageByCode, type Severity, wordsOf } from "../rules";
import { firstSentence } from "./display";
import type { OpenProblem, OpenProject } from "./open";
import { type Checked, checkedFiles, type Located } from "./report";

/** A place on one line: UTF-16 offsets from 0, the end not included. */
interface Spot {
  readonly line: number;
  readonly start: number;
  readonly end: number;
}

const SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
/** The name under which SARIF readers know the folder that relative URIs start from. */
const BASE = "%SRCROOT%";
const LEVELS: Readonly<Record<Severity, string>> = { error: "error", warning: "warning", hint: "note" };

/** The whole report, as a text. */
export function sarifReport(checked: Checked): string {
  const { shown, problems, exitCode, version } = checked;
  const codes = [...new Set(shown.map(({ finding }) => finding.code))].sort();
  const files = checkedFiles(checked.projects);
  const log = {
    $schema: SCHEMA,
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "Torquil", version, rules: codes.map(rule) } },
        columnKind: "utf16CodeUnits",
        originalUriBaseIds: { [BASE]: { description: { text: "The folder the command was run in." } } },
        artifacts: files.map((file) => ({
          location: locationOf(file),
          roles: ["analysisTarget"],
          sourceLanguage: "torquil",
          encoding: "UTF-8",
        })),
        invocations: [
          {
            executionSuccessful: problems.length === 0,
            exitCode,
            toolExecutionNotifications: problems.map(notification),
          },
        ],
        results: shown.map((one) => result(one, codes, files)),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

function rule(code: string): object {
  const page = pageByCode(code) as Page;
  const { what, why, example, instead } = page.docs;
  return {
    id: code,
    shortDescription: { text: firstSentence(what) },
    fullDescription: { text: what },
    help: {
      text: `${what}\n\n${why}\n\nWhat is reported:\n\n${example}\nWhat to write instead:\n\n${instead}`,
      markdown: `${what}\n\n${why}\n\n**What is reported**\n\n${fenced(example)}\n\n**What to write instead**\n\n${fenced(instead)}\n`,
    },
    defaultConfiguration: { level: LEVELS[page.severity] },
    properties: { tags: [page.group] },
  };
}

function fenced(text: string): string {
  return `\`\`\`torquil\n${text.trimEnd()}\n\`\`\``;
}

function result({ finding, project }: Located, codes: readonly string[], files: readonly string[]): object {
  const { code, severity, place, related, way, fixes, fingerprint } = finding;
  const at = (spot: Spot & { readonly file: string }): object =>
    physical(project.nameOf(spot.file), spot, files);
  return {
    ruleId: code,
    ruleIndex: codes.indexOf(code),
    level: LEVELS[severity],
    message: { text: messageText(finding) },
    locations: [{ physicalLocation: at(place) }],
    relatedLocations: related.map((other, index) => ({
      id: index + 1,
      message: { text: wordsOf(finding, other.message) },
      physicalLocation: at(other.place),
    })),
    partialFingerprints: { "torquil/v1": fingerprint },
    ...(fixes.length > 0 ? { fixes: fixes.map((each) => fix(each, finding, project, files)) } : {}),
    ...(way.length > 0 ? { properties: { way } } : {}),
  };
}

/** What is wrong, the way there, and what to write instead. */
function messageText(finding: Finding): string {
  const { message, way, hint } = finding;
  return [
    wordsOf(finding, message),
    ...(way.length > 0 ? [`The way: ${way.join(", then ")}.`] : []),
    ...(hint ? [wordsOf(finding, hint)] : []),
  ].join("\n");
}

function fix(
  { title, safe, changes }: Finding["fixes"][number],
  finding: Finding,
  { nameOf }: OpenProject,
  files: readonly string[],
): object {
  const byFile = [...new Set(changes.map((change) => change.place.file))];
  return {
    description: { text: wordsOf(finding, title) },
    artifactChanges: byFile.map((file) => ({
      artifactLocation: locationOf(nameOf(file), files),
      replacements: changes
        .filter((change) => change.place.file === file)
        .map(({ place, text }) => ({
          deletedRegion: region(place),
          ...(text === "" ? {} : { insertedContent: { text } }),
        })),
    })),
    properties: { safe },
  };
}

function notification({ name, place, message }: OpenProblem): object {
  return {
    level: "error",
    message: { text: message },
    locations: [{ physicalLocation: place ? physical(name, place) : { artifactLocation: locationOf(name) } }],
  };
}

function physical(name: string, spot: Spot, files: readonly string[] = []): object {
  return { artifactLocation: locationOf(name, files), region: region(spot) };
}

function region({ line, start, end }: Spot): object {
  return { startLine: line + 1, startColumn: start + 1, endLine: line + 1, endColumn: end + 1 };
}

/** A file by its URI, and its place among the artifacts where it is one. */
function locationOf(name: string, files: readonly string[] = []): object {
  const index = files.indexOf(name);
  const uri = name.split("/").map(encodePart).join("/");
  const isWhole = /^(\/|[A-Za-z]:\/)/.test(name);
  return {
    uri: isWhole ? `file://${name.startsWith("/") ? "" : "/"}${uri}` : uri,
    ...(isWhole ? {} : { uriBaseId: BASE }),
    ...(index < 0 ? {} : { index }),
  };
}

/** A part of a path, percent-encoded; half a pair of UTF-16 has no encoding and is replaced. */
function encodePart(part: string): string {
  return encodeURIComponent(part.replace(/\p{Cs}/gu, "\ufffd"));
}
