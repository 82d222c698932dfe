/**
 * `torquil print`: procedures as sheets. One with errors is refused, unless as a draft that says on every page what it is.
 */
import type { Procedure } from "../model";
import { LANGUAGES } from "../phrases/sheet";
import { errorsBehind } from "../press/errors";
import { outputNames } from "../press/names";
import { fileProblemText, joinPath } from "../project";
import { absolutePath } from "../project/paths";
import type { Finding } from "../rules";
import type { Sheet } from "../sheet/blocks";
import { buildSheet } from "../sheet/build";
import { type Given, helpText, readArguments, type Usage } from "./arguments";
import { contentsPage, isContentsPage, type Listed } from "./contents-page";
import { harmless } from "./display";
import { findingFrame } from "./frame";
import { type Command, counted, type Io } from "./io";
import { namerOf, type OpenProject, openNamed, tellProblems } from "./open";
import { type Form, printSheets } from "./print-sheets";
import { type Marking, markingSince } from "./print-since";
import { showingOf } from "./report-text";
import { notDone, wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "print [paths…]",
  about: [
    "Prints the procedures in the files named as sheets for the workshop. One with errors is refused.",
    "A sheet is called by its document number, or by its procedure's name where it has none.",
  ].join("\n"),
  options: {
    to: {
      about: "PDF (the usual), one web page that works without a network, or both.",
      value: "FORM",
      choices: ["pdf", "html", "both"],
    },
    out: {
      about:
        "The folder the sheets are written to; this one when it is not said.\nWhere a folder is printed, index.html in it lists them.",
      value: "DIR",
    },
    "no-index": { about: "Write no index.html." },
    paper: { about: "The paper, whatever the settings say.", value: "PAPER", choices: ["a4", "letter"] },
    language: { about: "The language of the words the sheet adds.", value: "LANGUAGE", choices: LANGUAGES },
    units: { about: "The units that are shown.", value: "UNITS", choices: ["both", "metric", "imperial"] },
    since: {
      about: "Put bars beside what has changed since this git revision.",
      value: "REVISION",
    },
    draft: { about: "Print it with DRAFT on every page, errors or not." },
  },
  more: "Exit code: 0 all printed, 1 a procedure has errors or cannot be set, 2 wrong use or unreadable input.",
  examples: [
    ["torquil print jobs/pump.torquil", "One sheet, as PDF, into this folder."],
    ["torquil print jobs --to both --out sheets", "A folder of sheets, with an index page."],
    ["torquil print jobs --since v1.2", "With bars beside what has changed since a tag."],
    ["torquil print jobs/pump.torquil --draft --to html", "A draft to look at, errors or not."],
  ],
};

const FORMS: Readonly<Record<string, readonly Form[]>> = {
  pdf: ["pdf"],
  html: ["html"],
  both: ["pdf", "html"],
};

/** The name of the page that lists the sheets. */
const CONTENTS = "index";

/** A procedure that is to be printed. */
interface Work {
  readonly procedure: Procedure;
  readonly project: OpenProject;
  /** The errors in its file and in those it uses. */
  readonly errors: readonly Finding[];
}

export const print: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "print", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  const { projects, problems } = openNamed(given.paths, io);
  tellProblems(problems, io);
  const all = projects.flatMap(proceduresOf);
  if (all.length === 0) {
    if (problems.length === 0) io.err("There is no procedure in the files named, so nothing is printed.\n");
    return 2;
  }
  const since = given.value("since");
  const marking = since === undefined ? unmarked : markingSince(since, projects);
  if ("wrong" in marking) return notDone(marking.wrong, io);
  const isSound = (work: Work): boolean => given.has("draft") || work.errors.length === 0;
  const refused = all.filter((work) => !isSound(work));
  refuse(refused, io);
  const failed = await printAll(all, isSound, marking, given, io);
  return problems.length > 0 ? 2 : failed || refused.length > 0 ? 1 : 0;
};

function proceduresOf(project: OpenProject): Work[] {
  const { workspace, named } = project;
  const found = workspace.check();
  const { files } = workspace.project();
  return named.flatMap((path) => {
    const file = files.get(path);
    if (!file || file.procedures.length === 0) return [];
    const errors = errorsBehind(path, files, found);
    return file.procedures.map((procedure) => ({ procedure, project, errors }));
  });
}

/** Shows each error once, then which procedures it keeps from being printed. */
function refuse(refused: readonly Work[], io: Io): void {
  const shown = new Set<Finding>();
  for (const { errors, project } of refused) {
    for (const finding of errors.filter((one) => !shown.has(one)).slice(0, 10)) {
      io.err(findingFrame(finding, showingOf(project, io, "err")));
      shown.add(finding);
    }
  }
  for (const { procedure, errors, project } of refused) {
    const { title, name, file } = procedure.thing;
    const errorCount = counted(errors.length, "error");
    io.err(
      `“${harmless(title || name)}” (${harmless(project.nameOf(file))}) is not printed: it has ${errorCount}. --draft prints it all the same.\n`,
    );
  }
}

/** Prints what is sound, and lists all in the contents page where one is wanted; whether any could not be printed. */
async function printAll(
  all: readonly Work[],
  isSound: (work: Work) => boolean,
  marking: Marking,
  given: Given,
  io: Io,
): Promise<boolean> {
  const forms = FORMS[given.value("to") ?? "pdf"] as readonly Form[];
  const folder = absolutePath(io.folder, given.value("out") ?? ".");
  const hasContents = wantsContents(given, io);
  const sheets = all.map((work) => marking(sheetOf(work, given, io), work.procedure, work.project));
  const titled = all.map(({ procedure: { thing }, project }, i) => ({
    document: sheets[i]?.document ?? "",
    name: thing.name,
    file: project.nameOf(thing.file),
  }));
  const names = outputNames(titled, hasContents ? [CONTENTS] : []);
  const jobs = sheets.map((sheet, i) => ({ sheet, name: names[i] ?? null }));
  const sound = jobs.filter((_, i) => isSound(all[i] as Work));
  const written = await printSheets(sound, forms, folder, io);
  const failed = written.some((files) => forms.some((form) => files[form] === undefined));
  if (!hasContents) return failed;
  const listed = jobs.map((job) => ({ sheet: job.sheet, files: written[sound.indexOf(job)] ?? {} }));
  return !writeContents(joinPath(folder, `${CONTENTS}.html`), listed, io) || failed;
}

/** Writes the page that lists the sheets, unless a page of somebody else stands there; whether it is written. */
function writeContents(path: string, listed: readonly Listed[], io: Io): boolean {
  const name = harmless(namerOf(io)(path));
  const there = io.files.readText(path);
  const isForeign = "text" in there && !isContentsPage(there.text);
  const problem = isForeign
    ? null
    : io.files.write(path, contentsPage(listed, listed[0]?.sheet.words ?? "en"));
  const why = isForeign
    ? "is not a list of sheets, so it is left alone. Print to another folder, or with --no-index."
    : problem && `could not be written. ${fileProblemText(problem)}`;
  if (why) io.err(`${io.paintErr("error", "error")}: ${name} ${why}\n`);
  else io.out(`${name}  lists ${counted(listed.length, "procedure")}\n`);
  return !why;
}

/** Whether a page that lists the sheets is written: when a whole folder is printed into one. */
function wantsContents(given: Given, io: Io): boolean {
  if (!given.has("out") || given.has("no-index")) return false;
  const isFolder = (path: string): boolean => {
    const found = io.files.look(absolutePath(io.folder, path));
    return "kind" in found && found.kind === "folder";
  };
  return given.paths.length === 0 || given.paths.some(isFolder);
}

/** A sheet as it is, where nothing is compared. */
const unmarked: Marking = (sheet) => sheet;

function sheetOf({ procedure, project }: Work, given: Given, io: Io): Sheet {
  const { workspace } = project;
  const settings = workspace.settings();
  return buildSheet(workspace.project(), procedure, {
    language: (given.value("language") ?? settings.language) as typeof settings.language,
    paper: (given.value("paper") ?? settings.paper) as typeof settings.paper,
    units: (given.value("units") ?? settings.units) as typeof settings.units,
    draft: given.has("draft"),
    pictures: (file) => {
      const read = io.files.readBytes(joinPath(workspace.root, file));
      return "bytes" in read ? read.bytes : undefined;
    },
  });
}
