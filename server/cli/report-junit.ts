/**
 * The report of `check` as JUnit XML, which nearly every build service shows: one suite a file, in which what fails the
 * run is a failure (its type is the severity), and every other finding stands in the suite's output.
 *
 * There is no one standard. This keeps to the two schemas that are in common use, Windy Road's and Jenkins', both.
 */
import { type Finding, findingText } from "../rules";
import { harmless } from "./display";
import { type Checked, checkedFiles, type Located } from "./report";

interface Case {
  readonly name: string;
  readonly fault?: {
    readonly element: "failure" | "error";
    readonly type: string;
    readonly message: string;
    readonly text: string;
  };
}

interface Suite {
  readonly file: string;
  readonly cases: readonly Case[];
  /** What is told and fails nothing. */
  readonly said: string;
}

/** The whole report, as a text. */
export function junitReport(checked: Checked): string {
  const unread = checked.problems.map(({ name }) => name);
  const files = [...new Set([...checkedFiles(checked.projects), ...unread])].sort();
  const suites = files.map((file, id) => suiteXml(suiteOf(file, checked), id, timeOf(checked.now)));
  return `<?xml version="1.0" encoding="UTF-8"?>\n<testsuites>\n${suites.join("")}</testsuites>\n`;
}

function suiteOf(file: string, { shown, problems, tooMany }: Checked): Suite {
  const own = shown.filter(({ finding, project }) => project.nameOf(finding.place.file) === file);
  const fails = ({ finding }: Located): boolean =>
    finding.severity === "error" || (tooMany && finding.severity === "warning");
  const unread = problems.filter(({ name }) => name === file);
  const faulty: Case[] = [
    ...unread.map(({ message, place }): Case => {
      const at = place ? `${file}:${place.line + 1}:${place.start + 1}` : file;
      return {
        name: "can be read",
        fault: { element: "error", type: "unreadable", message, text: `${at}: ${message}` },
      };
    }),
    ...own.filter(fails).map((one): Case => caseOf(one)),
  ];
  return {
    file,
    cases: faulty.length > 0 ? alone(faulty) : [{ name: "is without errors" }],
    said: own
      .filter((one) => !fails(one))
      .map((one) => whole(one))
      .join("\n\n"),
  };
}

function caseOf(one: Located): Case {
  const { code, severity } = one.finding;
  const message = firstLine(one.finding);
  return {
    name: `${code}: ${message}`,
    fault: { element: "failure", type: severity, message, text: whole(one) },
  };
}

/** Cases that bear the same name get a number behind it, since services tell them apart by it. */
function alone(cases: readonly Case[]): Case[] {
  const seen = new Map<string, number>();
  return cases.map((one) => {
    const count = (seen.get(one.name) ?? 0) + 1;
    seen.set(one.name, count);
    return count === 1 ? one : { ...one, name: `${one.name} (${count})` };
  });
}

function firstLine(finding: Finding): string {
  return findingText(finding).split("\n")[0] ?? "";
}

function whole({ finding, project }: Located): string {
  const { file, line, start } = finding.place;
  const place = `${project.nameOf(file)}:${line + 1}:${start + 1}`;
  return `${place}: ${finding.severity}: ${findingText(finding)} [${finding.code}]`;
}

function suiteXml({ file, cases, said }: Suite, id: number, timestamp: string): string {
  const count = (element: "failure" | "error"): number =>
    cases.filter(({ fault }) => fault?.element === element).length;
  const attributes = attributesXml({
    name: file,
    package: "torquil",
    id: String(id),
    timestamp,
    hostname: "localhost",
    tests: String(cases.length),
    failures: String(count("failure")),
    errors: String(count("error")),
    time: "0",
  });
  return [
    `  <testsuite${attributes}>`,
    `    <properties><property${attributesXml({ name: "command", value: "torquil check" })}/></properties>`,
    ...cases.map((one) => caseXml(file, one)),
    `    <system-out>${xml(said)}</system-out>`,
    "    <system-err></system-err>",
    "  </testsuite>",
    "",
  ].join("\n");
}

function caseXml(file: string, { name, fault }: Case): string {
  const open = `    <testcase${attributesXml({ name, classname: file, time: "0" })}`;
  if (!fault) return `${open}/>`;
  const { element, type, message, text } = fault;
  return `${open}><${element}${attributesXml({ type, message })}>${xml(text)}</${element}></testcase>`;
}

function attributesXml(attributes: Readonly<Record<string, string>>): string {
  return Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${xml(value)}"`)
    .join("");
}

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** A text as XML 1.0 takes it: nothing in it is markup, and signs that XML knows none of are replaced. */
function xml(text: string): string {
  return harmless(text, true)
    .replace(/[\p{Cs}\ufffe\uffff]/gu, "\ufffd")
    .replace(/[&<>"]/g, (sign) => ENTITIES[sign] ?? sign);
}

/** Both schemas want the time without fractions; it is that of the Universal clock. */
function timeOf(now: Date): string {
  return now.toISOString().slice(0, 19);
}
