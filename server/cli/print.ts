/**
 * `torquil print`: procedures as sheets. One with errors is refused, unless as a draft that says on every page what it is.
 */
import type { FileModel, Procedure } from "../model";
import { LANGUAGES } from "../phrases/sheet";
import { fileProblemText, joinPath } from "../project";
import { absolutePath } from "../project/paths";
import type { Finding } from "../rules";
import type { Sheet } from "../sheet/blocks";
import { buildSheet } from "../sheet/build";
import { renderHtml } from "../sheet/html";
import { type Given, helpText, readArguments, type Usage } from "./arguments";
import { showingOf } from "./check";
import { harmless } from "./display";
import { findingFrame } from "./frame";
import { type Command, counted, type Io } from "./io";
import { namerOf, type OpenProject, openNamed, tellProblems } from "./open";
import { outputNames } from "./output-names";
import { createPress, type Press } from "./press";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "print [paths…]",
  about: [
    "Prints the procedures in the files named as sheets for the workshop. One with errors is refused.",
    "A sheet is called by its document number, or by its procedure's name where it has none.",
  ].join("\n"),
  options: {
    to: {
      about: "PDF (the usual), or one web page that works without a network.",
      value: "FORM",
      choices: ["pdf", "html"],
    },
    out: { about: "The folder the sheets are written to; this one when it is not said.", value: "DIR" },
    paper: { about: "The paper, whatever the settings say.", value: "PAPER", choices: ["a4", "letter"] },
    language: { about: "The language of the words the sheet adds.", value: "LANGUAGE", choices: LANGUAGES },
    units: { about: "The units that are shown.", value: "UNITS", choices: ["both", "metric", "imperial"] },
    draft: { about: "Print it with DRAFT on every page, errors or not." },
  },
  more: "Exit code: 0 all printed, 1 a procedure has errors or cannot be set, 2 wrong use or unreadable input.",
};

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
  const sound = all.filter((work) => given.has("draft") || work.errors.length === 0);
  refuse(
    all.filter((work) => !sound.includes(work)),
    io,
  );
  const failed = await printAll(sound, given, io);
  return problems.length > 0 ? 2 : failed || sound.length < all.length ? 1 : 0;
};

function proceduresOf(project: OpenProject): Work[] {
  const { workspace, named } = project;
  const found = workspace.check();
  const { files } = workspace.project();
  return named.flatMap((path) => {
    const file = files.get(path);
    if (!file || file.procedures.length === 0) return [];
    const seen = reachedFrom(path, files);
    const errors = [...seen].flatMap((one) => found.get(one) ?? []).filter((one) => one.severity === "error");
    return file.procedures.map((procedure) => ({ procedure, project, errors }));
  });
}

/** A file and all it uses. */
function reachedFrom(path: string, files: ReadonlyMap<string, FileModel>): ReadonlySet<string> {
  const reached = new Set([path]);
  // A set that is gone through also gives what is added to it meanwhile.
  for (const one of reached)
    for (const { kind, file } of files.get(one)?.links ?? [])
      if (kind === "use" && file !== null) reached.add(file);
  return reached;
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

/** Prints and tells where; whether any could not be printed. */
async function printAll(works: readonly Work[], given: Given, io: Io): Promise<boolean> {
  const toPdf = given.value("to") !== "html";
  const sheets = works.map((work) => sheetOf(work, given, io));
  const names = outputNames(
    sheets.map((sheet, i) => ({
      document: sheet.document ?? "",
      name: works[i]?.procedure.thing.name ?? "",
    })),
  );
  const folder = absolutePath(io.folder, given.value("out") ?? ".");
  const press = createPress(toPdf ? sheets.length : 0);
  let failed = false;
  for (const [i, sheet] of sheets.entries()) {
    io.progress(`Printing ${i + 1} of ${sheets.length}: ${harmless(sheet.title)} …`);
    const name = names[i];
    const path = name && joinPath(folder, `${name}.${toPdf ? "pdf" : "html"}`);
    const told = path ? await printOne(sheet, path, toPdf, press, io) : { wrong: SAME_NAME };
    io.progress("");
    if ("wrong" in told)
      io.err(
        `${io.paintErr("error", "error")}: “${harmless(sheet.title)}” is not printed. ${harmless(told.wrong)}\n`,
      );
    else io.out(`${harmless(namerOf(io)(path as string))}  ${told.done}\n`);
    failed ||= "wrong" in told;
  }
  press.close();
  return failed;
}

const SAME_NAME =
  "Another has the same document number and name. Change one, or print them to different folders.";

async function printOne(
  sheet: Sheet,
  path: string,
  toPdf: boolean,
  press: Press,
  io: Io,
): Promise<{ readonly done: string } | { readonly wrong: string }> {
  const made = toPdf ? await press.set(sheet) : { html: renderHtml(sheet) };
  if ("error" in made) return { wrong: made.error };
  const problem = io.files.write(path, "html" in made ? made.html : made.pdf);
  if (problem) return { wrong: `${namerOf(io)(path)} could not be written. ${fileProblemText(problem)}` };
  return { done: `${"pages" in made ? `${counted(made.pages, "page")}, ` : ""}${sheet.title}` };
}

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
