/**
 * `torquil check`: what is found in procedures and machines, as text or as JSON.
 */
import type { Finding } from "../rules";
import { helpText, readArguments, type Usage } from "./arguments";
import { findingFrame, type Showing } from "./frame";
import { type Command, counted, type Io } from "./io";
import { type JsonReport, type JsonSummary, jsonFinding, jsonRange } from "./json";
import { type OpenProblem, type OpenProject, openNamed, tellProblems } from "./open";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "check [paths…]",
  about: [
    "Checks procedures and machines, with all that they use, and says what is wrong and where.",
    'Paths are files, folders or patterns such as "jobs/**/*.torquil"; without any, this folder.',
  ].join("\n"),
  options: {
    json: { about: "Print one JSON object instead of text." },
    "max-warnings": { about: "Exit with 1 when there are more warnings than this.", value: "N" },
    quiet: { about: "Show errors only; warnings still count for --max-warnings." },
  },
  more: "Exit code: 0 no errors, 1 errors (or too many warnings), 2 wrong use or something that cannot be read.",
};

/** A finding, and the project it is in. */
interface Located {
  readonly finding: Finding;
  readonly project: OpenProject;
}

/** After so many findings of one code in one file, the others are only counted. */
const MOST_OF_A_CODE = 25;

export const check: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "check", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  const most = given.value("max-warnings");
  if (most !== undefined && !/^\d{1,9}$/.test(most))
    return wrongUse(`The option --max-warnings takes a whole number, not "${most}".`, "check", io);

  const { projects, problems } = openNamed(given.paths, io);
  io.progress(`Checking ${counted(fileCount(projects), "file")} …`);
  const located = projects.flatMap((project) =>
    [...project.workspace.check().values()].flat().map((finding): Located => ({ finding, project })),
  );
  io.progress("");
  const summary = summarise(projects, located);
  const tooMany = most !== undefined && summary.warnings > Number(most);
  const shown = given.has("quiet") ? located.filter(({ finding }) => finding.severity === "error") : located;
  if (given.has("json")) printJson(shown, problems, summary, io);
  else {
    showFindings(shown, io);
    tellProblems(problems, io);
    io.out(unfollowedLines(projects));
    io.out(summaryLine(summary, problems.length, io));
    if (tooMany) io.out(`That is more than ${counted(Number(most), "warning")}.\n`);
  }
  return problems.length > 0 ? 2 : summary.errors > 0 || tooMany ? 1 : 0;
};

/** What is needed to show findings of a project. */
export function showingOf(project: OpenProject, io: Io, to: "out" | "err" = "out"): Showing {
  const { files } = project.workspace.project();
  return {
    paint: to === "out" ? io.paintOut : io.paintErr,
    width: io.width,
    nameOf: project.nameOf,
    lineOf: (file, line) => files.get(file)?.document.lines[line]?.text,
  };
}

function fileCount(projects: readonly OpenProject[]): number {
  return projects.reduce((sum, { workspace }) => sum + workspace.project().files.size, 0);
}

function summarise(projects: readonly OpenProject[], located: readonly Located[]): JsonSummary {
  const count = (severity: Finding["severity"]): number =>
    located.filter(({ finding }) => finding.severity === severity).length;
  return {
    files: fileCount(projects),
    errors: count("error"),
    warnings: count("warning"),
    hints: count("hint"),
  };
}

function showFindings(located: readonly Located[], io: Io): void {
  const counts = new Map<string, number>();
  const keyOf = ({ finding, project }: Located): string =>
    `${finding.code} in ${project.nameOf(finding.place.file)}`;
  for (const one of located) {
    const key = keyOf(one);
    const count = (counts.get(key) ?? 0) + 1;
    counts.set(key, count);
    if (count <= MOST_OF_A_CODE) io.out(findingFrame(one.finding, showingOf(one.project, io)));
  }
  for (const [key, count] of counts)
    if (count > MOST_OF_A_CODE)
      io.out(`… and ${(count - MOST_OF_A_CODE).toLocaleString("en")} more of ${key}.\n\n`);
}

/** Says which procedures were not followed, so that nobody takes silence about their ways for a good sign. */
function unfollowedLines(projects: readonly OpenProject[]): string {
  const titles = projects.flatMap(({ workspace }) =>
    [...workspace.project().files.values()].flatMap((file) =>
      file.procedures.filter((p) => p.doubtful).map((p) => `“${p.thing.title}”`),
    ),
  );
  if (titles.length === 0) return "";
  const named = titles.length > 3 ? counted(titles.length, "procedure") : titles.join(", ");
  return `Not followed step by step yet: ${named}. Something it rests on could not be understood; put that right first.\n`;
}

function summaryLine({ files, errors, warnings, hints }: JsonSummary, problems: number, io: Io): string {
  const paint = io.paintOut;
  const found = [
    errors > 0 ? paint("error", counted(errors, "error")) : "",
    warnings > 0 ? paint("warning", counted(warnings, "warning")) : "",
    hints > 0 ? paint("hint", counted(hints, "hint")) : "",
  ].filter((part) => part !== "");
  const unread =
    problems > 0 ? paint("error", counted(problems, "problem with reading", "problems with reading")) : "";
  if (files === 0) return `Nothing was checked: ${unread}.\n`;
  const what =
    found.length > 0 ? found.join(", ") : problems > 0 ? "Nothing found" : paint("good", "Nothing found");
  return `${what} in ${counted(files, "file")}${unread && `; ${unread}`}.\n`;
}

function printJson(
  located: readonly Located[],
  problems: readonly OpenProblem[],
  summary: JsonSummary,
  io: Io,
): void {
  const report: JsonReport = {
    version: 1,
    findings: located.map(({ finding, project }) => jsonFinding(finding, project.nameOf)),
    problems: problems.map(({ name, place, message }) => ({
      file: name,
      message,
      range: place && jsonRange(place),
    })),
    summary,
  };
  io.out(`${JSON.stringify(report, null, 2)}\n`);
}
