/**
 * Gives the reports of `check`: to the standard output, and to files.
 */
import { absolutePath, fileProblemText } from "../project";
import { harmless } from "./display";
import { problemLine } from "./frame";
import type { Io } from "./io";
import { namerOf, tellProblems } from "./open";
import type { Checked } from "./report";
import { githubReport } from "./report-github";
import { jsonReport } from "./report-json";
import { junitReport } from "./report-junit";
import { sarifReport } from "./report-sarif";
import { closingText, findingsText } from "./report-text";
import type { Wanted } from "./report-wanted";

const MAKERS: Readonly<Record<Exclude<Wanted["form"], "text">, (checked: Checked) => string>> = {
  json: jsonReport,
  sarif: sarifReport,
  junit: junitReport,
  github: githubReport,
};

/** Gives every report that is wanted, and the text unless another has the standard output; whether all were written. */
export function giveReports(checked: Checked, reports: readonly Wanted[], io: Io): boolean {
  const onOut = reports.find(({ file }) => file === null)?.form ?? "text";
  if (onOut === "text") {
    io.out(findingsText(checked.shown, io));
    tellProblems(checked.problems, io);
  } else io.out(MAKERS[onOut](checked));
  if (onOut === "text" || onOut === "github") io.out(closingText(checked, io));
  const failed = reports.filter(
    ({ form, file }) =>
      file !== null &&
      !writeReport(file, form === "text" ? plainText(checked, io) : MAKERS[form](checked), io),
  );
  return failed.length === 0;
}

/** The text as it stands in a file: without colours, what cannot be read in it too. */
function plainText(checked: Checked, io: Io): string {
  const plain = (_: string, text: string): string => text;
  const bare: Io = { ...io, paintOut: plain };
  const unread = checked.problems.map(({ name, place, message }) =>
    problemLine(name, place, message, { paint: plain }),
  );
  return [findingsText(checked.shown, bare), ...unread, closingText(checked, bare)].join("");
}

function writeReport(file: string, text: string, io: Io): boolean {
  const path = absolutePath(io.folder, file);
  const problem = io.files.write(path, text);
  const name = harmless(namerOf(io)(path));
  if (problem)
    io.err(
      `${io.paintErr("error", "error")}: The report ${name} could not be written. ${fileProblemText(problem)}\n`,
    );
  return problem === null;
}
