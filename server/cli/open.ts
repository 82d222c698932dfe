/**
 * Opens what was named on the command line: the projects, and everything in them that cannot be read.
 */
import {
  createWorkspace,
  discover,
  fileProblemText,
  joinPath,
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

/** Opens the projects of the files that were named; the folder of the command when none was. */
export function openNamed(
  paths: readonly string[],
  io: Io,
): { projects: OpenProject[]; problems: OpenProblem[] } {
  io.progress("Looking for files …");
  const { projects, problems } = discover(io.files, io.folder, paths.length > 0 ? paths : ["."]);
  const home = realFolder(io);
  const open = projects.map(({ root, files }): OpenProject => {
    const workspace = createWorkspace(io.files, root, files);
    return { workspace, named: files, nameOf: (file) => shownPath(home, joinPath(workspace.root, file)) };
  });
  const wrong = [
    ...problems.map(({ path, message, line, character }) => ({
      name: shownPath(home, shownPath(io.folder, path)),
      place: line === undefined ? null : pointAt(line, character ?? 0),
      message,
    })),
    ...open.flatMap(projectProblems),
  ];
  io.progress("");
  return { projects: open, problems: wrong };
}

/** Tells a person what could not be read. */
export function tellProblems(problems: readonly OpenProblem[], io: Io): void {
  for (const { name, place, message } of problems)
    io.err(problemLine(name, place, message, { paint: io.paintErr }));
}

function projectProblems({ workspace, nameOf }: OpenProject): OpenProblem[] {
  const settings = workspace
    .settingsProblems()
    .map((problem) => ({ name: nameOf(SETTINGS_FILE), place: problem, message: problem.message }));
  const files = workspace.problems().map(({ file, problem }) => ({
    name: nameOf(file),
    place: problem.line === undefined ? null : pointAt(problem.line, problem.character ?? 0),
    message: fileProblemText(problem),
  }));
  return [...settings, ...files];
}

function pointAt(line: number, character: number): Shown {
  return { line, start: character, end: character };
}

/** The folder of the command with links followed, as the files of a project have them followed. */
function realFolder(io: Io): string {
  const real = io.files.realPath(io.folder);
  return "path" in real ? real.path : io.folder;
}
