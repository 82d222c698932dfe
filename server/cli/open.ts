/**
 * Opens what was named on the command line: the projects, and everything in them that cannot be read.
 */
import {
  createWorkspace,
  discover,
  fileProblemText,
  joinPath,
  type NameProblem,
  SETTINGS_FILE,
  shownPath,
  type Workspace,
} from "../project";
import { problemLine, type Shown } from "./frame";
import type { Io } from "./io";

/** Something that cannot be read. The name is as seen from the folder of the command. */
export interface OpenProblem {
  readonly name: string;
  readonly place: Shown | null;
  readonly message: string;
}

/** A project that is open, and which of its files were named. */
export interface OpenProject {
  readonly workspace: Workspace;
  readonly named: readonly string[];
  /** How a file of it is called, as seen from the folder of the command. */
  readonly nameOf: (file: string) => string;
}

/** How an absolute path is called, as seen from the folder of the command. */
export type NameOf = (path: string) => string;

/** Names paths as seen from the folder of the command, also where its links are followed in them. */
export function namerOf(io: Io): NameOf {
  const real = io.files.realPath(io.folder);
  const home = "path" in real ? real.path : io.folder;
  return (path) => shownPath(home, shownPath(io.folder, path));
}

/** Opens the projects of the files that were named; the folder of the command when none was. */
export function openNamed(
  paths: readonly string[],
  io: Io,
): { projects: OpenProject[]; problems: OpenProblem[] } {
  io.progress("Looking for files …");
  const { projects, problems } = discover(io.files, io.folder, paths.length > 0 ? paths : ["."]);
  const nameOf = namerOf(io);
  const open = projects.map(({ root, files }): OpenProject => {
    const workspace = createWorkspace(io.files, root, files);
    return { workspace, named: files, nameOf: (file) => nameOf(joinPath(workspace.root, file)) };
  });
  const wrong = [...problems.map((problem) => problemOfName(problem, nameOf)), ...open.flatMap(openProblems)];
  io.progress("");
  return { projects: open, problems: wrong };
}

/** Something named that cannot be taken, as it is told. */
export function problemOfName({ path, message, line, character }: NameProblem, nameOf: NameOf): OpenProblem {
  return { name: nameOf(path), place: line === undefined ? null : pointAt(line, character ?? 0), message };
}

/** Tells a person what could not be read. */
export function tellProblems(problems: readonly OpenProblem[], io: Io): void {
  for (const { name, place, message } of problems)
    io.err(problemLine(name, place, message, { paint: io.paintErr }));
}

const EMPTY = "This file is empty. Write a machine or a procedure in it, or take it away.";

/** Everything in an open project that cannot be read, and named files that are empty. */
export function openProblems({ workspace, named, nameOf }: OpenProject): OpenProblem[] {
  const settings = workspace
    .settingsProblems()
    .map((problem) => ({ name: nameOf(SETTINGS_FILE), place: problem, message: problem.message }));
  const files = workspace.problems().map(({ file, problem }) => ({
    name: nameOf(file),
    place: problem.line === undefined ? null : pointAt(problem.line, problem.character ?? 0),
    message: fileProblemText(problem),
  }));
  const texts = workspace.project().files;
  const empty = named
    .filter((file) => texts.get(file)?.document.lines.every((line) => line.kind === "blank"))
    .map((file) => ({ name: nameOf(file), place: pointAt(0, 0), message: EMPTY }));
  return [...settings, ...files, ...empty];
}

function pointAt(line: number, character: number): Shown {
  return { line, start: character, end: character };
}
