/**
 * `torquil refit`: writes the steps that put right all that is owed at the end of a procedure.
 */
import { documentText } from "../../grammar";
import { refit as refitOf } from "../features";
import { editedDocument, fromBehind } from "../features/trial";
import { refitPhrase as say } from "../phrases/refit";
import { fileProblemText, joinPath } from "../project";
import type { TextEdit } from "../rules";
import { helpText, readArguments, type Usage } from "./arguments";
import { chosenProcedure, PROCEDURE_OPTION } from "./chosen";
import { harmless } from "./display";
import type { Command } from "./io";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "refit FILE",
  about: [
    "Writes the steps that put right all that is off, loose, open, drained or held at the end of a procedure, in an order",
    "that can be worked. Where ways differ they are written under the condition or check that tells the ways apart.",
    "They are shown with the line that they go in front of; what could not be put right is said, and why.",
  ].join("\n"),
  options: {
    ...PROCEDURE_OPTION,
    write: { about: "Put them into the file; else they are only shown." },
  },
  more: "Exit code: 0 all is written, or nothing was owed; 1 something is not put right, or the procedure cannot be\nfollowed; 2 wrong use, or a file that cannot be read or written.",
  examples: [
    ["torquil refit jobs/pump.torquil", "Show what is missing, and where it goes."],
    ["torquil refit jobs/pump.torquil --write", "Put it into the file."],
    ["torquil refit jobs/all.torquil --procedure pump", "Of one procedure of several in the file."],
  ],
};

export const refit: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "refit", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  const chosen = chosenProcedure(given, "refit", io);
  if (typeof chosen === "number") return chosen;
  const { procedure, project } = chosen;
  const { workspace } = project;
  const { edits, problems } = refitOf(workspace.project(), procedure, workspace.settings().rules);
  for (const problem of problems) io.err(`${io.paintErr("warning", "warning")}: ${harmless(problem)}\n`);
  const code = problems.length > 0 ? 1 : 0;
  const { title, name, file } = procedure.thing;
  const document = workspace.project().files.get(file)?.document;
  if (edits.length === 0 || !document) {
    if (code === 0) io.err(`${say("nothing", { title: harmless(title || name) })}\n`);
    return code;
  }
  if (!given.has("write")) {
    io.out(shown(edits));
    return code;
  }
  const text = documentText(editedDocument(document, file, edits));
  const problem = io.files.write(joinPath(workspace.root, file), text);
  const path = harmless(project.nameOf(file));
  if (problem) {
    io.err(`${io.paintErr("error", "error")}: ${path} could not be written. ${fileProblemText(problem)}\n`);
    return 2;
  }
  const count = edits.reduce((sum, edit) => sum + edit.text.split("\n").length - 1, 0);
  const lines = count === 1 ? say("line") : say("lines", { count: String(count) });
  io.out(`${say("written", { file: path, count: lines })}\n`);
  return code;
};

/** What is added, each with its place. It can be pasted: the place is a comment. */
function shown(edits: readonly TextEdit[]): string {
  const all = [...fromBehind(edits)].reverse();
  return all
    .map(({ start, text }) => {
      const lines = text.split(/\r?\n/);
      while (lines[0]?.trim() === "") lines.shift();
      while (lines.at(-1)?.trim() === "") lines.pop();
      const indent = /^\s*/.exec(lines[0] ?? "")?.[0] ?? "";
      return [`${indent}// ${say("above", { line: String(start.line + 1) })}`, ...lines]
        .map((line) => `${harmless(line)}\n`)
        .join("");
    })
    .join("\n");
}
