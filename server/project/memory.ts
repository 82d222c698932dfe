/**
 * Files in memory, for tests and for callers without a disk: the same interface, links and problems included.
 */
import { decodeText } from "./decode";
import { type FileProblem, type Files, type FolderEntry, LARGEST_FILE } from "./files";
import { joinPath, parentOf, within } from "./paths";

/** What may stand at a path. Folders are there by what is in them. */
export type MemoryEntry = string | Uint8Array | { readonly link: string };

/** Files that can also be changed from outside, as another program would. */
export interface MemoryFiles extends Files {
  readonly set: (path: string, entry: MemoryEntry) => void;
  readonly remove: (path: string) => void;
}

type Found = { readonly path: string } | { readonly problem: FileProblem };

const MOST_LINKS = 40;

/** Files in memory, by absolute path. A link's target is absolute, or relative to the link's folder. */
export function memoryFiles(start: Readonly<Record<string, MemoryEntry>> = {}): MemoryFiles {
  const entries = new Map<string, MemoryEntry>(Object.entries(start));
  const isFolder = (path: string): boolean => [...entries.keys()].some((key) => within(path, key) !== null);

  const follow = (path: string): Found => {
    let real = "/";
    let left = path.split("/").filter((part) => part !== "");
    let links = 0;
    while (left.length > 0) {
      const next = joinPath(real, left[0] as string);
      const entry = entries.get(next);
      left = left.slice(1);
      if (typeof entry === "object" && "link" in entry) {
        if (++links > MOST_LINKS) return { problem: { kind: "link-loop", detail: "ELOOP" } };
        const target = entry.link.startsWith("/") ? entry.link : joinPath(parentOf(next), entry.link);
        left = [...target.split("/").filter((part) => part !== ""), ...left];
        real = "/";
      } else real = next;
    }
    return entries.has(real) || isFolder(real)
      ? { path: real }
      : { problem: { kind: "missing", detail: "ENOENT" } };
  };

  const list = (path: string): { entries: FolderEntry[] } | { problem: FileProblem } => {
    const found = follow(path);
    if ("problem" in found) return found;
    if (entries.has(found.path)) return { problem: { kind: "missing", detail: "ENOTDIR" } };
    const byName = new Map<string, FolderEntry>();
    for (const [key, entry] of entries) {
      const rest = within(found.path, key);
      if (rest === null) continue;
      const [name = "", ...deeper] = rest.split("/");
      const kind = deeper.length > 0 ? "folder" : isLink(entry) ? "link" : "file";
      byName.set(name, { name, kind });
    }
    return { entries: [...byName.values()].sort((a, b) => (a.name < b.name ? -1 : 1)) };
  };

  const readBytes: Files["readBytes"] = (path) => {
    const found = follow(path);
    if ("problem" in found) return found;
    const entry = entries.get(found.path);
    if (entry === undefined || isLink(entry)) return { problem: { kind: "folder" } };
    const bytes = typeof entry === "string" ? new TextEncoder().encode(entry) : entry;
    return bytes.length > LARGEST_FILE ? { problem: { kind: "too-large" } } : { bytes };
  };

  return {
    readText: (path) => {
      const read = readBytes(path);
      return "bytes" in read ? decodeText(read.bytes) : read;
    },
    readBytes,
    list,
    look: (path) => {
      const found = follow(path);
      if ("problem" in found) return found;
      return { kind: entries.has(found.path) ? "file" : "folder" };
    },
    realPath: follow,
    write: (path, contents) => {
      if (!entries.has(path) && isFolder(path)) return { kind: "folder" };
      const found = follow(path);
      entries.set("path" in found ? found.path : path, contents);
      return null;
    },
    create: (folder, contents) => {
      const paths = Object.keys(contents).map((path) => joinPath(folder, path));
      const taken = paths.find((path) => entries.has(path) || isFolder(path));
      if (taken !== undefined) return { path: taken, problem: { kind: "exists" } };
      for (const [path, text] of Object.entries(contents)) entries.set(joinPath(folder, path), text);
      return null;
    },
    set: (path, entry) => void entries.set(path, entry),
    remove: (path) => void entries.delete(path),
  };
}

function isLink(entry: MemoryEntry): entry is { readonly link: string } {
  return typeof entry === "object" && "link" in entry;
}
