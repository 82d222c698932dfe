/**
 * `torquil check`: what is found in procedures and machines, told to a person or written for a build.
 */
import { version } from "../project/version";
import { type Given, helpText, readArguments, type Usage } from "./arguments";
import { type BaselineChoice, hideRecorded, recordAll } from "./baselines";
import { harmless } from "./display";
import { giveReports } from "./give-reports";
import { type Command, counted, type Io } from "./io";
import { type OpenProject, openNamed } from "./open";
import { type Checked, checkedFiles, countBySeverity, type Located } from "./report";
import { FORMS, type Wanted, wantedReports } from "./report-wanted";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "check [paths…]",
  about: [
    "Checks procedures and machines, with all that they use, and says what is wrong and where.",
    'Paths are files, folders or patterns such as "jobs/**/*.torquil"; without any, this folder.',
  ].join("\n"),
  options: {
    report: {
      about: `How findings are told: ${FORMS.join(", ")}.\nFORM=FILE writes a report to a file; may be given several times.`,
      value: "FORM[=FILE]",
      many: true,
    },
    out: { about: "Write the report to this file.", value: "FILE" },
    json: { about: "The same as --report json." },
    quiet: { about: "Show errors only; warnings still count for --max-warnings." },
    "max-warnings": { about: "Exit with 1 when there are more warnings than this.", value: "N" },
    baseline: {
      about: 'Hide the findings this file records; without it, the "baseline" of torquil.json.',
      value: "FILE",
    },
    "no-baseline": { about: "Hide nothing." },
    "write-baseline": { about: "Record what is found now in the baseline file." },
  },
  more: "Exit code: 0 no errors, 1 errors (or too many warnings), 2 wrong use or something that cannot be read.",
  examples: [
    ["torquil check", "Check every procedure and machine in this folder."],
    ["torquil check jobs/pump.torquil", "Check one file, with what it uses."],
    ["torquil check --report github --report sarif=torquil.sarif", "Two reports from one run."],
    ["torquil check --baseline known.json --write-baseline", "Take note of what is found today."],
  ],
};

export const check: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "check", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  const plan = planOf(given);
  if ("wrong" in plan) return wrongUse(plan.wrong, "check", io);
  const { choice, reports } = plan;
  const { projects, problems } = openNamed(given.paths, io);
  if (plan.records && choice === "settings" && !projects.some((one) => one.workspace.settings().baseline))
    return wrongUse(`${WHICH_BASELINE} Nothing is written.`, "check", io);
  const found = findingsOf(projects, io);
  const recorded =
    plan.records && problems.length === 0 ? recordAll(projects, found, choice, io) : { written: [] };
  const { left, outcome, problems: unread } = hideRecorded(projects, found, choice, io);
  const wrong = [...problems, ...("problem" in recorded ? [recorded.problem] : unread)];
  const checked = summed({ projects, problems: wrong, baseline: outcome }, left, plan, io);
  if (!giveReports(checked, reports, io)) return 2;
  if (plan.records) tellRecorded("written" in recorded ? recorded.written : [], io);
  return checked.exitCode;
};

const WHICH_BASELINE = 'Say which file: --baseline FILE, or "baseline" in torquil.json.';

/** What the options ask for. */
interface Plan {
  readonly reports: readonly Wanted[];
  readonly choice: BaselineChoice;
  /** Whether the baseline is written anew. */
  readonly records: boolean;
  readonly errorsOnly: boolean;
  /** So many warnings are allowed; null where it does not matter. */
  readonly most: number | null;
}

/** Reads the options together; `wrong` is a sentence about what does not go. */
function planOf(given: Given): Plan | { readonly wrong: string } {
  const most = given.value("max-warnings");
  if (most !== undefined && !/^\d{1,9}$/.test(most))
    return { wrong: `The option --max-warnings takes a whole number, not "${most}".` };
  const reports = wantedReports(given);
  if ("wrong" in reports) return reports;
  const choice = baselineChoice(given);
  if (typeof choice === "object" && "wrong" in choice) return choice;
  return {
    reports,
    choice,
    records: given.has("write-baseline"),
    errorsOnly: given.has("quiet"),
    most: most === undefined ? null : Number(most),
  };
}

function baselineChoice(given: Given): BaselineChoice | { readonly wrong: string } {
  const file = given.value("baseline");
  if (!given.has("no-baseline")) return file === undefined ? "settings" : { file };
  const other = ["baseline", "write-baseline"].find((option) => given.has(option));
  return other ? { wrong: `--no-baseline and --${other} do not go together. Keep one.` } : "none";
}

/** Everything that is found in some projects. */
function findingsOf(projects: readonly OpenProject[], io: Io): Located[] {
  io.progress(`Checking ${counted(checkedFiles(projects).length, "file")} …`);
  const found = projects.flatMap((project) =>
    [...project.workspace.check().values()].flat().map((finding): Located => ({ finding, project })),
  );
  io.progress("");
  return found;
}

/** Adds up what is left, and what it comes to. */
function summed(
  run: Pick<Checked, "projects" | "problems" | "baseline">,
  left: readonly Located[],
  { most, errorsOnly }: Plan,
  io: Io,
): Checked {
  const counts = countBySeverity(left.map(({ finding }) => finding));
  const tooMany = most !== null && counts.warnings > most;
  return {
    ...run,
    counts,
    most,
    tooMany,
    shown: errorsOnly ? left.filter(({ finding }) => finding.severity === "error") : left,
    exitCode: run.problems.length > 0 ? 2 : counts.errors > 0 || tooMany ? 1 : 0,
    version: version(),
    now: io.now(),
  };
}

function tellRecorded(written: readonly string[], io: Io): void {
  if (written.length === 0) io.err("The baseline is not written: put right first what cannot be read.\n");
  else io.err(`Written: ${harmless(written.join(", "))}.\n`);
}
