/**
 * The files of the machine's disk. A file is written beside its place under a name of its own and then moved there,
 * so that at every moment the old text or the new one stands there, whole. What a killed run left is swept up by the next.
 */
import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fchmodSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { createFiles } from "./create";
import { decodeText } from "./decode";
import { type FileProblem, type Files, type FolderEntry, LARGEST_FILE } from "./files";
import { absolutePath, joinPath, parentOf } from "./paths";

const HALF = /^\.torquil-(\d+)-\d+\.part$/;

/** The disk, as `Files`. */
export function diskFiles(): Files {
  const swept = new Set<string>();
  let count = 0;
  /** A name for what is not whole yet; what runs before this one left in the folder is swept up first. */
  const half = (folder: string): string => {
    if (!swept.has(folder)) sweep(folder);
    swept.add(folder);
    count++;
    return joinPath(folder, `.torquil-${process.pid}-${count}.part`);
  };
  return {
    readText: (path) =>
      attempt(() => {
        const read = bytesOf(path);
        return "bytes" in read ? decodeText(read.bytes) : read;
      }),
    readBytes: (path) => attempt(() => bytesOf(path)),
    list: (path) => attempt(() => ({ entries: entriesOf(path) })),
    look: (path) => attempt(() => ({ kind: kindOf(path) })),
    realPath: (path) => attempt(() => ({ path: absolutePath("/", realpathSync.native(path)) })),
    write: (path, contents) => {
      const outcome = attempt(() => {
        const target = existsSync(path) ? absolutePath("/", realpathSync.native(path)) : path;
        const folder = parentOf(target);
        mkdirSync(folder, { recursive: true });
        writeWhole(target, half(folder), contents);
        return {};
      });
      return "problem" in outcome ? outcome.problem : null;
    },
    create: (folder, contents) => {
      const failed = createFiles(folder, contents, half);
      if (!failed) return null;
      return { path: failed.at, problem: problemOf(failed.cause) };
    },
  };
}

const PROBLEMS: Readonly<Record<string, FileProblem["kind"]>> = {
  ENOENT: "missing",
  ENOTDIR: "missing",
  ENAMETOOLONG: "missing",
  ERR_INVALID_ARG_VALUE: "missing",
  EISDIR: "folder",
  EACCES: "denied",
  EPERM: "denied",
  EROFS: "denied",
  ELOOP: "link-loop",
  EEXIST: "exists",
  ENOTEMPTY: "exists",
  ENOSPC: "full",
  EDQUOT: "full",
};

/** What the system says went wrong, as a problem; anything that is not the system's is a mistake of ours and goes on. */
function attempt<T>(work: () => T): T | { readonly problem: FileProblem } {
  try {
    return work();
  } catch (error) {
    return { problem: problemOf(error) };
  }
}

function problemOf(error: unknown): FileProblem {
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code !== "string") throw error;
  return { kind: PROBLEMS[code] ?? "failed", detail: code };
}

function kindOf(path: string): "file" | "folder" | "other" {
  const found = statSync(path);
  return found.isFile() ? "file" : found.isDirectory() ? "folder" : "other";
}

function entriesOf(folder: string): FolderEntry[] {
  const entries = readdirSync(folder, { withFileTypes: true }).map((entry): FolderEntry => {
    const kind = entry.isSymbolicLink()
      ? "link"
      : entry.isDirectory()
        ? "folder"
        : entry.isFile()
          ? "file"
          : "other";
    return { name: entry.name, kind };
  });
  return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Looks before it opens: opening a pipe would wait for somebody to write into it. */
function bytesOf(path: string): { readonly bytes: Uint8Array } | { readonly problem: FileProblem } {
  const kind = kindOf(path);
  if (kind !== "file") return { problem: { kind: kind === "folder" ? "folder" : "not-a-file" } };
  const size = statSync(path).size;
  if (size > LARGEST_FILE) return { problem: { kind: "too-large" } };
  const file = openSync(path, "r");
  try {
    const bytes = readAll(file, size);
    return bytes.length > LARGEST_FILE ? { problem: { kind: "too-large" } } : { bytes };
  } finally {
    closeSync(file);
  }
}

/** All bytes of an open file, or one more than is read of any; a file that grows meanwhile is read to its end. */
function readAll(file: number, size: number): Uint8Array {
  let bytes = new Uint8Array(size + 1);
  let length = 0;
  while (length <= LARGEST_FILE) {
    if (length === bytes.length) {
      const larger = new Uint8Array(Math.min(2 * length, LARGEST_FILE + 1));
      larger.set(bytes);
      bytes = larger;
    }
    const read = readSync(file, bytes, length, bytes.length - length, null);
    if (read === 0) break;
    length += read;
  }
  return bytes.subarray(0, length);
}

function writeWhole(target: string, half: string, contents: string | Uint8Array): void {
  const before = existsSync(target) ? statSync(target) : undefined;
  if (before?.isDirectory()) throw Object.assign(new Error("is a folder"), { code: "EISDIR" });
  // Moving a file over another asks nothing of the other: one that is marked read-only has to be asked for here.
  if (before) accessSync(target, constants.W_OK);
  try {
    const file = openSync(half, "wx");
    try {
      if (before) fchmodSync(file, before.mode & 0o777);
      writeFileSync(file, contents);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(half, target);
  } catch (error) {
    rmSync(half, { force: true });
    throw error;
  }
}

/** So long after its last change nobody is writing a file any more: it takes a moment only. In milliseconds. */
const LONG_DEAD = 60_000;

/**
 * Takes away what runs that were killed left in a folder. One with our own number is from a process before us; and since
 * another program may have got the number of a dead run, what has not changed for a while goes too.
 */
function sweep(folder: string): void {
  for (const name of readdirSync(folder)) {
    const run = Number(HALF.exec(name)?.[1] ?? Number.NaN);
    if (Number.isNaN(run)) continue;
    const path = joinPath(folder, name);
    const isDead = run === process.pid || !isRunning(run) || Date.now() - changedAt(path) > LONG_DEAD;
    if (isDead) rmSync(path, { recursive: true, force: true });
  }
}

/** When a file was last changed; now, where it has gone meanwhile. */
function changedAt(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? Date.now();
}

function isRunning(run: number): boolean {
  try {
    process.kill(run, 0);
    return true;
  } catch (error) {
    return (error as { code?: string }).code === "EPERM";
  }
}
