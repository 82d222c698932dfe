/**
 * `torquil refit`: writes the section that puts right all that is owed at the end of a procedure, or at a step.
 */

import { documentText } from "../../grammar";
import { inUsualForm, refit as refitOf, refitText, stepNamed } from "../features";
import { editedDocument } from "../features/trial";
import { refitPhrase as say } from "../phrases/refit";
import { fileProblemText, joinPath } from "../project";
import { helpText, readArguments, type Usage } from "./arguments";
import { chosenProcedure, PROCEDURE_OPTION } from "./chosen";
import { harmless } from "./display";
import type { Command } from "./io";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "refit FILE [--at STEP]",
  about: [
    "Writes the section that puts right all that is still off, loose, open, drained or held at the end of a procedure,",
    "in an order that can be worked. Where ways differ it is written under the condition that tells them apart.",
  ].join("\n"),
  options: {
    at: {
      about:
        "Before which step or check, by number, name, title or “line 120”; the end when nothing is said.",
      value: "STEP",
    },
    ...PROCEDURE_OPTION,
    write: { about: "Put the section into the file; else it is only shown." },
  },
  more: "Exit code: 0 written, or nothing is owed; 1 something could not be put right; 2 wrong use or unreadable input.",
  examples: [
    ["torquil refit jobs/pump.torquil", "Show the section that is missing."],
    ["torquil refit jobs/pump.torquil --write", "Put it into the file."],
    ["torquil refit jobs/pump.torquil --at 12", "What would put back all that is off before step 12."],
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
  const asked = given.value("at");
  const step = asked === undefined ? null : stepNamed(procedure, asked);
  if (step && "problem" in step) return wrongUse(step.problem, "refit", io);
  const found = refitOf(workspace.project(), procedure, step?.point ?? null);
  for (const problem of found.problems)
    io.err(`${io.paintErr("warning", "warning")}: ${harmless(problem)}\n`);
  const code = found.problems.length > 0 ? 1 : 0;
  if (found.lines.length === 0) {
    if (code === 0) io.err(`${say("nothing")}\n`);
    return code;
  }
  if (!given.has("write") || !found.edit) {
    io.out(`${refitText(found)}\n`);
    return code;
  }
  const { file } = found.edit;
  const document = workspace.project().files.get(file)?.document;
  if (!document) return 2;
  const edits = inUsualForm(workspace.project(), [found.edit]);
  const text = documentText(editedDocument(document, file, edits));
  const problem = io.files.write(joinPath(workspace.root, file), text);
  const name = harmless(project.nameOf(file));
  if (problem) {
    io.err(`${io.paintErr("error", "error")}: ${name} could not be written. ${fileProblemText(problem)}\n`);
    return 2;
  }
  io.out(`${name}  has its refit, from line ${found.edit.start.line + 1}\n`);
  return code;
};
