/**
 * The one procedure that a command is about: the file named, the procedure in it where it has several, and whether it
 * can be followed.
 */
import { nearest } from "../../grammar";
import type { Procedure } from "../model";
import { errorsBehind } from "../press/errors";
import type { Given } from "./arguments";
import { harmless } from "./display";
import { findingFrame } from "./frame";
import type { Io } from "./io";
import { type OpenProject, openNamed, tellProblems } from "./open";
import { showingOf } from "./report-text";
import { wrongUse } from "./wrong-use";

export interface Chosen {
  readonly project: OpenProject;
  readonly procedure: Procedure;
}

/** The option by which a procedure is chosen in a file that has several. */
export const PROCEDURE_OPTION = {
  procedure: { about: "The procedure, by its name, where the file has several.", value: "NAME" },
} as const;

/** At most so many errors are shown before it is said that nothing can be followed. */
const MOST_SHOWN = 5;

/** The procedure meant; else what is wrong has been told, and it is the exit code. */
export function chosenProcedure(given: Given, command: string, io: Io): Chosen | number {
  if (given.paths.length !== 1)
    return wrongUse(
      given.paths.length === 0 ? "Name the file of a procedure." : "Name one file only.",
      command,
      io,
    );
  const { projects, problems } = openNamed(given.paths, io);
  tellProblems(problems, io);
  const all = projects.flatMap((project) =>
    project.named.flatMap((path) =>
      (project.workspace.project().files.get(path)?.procedures ?? []).map((procedure) => ({
        project,
        procedure,
      })),
    ),
  );
  if (problems.length > 0) return 2;
  if (all.length === 0) {
    io.err(`There is no procedure in ${harmless(given.paths[0] ?? "")}.\n`);
    return 2;
  }
  const names = all.map(({ procedure }) => procedure.thing.name);
  const wanted = given.value("procedure");
  const found = wanted === undefined ? all : all.filter(({ procedure }) => procedure.thing.name === wanted);
  if (found.length === 0) {
    const near = nearest(wanted ?? "", names);
    const way = near ? `Did you mean ${near}?` : `It has ${names.join(", ")}.`;
    return wrongUse(`There is no procedure ${wanted} in ${given.paths[0]}. ${way}`, command, io);
  }
  const [chosen] = found;
  if (!chosen || found.length > 1)
    return wrongUse(
      `${given.paths[0]} has several procedures: choose one with --procedure ${names.join(", --procedure ")}.`,
      command,
      io,
    );
  return chosen.procedure.doubtful ? notFollowed(chosen, io) : chosen;
}

/** Shows what keeps a procedure from being followed. */
function notFollowed({ project, procedure }: Chosen, io: Io): number {
  const { workspace } = project;
  const { title, name, file } = procedure.thing;
  const errors = errorsBehind(file, workspace.project().files, workspace.check());
  for (const finding of errors.slice(0, MOST_SHOWN))
    io.err(findingFrame(finding, showingOf(project, io, "err")));
  io.err(
    `“${harmless(title || name)}” is not followed: something it rests on could not be understood. Put that right first.\n`,
  );
  return 1;
}
