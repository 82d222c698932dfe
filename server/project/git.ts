/**
 * The one way to git: which revision is meant, and its files as they were, to be read like those of a disk. Nothing that
 * a repository can set up is run: no hook, no filter, no textconv, no other diff, no file-system monitor, no transport.
 */
import { spawnSync } from "node:child_process";
import { type Files, LARGEST_FILE } from "./files";
import { type MemoryEntry, memoryFiles } from "./memory";
import { absolutePath, joinPath, nameOf, parentOf } from "./paths";
import { SETTINGS_FILE } from "./settings";
import { ENDING } from "./tree-walk";

/** Why git cannot answer, as a sentence with the way out. */
export interface GitProblem {
  readonly problem: string;
}

/** A revision of a repository. */
export interface Revision {
  /** The whole number of its commit. */
  readonly commit: string;
  /** Its files, under the paths they have in the work tree. Nothing can be written. */
  readonly files: Files;
}

/** A repository, seen from a folder of its work tree. */
export interface Git {
  /** The top folder of the work tree, absolute, links followed. */
  readonly root: string;
  /** What a person calls by this name: a branch, a tag, a number, `HEAD~2`. */
  readonly revision: (name: string) => Revision | GitProblem;
  /** Where git itself keeps a file, such as `config`. */
  readonly ownPath: (name: string) => string | GitProblem;
}

const SAFE = [
  "--no-pager",
  "--no-optional-locks",
  "--literal-pathspecs",
  ...["core.fsmonitor=false", `core.hooksPath=${process.platform === "win32" ? "NUL" : "/dev/null"}`].flatMap(
    set,
  ),
  ...[
    "protocol.allow=never",
    "diff.external=",
    "core.untrackedCache=false",
    "log.showSignature=false",
  ].flatMap(set),
];

function set(value: string): readonly string[] {
  return ["-c", value];
}

/** What a child of git gets to see: our surroundings without anything that would steer git elsewhere. */
function surroundings(): Record<string, string> {
  const kept = Object.entries(process.env).filter(
    ([name, value]) => value !== undefined && !/^GIT_/i.test(name),
  );
  return {
    ...(Object.fromEntries(kept) as Record<string, string>),
    GIT_TERMINAL_PROMPT: "0",
    GIT_NO_LAZY_FETCH: "1",
    LC_ALL: "C",
  };
}

const MOST_BYTES = 1 << 30;

/** Runs git in a folder; its output, or what it says is wrong. */
function git(folder: string, args: readonly string[], input?: string): { readonly out: Buffer } | GitProblem {
  const done = spawnSync("git", [...SAFE, ...args], {
    cwd: folder,
    env: surroundings(),
    maxBuffer: MOST_BYTES,
    windowsHide: true,
    ...(input === undefined ? {} : { input }),
  });
  if (done.error)
    return {
      problem:
        (done.error as NodeJS.ErrnoException).code === "ENOENT"
          ? "Git is not installed, or not found. Install it, or compare two folders instead."
          : `Git could not be run (${done.error.message}).`,
    };
  if (done.status === 0) return { out: done.stdout };
  const said = done.stderr.toString("utf8").trim().split("\n").at(-1) ?? "";
  return { problem: said.replace(/^(fatal|error): /, "") };
}

/** The repository that a folder lies in. */
export function gitAt(folder: string): Git | GitProblem {
  const asked = git(folder, ["rev-parse", "--show-toplevel"]);
  if ("problem" in asked) return { problem: whyNot(asked.problem) };
  const root = absolutePath(folder, asked.out.toString("utf8").replace(/\r?\n$/, ""));
  return {
    root,
    revision: (name) => revisionOf(root, name),
    ownPath: (name) => {
      const found = git(root, ["rev-parse", "--git-path", name]);
      return "problem" in found
        ? found
        : absolutePath(root, found.out.toString("utf8").replace(/\r?\n$/, ""));
    },
  };
}

function whyNot(said: string): string {
  if (/not a git repository/i.test(said))
    return "This folder is not in a git repository. Change to one, or compare two files or folders.";
  if (/dubious ownership/i.test(said))
    return "Git does not trust this repository, because somebody else owns it. “git status” says how to trust it.";
  if (/work tree/i.test(said))
    return "This repository has no work tree. Change to a folder that is checked out.";
  return `Git cannot read this repository: ${said}.`;
}

function revisionOf(root: string, name: string): Revision | GitProblem {
  const asked = git(root, ["rev-parse", "--verify", "--quiet", "--end-of-options", `${name}^{commit}`]);
  if ("problem" in asked)
    return {
      problem: `There is no revision “${name}” in this repository. Name a commit, a branch or a tag; “git log” lists commits.`,
    };
  const commit = asked.out.toString("utf8").trim();
  const listed = git(root, ["ls-tree", "-r", "-z", "-l", "--full-tree", commit]);
  if ("problem" in listed) return { problem: `Git cannot list the revision “${name}”: ${listed.problem}.` };
  return filesAt(root, commit, listed.out.toString("utf8"));
}

interface Blob {
  readonly path: string;
  readonly mode: string;
  readonly id: string;
  readonly size: number;
}

const ROW = /^(\d+) blob ([0-9a-f]+) +(\d+)\t([\s\S]+)$/;
const LINK = "120000";

function filesAt(root: string, commit: string, listing: string): Revision | GitProblem {
  const blobs = listing.split("\0").flatMap((row): Blob[] => {
    const [, mode = "", id = "", size = "0", path = ""] = ROW.exec(row) ?? [];
    return path === "" ? [] : [{ path: joinPath(root, path), mode, id, size: Number(size) }];
  });
  const isRead = ({ path, mode }: Blob): boolean =>
    mode === LINK || path.endsWith(ENDING) || nameOf(path) === SETTINGS_FILE;
  const wanted = blobs.filter((blob) => isRead(blob) && blob.size <= LARGEST_FILE);
  const read = contentsOf(root, wanted);
  if ("problem" in read) return read;
  const entries: Record<string, MemoryEntry> = { [joinPath(root, ".git/HEAD")]: commit };
  for (const blob of blobs) {
    const bytes = read.bytes.get(blob.id);
    if (bytes && blob.mode === LINK) entries[blob.path] = { link: Buffer.from(bytes).toString("utf8") };
    // What is no text of ours is there, and read when it is asked for.
    else entries[blob.path] = bytes ?? new Uint8Array(isRead(blob) ? LARGEST_FILE + 1 : 0);
  }
  return {
    commit,
    files: readOnly(memoryFiles(entries), root, new Map(blobs.map((blob) => [blob.path, blob]))),
  };
}

/** The contents of blobs, by their id. */
function contentsOf(
  root: string,
  blobs: readonly Blob[],
): { readonly bytes: Map<string, Uint8Array> } | GitProblem {
  const ids = [...new Set(blobs.map(({ id }) => id))];
  const bytes = new Map<string, Uint8Array>();
  if (ids.length === 0) return { bytes };
  const asked = git(root, ["cat-file", "--batch"], `${ids.join("\n")}\n`);
  if ("problem" in asked) return { problem: `Git cannot read this revision: ${asked.problem}.` };
  let at = 0;
  for (const id of ids) {
    const end = asked.out.indexOf(10, at);
    const size = /^[0-9a-f]+ blob (\d+)$/.exec(asked.out.toString("latin1", at, end))?.[1];
    if (size === undefined)
      return {
        problem: "A file of this revision is not in this repository. Fetch it first, with “git fetch”.",
      };
    bytes.set(id, asked.out.subarray(end + 1, end + 1 + Number(size)));
    at = end + 1 + Number(size) + 1;
  }
  return { bytes };
}

function readOnly(memory: Files, root: string, blobs: ReadonlyMap<string, Blob>): Files {
  const denied = { kind: "denied" as const };
  return {
    ...memory,
    readBytes: (path) => {
      const real = memory.realPath(path);
      const blob = "path" in real ? blobs.get(real.path) : undefined;
      if (!blob || blob.size > LARGEST_FILE) return memory.readBytes(path);
      const read = contentsOf(root, [blob]);
      return "problem" in read
        ? { problem: { kind: "failed", detail: "git" } }
        : { bytes: read.bytes.get(blob.id) ?? new Uint8Array() };
    },
    write: () => denied,
    create: (folder, contents) => ({
      path: joinPath(folder, Object.keys(contents)[0] ?? ""),
      problem: denied,
    }),
  };
}

/** The folder that a name is looked for in: itself, or where it would stand. */
export function folderOf(files: Files, path: string): string {
  const found = files.look(path);
  if ("kind" in found && found.kind === "folder") return path;
  const parent = parentOf(path);
  return parent === path ? path : folderOf(files, parent);
}
