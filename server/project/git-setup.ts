/**
 * What makes `git diff` show meaning: one block in the repository's own settings, one in its `.gitattributes`. What stood
 * there before stays as it was, byte for byte, and comes back so when the blocks are taken out.
 */
import { rmSync } from "node:fs";
import { type Files, fileProblemText } from "./files";
import type { Git } from "./git";
import { joinPath, nameOf } from "./paths";

/** A file, the block that is put behind its text, and its text. */
interface Target {
  readonly path: string;
  /** How it is told. */
  readonly name: string;
  readonly block: string;
  /** null where there is no such file. */
  readonly text: string | null;
}

/** What would be written, and where; `lines` are the lines of our own. */
export interface SetupPlan {
  readonly files: readonly { readonly name: string; readonly lines: readonly string[] }[];
  /** Does it; a sentence where it could not be done, and then nothing has changed. */
  readonly apply: () => string | null;
}

const BEGIN = "# Torquil: begin. “torquil git uninstall” takes these lines out again";
const END = "# Torquil: end";
/** What the first line says of the text before it: it had no line end, or there was no file. */
const MARKS = { unfinished: " (no line end before)", absent: " (no file before)" } as const;

/** Plans to write both blocks. `command` is run by git's shell. */
export function planInstall(
  git: Git,
  files: Files,
  command: string,
): SetupPlan | { readonly problem: string } {
  const targets = targetsOf(git, files, command);
  if ("problem" in targets) return targets;
  const there = targets.filter(({ text }) => text?.includes(BEGIN));
  if (there.length === targets.length)
    return {
      problem: "It is set up already. “torquil git uninstall” undoes it; after that it can be set up anew.",
    };
  const foreign = foreignLine(targets.filter((target) => !there.includes(target)));
  if (foreign) return { problem: foreign };
  const left = targets.filter((target) => !there.includes(target));
  return {
    files: left.map(({ name, block }) => ({ name, lines: block.split("\n").slice(1, -2) })),
    apply: () =>
      writeAll(
        left.map((target) => ({ target, text: withBlock(target) })),
        files,
      ),
  };
}

/** Plans to take both blocks out. */
export function planUninstall(git: Git, files: Files): SetupPlan | { readonly problem: string } {
  const targets = targetsOf(git, files, "");
  if ("problem" in targets) return targets;
  const found = targets.flatMap((target) => {
    const cut = target.text === null ? null : withoutBlock(target.text);
    return cut ? [{ target, ...cut }] : [];
  });
  if (found.length === 0)
    return { problem: "There is nothing to undo: it is not set up in this repository." };
  return {
    files: found.map(({ target, lines }) => ({ name: target.name, lines })),
    apply: () => writeAll(found, files),
  };
}

function targetsOf(
  git: Git,
  files: Files,
  command: string,
): readonly Target[] | { readonly problem: string } {
  const config = git.ownPath("config");
  if (typeof config !== "string") return config;
  const attributes = joinPath(git.root, ".gitattributes");
  const wanted = [
    {
      path: config,
      name: `.git/${nameOf(config)}`,
      lines: ['[diff "torquil"]', `\tcommand = ${configValue(command)}`],
    },
    { path: attributes, name: ".gitattributes", lines: ["*.torquil diff=torquil"] },
  ];
  const targets: Target[] = [];
  for (const { path, name, lines } of wanted) {
    const read = files.readText(path);
    if ("problem" in read && read.problem.kind !== "missing")
      return { problem: `${name} cannot be read. ${fileProblemText(read.problem)}` };
    targets.push({
      path,
      name,
      block: [BEGIN, ...lines, END, ""].join("\n"),
      text: "text" in read ? read.text : null,
    });
  }
  return targets;
}

/** A value as git's settings file takes it, in double quotes. */
function configValue(text: string): string {
  return `"${text.replace(/[\\"]/g, (sign) => `\\${sign}`)}"`;
}

/** A line of somebody else that says how these files are shown already. */
function foreignLine(targets: readonly Target[]): string | null {
  for (const { name, text } of targets) {
    const lines = (text ?? "").split(/\r?\n/);
    const at = lines.findIndex((line) =>
      name === ".gitattributes"
        ? /^\s*[^#\s]*\.torquil"?\s.*(?<![\w-])-?diff\b/.test(line)
        : /^\s*\[diff\s+"torquil"\]/i.test(line),
    );
    if (at >= 0)
      return `${name}, line ${at + 1}, says already how these files are shown: “${lines[at]?.trim()}”. Take that line out first; nothing is written.`;
  }
  return null;
}

function withBlock({ text, block }: Target): string {
  if (text === null) return block.replace(BEGIN, `${BEGIN}${MARKS.absent}`);
  if (text === "" || text.endsWith("\n")) return text + block;
  return `${text}\n${block.replace(BEGIN, `${BEGIN}${MARKS.unfinished}`)}`;
}

/** The text without our block, null where there should be no file; undefined where there is no block. */
function withoutBlock(
  text: string,
): { readonly text: string | null; readonly lines: readonly string[] } | undefined {
  const start = text.indexOf(BEGIN);
  const end = text.indexOf(END, start);
  if (start < 0 || end < 0) return undefined;
  const block = text.slice(start, end);
  const head = block.slice(BEGIN.length, block.indexOf("\n"));
  const before = text.slice(0, start);
  const after = text.slice(end + END.length).replace(/^\r?\n/, "");
  const lines = block.split(/\r?\n/).slice(1, -1);
  if (head.startsWith(MARKS.absent) && before === "" && after === "") return { text: null, lines };
  // What was put behind the block since then still needs the line end.
  const kept = head.startsWith(MARKS.unfinished) && after === "" ? before.replace(/\r?\n$/, "") : before;
  return { text: kept + after, lines };
}

/** Writes all of the texts, or, where one cannot be written, puts back those before it. */
function writeAll(
  all: readonly { readonly target: Target; readonly text: string | null }[],
  files: Files,
): string | null {
  for (const [i, { target, text }] of all.entries()) {
    const problem = put(target.path, text, files);
    if (problem === null) continue;
    for (const { target: earlier } of all.slice(0, i)) put(earlier.path, earlier.text, files);
    return `${target.name} cannot be written. ${problem} Nothing has changed.`;
  }
  return null;
}

function put(path: string, text: string | null, files: Files): string | null {
  if (text === null) {
    try {
      rmSync(path);
      return null;
    } catch {
      return fileProblemText({ kind: "denied" });
    }
  }
  const problem = files.write(path, text);
  return problem && fileProblemText(problem);
}
