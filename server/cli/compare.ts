/**
 * `torquil compare`: what has changed in meaning between two files, two folders, or two revisions of a git repository.
 */
import { compareRevisions, RANKS, type Rank } from "../features/compare";
import { absolutePath, fileProblemText } from "../project";
import { type Given, helpText, readArguments, type Usage } from "./arguments";
import { compareJson } from "./compare-json";
import { type Compared, openPaths, openRevisions, type Pair } from "./compare-open";
import { type CompareReport, countsOf, type Shown } from "./compare-report";
import { compareMarkdown, compareText } from "./compare-text";
import { harmless } from "./display";
import { type Command, type Io, paintFor } from "./io";
import { namerOf, tellProblems } from "./open";
import { notDone, wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "compare [OLD NEW | --since REVISION [PATH]]",
  about: [
    "Says what has changed in meaning, the gravest first: safety, content, wording, layout.",
    "Two files or two folders are compared; or, with --since, a path at two revisions of its git repository.",
  ].join("\n"),
  options: {
    since: { about: "The older revision: a commit, a branch, a tag, HEAD~1.", value: "REVISION" },
    until: { about: "The newer revision; the work tree when it is not said.", value: "REVISION" },
    format: {
      about: "How it is told: text (the usual).",
      value: "FORMAT",
      choices: ["text", "markdown", "json"],
    },
    out: { about: "Write the report to this file.", value: "FILE" },
    "fail-on": {
      about: "The least rank at which the exit code is 1: safety (the usual).",
      value: "RANK",
      choices: ["safety", "content", "wording", "layout", "never"],
    },
  },
  more: "Exit code: 0 nothing of that rank has changed, 1 something has, 2 wrong use or something that cannot be read.",
  examples: [
    ["torquil compare --since HEAD", "What has changed in this folder since the last commit."],
    ["torquil compare --since v1.2 --until v1.3 jobs", "Between two tags, in the folder jobs."],
    ["torquil compare old/pump.torquil new/pump.torquil", "Two files."],
    ["torquil compare --since origin/main --format markdown --out changes.md", "For a pull request."],
  ],
};

export const compare: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "compare", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  const wrong = wrongMix(given);
  if (wrong) return wrongUse(wrong, "compare", io);
  const [first, second] = given.paths as [string, string];
  const since = given.value("since");
  io.progress("Comparing …");
  const opened =
    since === undefined
      ? openPaths(first, second, io)
      : openRevisions(first ?? ".", since, given.value("until"), io);
  if ("wrong" in opened) {
    io.progress("");
    return notDone(opened.wrong, io);
  }
  const report: CompareReport = { names: opened.names, shown: shownOf(opened), problems: opened.problems };
  io.progress("");
  if (!give(report, given, io)) return 2;
  if (report.problems.length > 0) return 2;
  return fails(report, given.value("fail-on") ?? "safety") ? 1 : 0;
};

function wrongMix(given: Given): string | null {
  const { paths } = given;
  if (given.has("since"))
    return paths.length > 1
      ? "With --since one path is compared. Name one file or folder, or none for this folder."
      : null;
  if (given.has("until")) return "--until needs --since: the older revision is compared with the newer one.";
  if (paths.length === 2) return null;
  return paths.length === 0
    ? "Say what to compare: two files, two folders, or --since REVISION."
    : paths.length === 1
      ? `There is one path only. Name the newer one behind it, or compare with a revision: --since HEAD ${paths[0]}.`
      : "Two paths are compared, the old one and the new one. Put a name with spaces in quotes.";
}

function shownOf({ pairs, fromGit }: Compared): readonly Shown[] {
  const all = pairs.flatMap((pair) => changesOf(pair, fromGit));
  // Each pair is in order already; sorting keeps that within a rank.
  return [...all].sort((a, b) => RANKS.indexOf(a.change.rank) - RANKS.indexOf(b.change.rank));
}

function changesOf({ before, after, sameFiles, isMeant }: Pair, fromGit: boolean): readonly Shown[] {
  const { changes } = compareRevisions(before.given, after.given, {
    sameFiles,
    lineEnds: fromGit ? "ignore" : "compare",
  });
  return changes
    .filter(({ places }) => [places.before, places.after].some((place) => place && isMeant(place.file)))
    .map((change) => ({ change, before: before.nameOf, after: after.nameOf }));
}

/** Gives the report, to a file where one is named; whether it could be written. */
function give(report: CompareReport, given: Given, io: Io): boolean {
  const format = given.value("format") ?? "text";
  const file = given.value("out");
  const paint = file === undefined ? io.paintOut : paintFor(false);
  const text =
    format === "json"
      ? compareJson(report)
      : format === "markdown"
        ? compareMarkdown(report)
        : compareText(report, paint);
  tellProblems(report.problems, io);
  if (file === undefined) {
    io.out(text);
    return true;
  }
  const path = absolutePath(io.folder, file);
  const problem = io.files.write(path, text);
  if (problem)
    io.err(
      `${io.paintErr("error", "error")}: The report ${harmless(namerOf(io)(path))} could not be written. ${fileProblemText(problem)}\n`,
    );
  return problem === null;
}

/** Whether something has changed of this rank or a graver one. */
function fails(report: CompareReport, least: string): boolean {
  const counts = countsOf(report);
  return RANKS.slice(0, RANKS.indexOf(least as Rank) + 1).some((rank) => counts[rank] > 0);
}
