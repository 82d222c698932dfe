/**
 * Writes several new files at once: all or none, and never over another. A folder that is not there yet is made ready
 * under another name and then moved into place, in one step; into one that is there, each file is written whole beside
 * its place, and all are then put there by links, which the system refuses where something stands.
 */
import {
  constants,
  copyFileSync,
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  renameSync,
  rmdirSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { joinPath, parentOf } from "./paths";

/** Where the system cannot link files. */
const NO_LINKS: ReadonlySet<unknown> = new Set(["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"]);

/** An error that knows at which file it came. */
export interface CreateError {
  readonly at: string;
  readonly cause: unknown;
}

/**
 * Creates files in a folder.
 *
 * @param folder absolute; made when it is not there
 * @param contents by path from the folder
 * @param half a name for what is not whole yet, that no other process uses, in the folder it is asked for
 * @returns null when all are there; else nothing of it is
 */
export function createFiles(
  folder: string,
  contents: Readonly<Record<string, string>>,
  half: (folder: string) => string,
): CreateError | null {
  const made: string[] = [];
  try {
    makeFolders(existsSync(folder) ? folder : parentOf(folder), made);
    const stage = half(existsSync(folder) ? folder : parentOf(folder));
    try {
      for (const [path, text] of Object.entries(contents)) writeStaged(joinPath(stage, path), text);
      return existsSync(folder) ? putAll(stage, folder, Object.keys(contents)) : moved(stage, folder);
    } finally {
      rmSync(stage, { recursive: true, force: true });
    }
  } catch (cause) {
    removeEmpty(made);
    return { at: folder, cause };
  }
}

function writeStaged(path: string, text: string): void {
  mkdirSync(parentOf(path), { recursive: true });
  writeFileSync(path, text, { flag: "wx", flush: true });
}

function moved(stage: string, folder: string): null {
  renameSync(stage, folder);
  return null;
}

/** Puts files that are whole into their places; when one cannot be, those before it are taken away again. */
function putAll(stage: string, folder: string, paths: readonly string[]): CreateError | null {
  const put: string[] = [];
  const made: string[] = [];
  for (const path of paths) {
    const target = joinPath(folder, path);
    try {
      makeFolders(parentOf(target), made);
      putNew(joinPath(stage, path), target);
      put.push(target);
    } catch (cause) {
      for (const file of put) rmSync(file, { force: true });
      removeEmpty(made);
      return { at: target, cause };
    }
  }
  return null;
}

function putNew(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    if (!NO_LINKS.has((error as { code?: unknown }).code)) throw error;
    copyFileSync(from, to, constants.COPYFILE_EXCL);
  }
}

/** Makes a folder and those above it, and notes the topmost that was not there. */
function makeFolders(folder: string, made: string[]): void {
  const first = mkdirSync(folder, { recursive: true });
  if (first !== undefined) made.push(first);
}

/** Takes away folders that were made for nothing; one that somebody has put something into meanwhile stays. */
function removeEmpty(made: readonly string[]): void {
  for (const folder of made.toReversed()) removeBranch(folder);
}

function removeBranch(folder: string): void {
  if (!existsSync(folder)) return;
  for (const entry of readdirSync(folder, { withFileTypes: true }))
    if (entry.isDirectory()) removeBranch(joinPath(folder, entry.name));
  if (readdirSync(folder).length === 0) rmdirSync(folder);
}
