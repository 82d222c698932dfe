/**
 * `torquil new`: begins a project that checks clean and can be printed. It makes all of its files or none, and writes over
 * nothing.
 */
import { absolutePath, fileProblemText, joinPath, parentOf } from "../project";
import { helpText, readArguments, type Usage } from "./arguments";
import { harmless } from "./display";
import { type Command, counted, type Io } from "./io";
import { namerOf } from "./open";
import { STARTER, type Starter, starterFiles } from "./starter";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "new [FOLDER]",
  about: [
    "Begins a project: settings, a machine, and a procedure on it that is whole, checks clean and prints.",
    "The folder is made when it is not there; without one, it is this folder. Nothing is written over.",
  ].join("\n"),
  options: {
    machine: { about: "What the machine is called.", value: "TITLE" },
    title: { about: "What the procedure is called.", value: "TITLE" },
    paper: {
      about: "The paper sheets are printed on: a4 (the usual), or letter.",
      value: "PAPER",
      choices: ["a4", "letter"],
    },
  },
  more: "Exit code: 0 all files are made, 1 something stands in their way, 2 wrong use, or a folder that cannot be written.",
  examples: [
    ["torquil new jobs", "A project in the folder jobs."],
    [
      'torquil new --machine "Dipper 3 saw" --title "Change the blade"',
      "One in this folder, with your own titles.",
    ],
  ],
};

export const newProject: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "new", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  if (given.paths.length > 1)
    return wrongUse(
      `One folder is made at a time, not ${given.paths.length}. Put a name with spaces in quotes.`,
      "new",
      io,
    );
  const starter: Starter = {
    machineTitle: given.value("machine")?.trim() ?? STARTER.machineTitle,
    procedureTitle: given.value("title")?.trim() ?? STARTER.procedureTitle,
    paper: given.value("paper") === "letter" ? "letter" : "a4",
  };
  const bad = (["machine", "title"] as const).find((option) =>
    /\p{Cc}|^\s*$/u.test(given.value(option) ?? "x"),
  );
  if (bad) return wrongUse(`The option --${bad} takes a title of one line.`, "new", io);
  return make(given.paths[0] ?? ".", starterFiles(starter), io);
};

function make(folder: string, files: Readonly<Record<string, string>>, io: Io): number {
  const home = absolutePath(io.folder, folder);
  const nameOf = namerOf(io);
  const blocking = fileOnTheWay(home, io);
  if (blocking !== null) return refuse([nameOf(blocking)], io);
  const inTheWay = Object.keys(files)
    .map((file) => joinPath(home, file))
    .filter((path) => !("problem" in io.files.look(path)));
  if (inTheWay.length > 0) return refuse(inTheWay.map(nameOf), io);
  const failed = io.files.create(home, files);
  if (failed?.problem.kind === "exists") return refuse([nameOf(failed.path)], io);
  if (failed) {
    const name = harmless(nameOf(failed.path));
    io.err(
      `${io.paintErr("error", "error")}: ${name} could not be made. ${fileProblemText(failed.problem)}\n`,
    );
    return 2;
  }
  for (const file of Object.keys(files)) io.out(`${harmless(nameOf(joinPath(home, file)))}\n`);
  io.out(nextSteps(folder));
  return 0;
}

/** A file that stands where a folder is needed; null when there is none. */
function fileOnTheWay(folder: string, io: Io): string | null {
  const there = io.files.look(folder);
  if ("kind" in there) return there.kind === "folder" ? null : folder;
  return parentOf(folder) === folder ? null : fileOnTheWay(parentOf(folder), io);
}

/** Says what stands in the way, and that nothing was made. */
function refuse(names: readonly string[], io: Io): number {
  const listed = names.map((name) => `  ${harmless(name)}\n`).join("");
  const what =
    names.length === 1 ? "This is there already" : `These ${counted(names.length, "file")} are there already`;
  io.err(
    `${io.paintErr("error", "error")}: ${what}, and nothing is written over:\n${listed}Nothing was made. Name a new folder, or move ${names.length === 1 ? "it" : "them"} away.\n`,
  );
  return 1;
}

function nextSteps(folder: string): string {
  const inside = folder === "." ? "" : ` ${/[^\w./-]/.test(folder) ? `"${folder}"` : folder}`;
  return [
    "",
    "Next:",
    `  torquil check${inside}`,
    `  torquil print${inside} --to both --out sheets`,
    "Then open the files in an editor and make them yours.",
    "",
  ].join("\n");
}
