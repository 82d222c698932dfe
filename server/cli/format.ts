/**
 * `torquil format`: brings files into the usual form, or says which are not in it. A file is written whole or not at all,
 * and one whose braces do not balance is left alone, since nobody can tell where its lines belong.
 */
import { type Document, formatDocument, readDocument } from "../../grammar";
import { decodeText, discover, fileProblemText, joinPath } from "../project";
import { spellUnit } from "../project/spelling";
import { helpText, readArguments, type Usage } from "./arguments";
import { harmless, windowOn } from "./display";
import { problemLine } from "./frame";
import { type Command, counted, type Io } from "./io";
import { type NameOf, namerOf, type OpenProblem, problemOfName, tellProblems } from "./open";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "format [paths…]",
  about: [
    "Brings procedures and machines into the usual form: indentation, columns, the spelling of units.",
    "Paths are files, folders or patterns; without any, this folder.",
  ].join("\n"),
  options: {
    check: { about: "Write nothing; exit with 1 when a file is not in the usual form." },
    stdin: { about: "Read one text from the standard input, and write it formatted to the standard output." },
  },
  more: "Exit code: 0 all well, 1 a file is left alone or (with --check) differs, 2 wrong use or unreadable input.",
  examples: [
    ["torquil format", "Bring every file in this folder into the usual form."],
    ["torquil format --check jobs", "Only say which files are not in it."],
    ["torquil format --stdin < pump.torquil", "Format one text, for an editor."],
  ],
};

const UNBALANCED = 'The braces here do not balance, so the file is left as it is. "torquil check" says more.';

export const format: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "format", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  if (!given.has("stdin")) return formatFiles(given.paths, given.has("check"), io);
  if (given.paths.length > 0) return wrongUse("The option --stdin takes no paths.", "format", io);
  return formatStdin(given.has("check"), io);
};

/** A file's text and its form, or why it has none. */
type Formatted = { readonly before: Document; readonly text: string } | { readonly line: number };

function formatText(text: string): Formatted {
  const before = readDocument(text);
  if (!before.tree.balanced) return { line: before.tree.problems[0]?.line ?? 0 };
  return { before, text: formatDocument(before, spellUnit) };
}

async function formatStdin(onlyCheck: boolean, io: Io): Promise<number> {
  const name = "standard input";
  const decoded = decodeText(await io.readStdin());
  if ("problem" in decoded) {
    tellProblems([{ name, place: pointOf(decoded.problem), message: fileProblemText(decoded.problem) }], io);
    return 2;
  }
  const formatted = formatText(decoded.text);
  if ("line" in formatted) {
    io.err(problemLine(name, { line: formatted.line, start: 0, end: 0 }, UNBALANCED, { paint: io.paintErr }));
    return 1;
  }
  const differs = formatted.text !== decoded.text;
  if (!onlyCheck) io.out(formatted.text);
  else if (differs) io.out(difference(name, formatted.before, formatted.text, io));
  return onlyCheck && differs ? 1 : 0;
}

interface Tally {
  changed: number;
  same: number;
  left: number;
}

function formatFiles(paths: readonly string[], onlyCheck: boolean, io: Io): number {
  const { projects, problems } = discover(io.files, io.folder, paths.length > 0 ? paths : ["."]);
  const nameOf = namerOf(io);
  const wrong: OpenProblem[] = problems.map((problem) => problemOfName(problem, nameOf));
  const tally: Tally = { changed: 0, same: 0, left: 0 };
  for (const path of projects.flatMap(({ root, files }) => files.map((file) => joinPath(root, file)))) {
    const problem = formatFile(path, onlyCheck, tally, nameOf, io);
    if (problem) wrong.push(problem);
  }
  tellProblems(wrong, io);
  io.out(summary(tally, onlyCheck));
  if (wrong.length > 0) return 2;
  return tally.left > 0 || (onlyCheck && tally.changed > 0) ? 1 : 0;
}

function formatFile(
  path: string,
  onlyCheck: boolean,
  tally: Tally,
  nameOf: NameOf,
  io: Io,
): OpenProblem | null {
  const name = nameOf(path);
  const read = io.files.readText(path);
  if ("problem" in read)
    return { name, place: pointOf(read.problem), message: fileProblemText(read.problem) };
  const formatted = formatText(read.text);
  if ("line" in formatted) {
    tally.left++;
    io.err(problemLine(name, { line: formatted.line, start: 0, end: 0 }, UNBALANCED, { paint: io.paintErr }));
    return null;
  }
  if (formatted.text === read.text) {
    tally.same++;
    return null;
  }
  if (onlyCheck) io.out(difference(name, formatted.before, formatted.text, io));
  else {
    const problem = io.files.write(path, formatted.text);
    if (problem)
      return { name, place: null, message: `The file stays as it was. ${fileProblemText(problem)}` };
    io.out(`${harmless(name)} is formatted.\n`);
  }
  tally.changed++;
  return null;
}

/** The first line that is not as it should be, with the one that should stand there. */
function difference(name: string, before: Document, text: string, io: Io): string {
  const paint = io.paintOut;
  const after = readDocument(text).lines.map((line) => line.text);
  const found = before.lines.findIndex((line, at) => line.text !== after[at]);
  const at = found >= 0 ? found : Math.min(before.lines.length, after.length) - 1;
  const shown = (line: string | undefined): string =>
    windowOn(line ?? "", 0, 0, Math.max(20, io.width - 10)).text;
  return [
    `${paint("strong", `${harmless(name)}:${at + 1}`)}: not in the usual form`,
    `${paint("faint", String(at + 1).padStart(5))} ${paint("error", "-")} ${shown(before.lines[at]?.text)}`,
    `      ${paint("good", "+")} ${shown(after[at])}`,
    "",
  ].join("\n");
}

function summary({ changed, same, left }: Tally, onlyCheck: boolean): string {
  const parts = [
    changed > 0 ? `${counted(changed, "file")} ${onlyCheck ? "not in the usual form" : "formatted"}` : "",
    same > 0 ? `${counted(same, "file")} in the usual form already` : "",
    left > 0 ? `${counted(left, "file")} left alone` : "",
  ].filter((part) => part !== "");
  return parts.length > 0 ? `${parts.join(", ")}.\n` : "No file was formatted.\n";
}

function pointOf({
  line,
  character,
}: {
  readonly line?: number;
  readonly character?: number;
}): OpenProblem["place"] {
  return line === undefined ? null : { line, start: character ?? 0, end: character ?? 0 };
}
