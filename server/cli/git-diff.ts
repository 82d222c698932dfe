/**
 * What `git diff` shows of one file: its two texts compared by meaning. What they use is looked up in the work tree, on
 * both sides, so that only the change of this file is told.
 */
import { compareRevisions, type Given } from "../features/compare";
import {
  absolutePath,
  createWorkspace,
  fileProblemText,
  findRoot,
  joinPath,
  parentOf,
  within,
} from "../project";
import type { CompareReport } from "./compare-report";
import { compareText } from "./compare-text";
import { harmless } from "./display";
import type { Io } from "./io";

/** The files that git names. Where there is none on a side, it names the null device. */
export interface DiffOf {
  /** From the top of the work tree, where git runs its drivers. */
  readonly path: string;
  /** The new path, where the file has been renamed. */
  readonly renamed: string | undefined;
  readonly oldFile: string;
  readonly newFile: string;
}

/** The report for a terminal, with git's own kind of head line. */
export function diffReport({ path, renamed, oldFile, newFile }: DiffOf, io: Io): string {
  const paths = { before: path, after: renamed ?? path };
  const head = io.paintOut("strong", harmless(`torquil diff a/${paths.before} b/${paths.after}`));
  const [old, fresh] = [textAt(oldFile, io), textAt(newFile, io)];
  const wrong = [old, fresh].find((side) => typeof side === "object" && side !== null);
  if (wrong && typeof wrong === "object") return `${head}\n${wrong.problem}\n`;
  const before = sideOf(paths.before, old as string | null, io);
  const after = sideOf(paths.after, fresh as string | null, io);
  const sameFiles = old !== null && fresh !== null ? [[before.file, after.file] as const] : [];
  const { changes } = compareRevisions(before.given, after.given, { sameFiles, lineEnds: "ignore" });
  const nameOf =
    (side: typeof before, name: string) =>
    (file: string): string =>
      file === side.file ? name : file;
  const shown = changes
    .filter(({ places }) => places.before?.file === before.file || places.after?.file === after.file)
    .map((change) => ({ change, before: nameOf(before, paths.before), after: nameOf(after, paths.after) }));
  const report: CompareReport = { names: paths, shown, problems: [] };
  return `${head}\n${compareText(report, io.paintOut)}`;
}

/** The text of a file git names; null for none. */
function textAt(file: string, io: Io): string | null | { readonly problem: string } {
  if (file === "/dev/null" || file.toLowerCase() === "nul") return null;
  const read = io.files.readText(absolutePath(io.folder, file));
  return "text" in read ? read.text : { problem: fileProblemText(read.problem) };
}

/** The project of the work tree with a text laid over one file; without a text, nothing. */
function sideOf(path: string, text: string | null, io: Io): { readonly given: Given; readonly file: string } {
  const place = absolutePath(io.folder, path);
  const root = findRoot(io.files, parentOf(place)) ?? parentOf(place);
  const file = within(root, place) ?? path;
  if (text === null) return { given: { project: { files: new Map() }, settings: null }, file };
  const workspace = createWorkspace(io.files, root);
  const own = workspace.fileAt(joinPath(root, file)) ?? file;
  workspace.setOverlay(own, text);
  return { given: { project: workspace.project(), settings: null }, file: own };
}
