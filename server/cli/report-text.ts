/**
 * The report of `check` for a person: each finding with its line, and what it comes to.
 */
import type { Finding } from "../rules";
import type { Counts } from "./check-schema";
import { harmless } from "./display";
import { findingFrame, type Showing } from "./frame";
import { counted, type Io, type Paint } from "./io";
import type { OpenProject } from "./open";
import { type Checked, checkedFiles, type Located } from "./report";

/** After so many findings of one code in one file, the others are only counted. */
const MOST_OF_A_CODE = 25;
/** So many entries of a baseline that have gone stale are named. */
const MOST_STALE = 10;

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

/** Every finding with its line. */
export function findingsText(located: readonly Located[], io: Io): string {
  const counts = new Map<string, number>();
  const frames = located.map(({ finding, project }) => {
    const key = `${finding.code} in ${project.nameOf(finding.place.file)}`;
    const count = (counts.get(key) ?? 0) + 1;
    counts.set(key, count);
    return count <= MOST_OF_A_CODE ? findingFrame(finding, showingOf(project, io)) : "";
  });
  const more = [...counts]
    .filter(([, count]) => count > MOST_OF_A_CODE)
    .map(([key, count]) => `… and ${(count - MOST_OF_A_CODE).toLocaleString("en")} more of ${key}.\n\n`);
  return [...frames, ...more].join("");
}

/** What it comes to: what was not followed, how much was found, what a baseline hides, and what is too many. */
export function closingText(checked: Checked, io: Io): string {
  return [
    unfollowedLines(checked.projects),
    summaryLine(checked, io.paintOut),
    baselineLines(checked),
    checked.tooMany ? `That is more than ${counted(checked.most ?? 0, "warning")}.\n` : "",
  ].join("");
}

/** Says which procedures were not followed, so that nobody takes silence about their ways for a good sign. */
function unfollowedLines(projects: readonly OpenProject[]): string {
  const titles = projects.flatMap(({ workspace }) =>
    [...workspace.project().files.values()].flatMap((file) =>
      file.procedures.filter((p) => p.doubtful).map((p) => `“${harmless(p.thing.title)}”`),
    ),
  );
  if (titles.length === 0) return "";
  const named = titles.length > 3 ? counted(titles.length, "procedure") : titles.join(", ");
  return `Not followed step by step yet: ${named}. Something it rests on could not be understood; put that right first.\n`;
}

function summaryLine({ projects, counts, problems }: Checked, paint: Paint): string {
  const unread =
    problems.length > 0
      ? paint("error", counted(problems.length, "problem with reading", "problems with reading"))
      : "";
  const files = checkedFiles(projects).length;
  if (files === 0) return `Nothing was checked: ${unread}.\n`;
  const found = severitiesText(counts, paint);
  const nothing = problems.length > 0 ? "Nothing found" : paint("good", "Nothing found");
  return `${found || nothing} in ${counted(files, "file")}${unread && `; ${unread}`}.\n`;
}

/** "1 error, 2 hints"; empty when there is nothing. */
function severitiesText({ errors, warnings, hints }: Counts, paint: Paint): string {
  const part = (severity: Finding["severity"], count: number): string[] =>
    count > 0 ? [paint(severity, counted(count, severity))] : [];
  return [...part("error", errors), ...part("warning", warnings), ...part("hint", hints)].join(", ");
}

function baselineLines({ baseline }: Checked): string {
  if (!baseline) return "";
  const hidden = severitiesText(baseline.hidden, (_, text) => text);
  const lines = hidden ? [`Hidden, since the baseline records it: ${hidden}.`] : [];
  const { stale } = baseline;
  if (stale.length > 0) {
    const are = stale.length === 1 ? "that is no longer found" : "that are no longer found";
    lines.push(
      `In the baseline there ${stale.length === 1 ? "is" : "are"} ${counted(stale.length, "entry", "entries")} ${are}:`,
    );
    lines.push(
      ...stale
        .slice(0, MOST_STALE)
        .map(
          ({ name, code, message }) =>
            `  ${harmless(name)}: ${harmless(message.split("\n")[0] ?? "")} [${code}]`,
        ),
    );
    if (stale.length > MOST_STALE) lines.push(`  … and ${stale.length - MOST_STALE} more.`);
    lines.push("Take them out with --write-baseline.");
  }
  return lines.map((line) => `${line}\n`).join("");
}
