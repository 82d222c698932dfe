/**
 * The one way to the files of the machine: what may be asked of them, and every way in which that can go wrong.
 *
 * Paths are absolute, with forward slashes. Nothing here throws for what is on the disk: a problem is a value.
 */

/** The most that is read of one file, in bytes: 16 MB. */
export const LARGEST_FILE = 16 * 1024 * 1024;

/** Why a path cannot be read, listed or written. `line` and `character` count from 0, in UTF-16. */
export interface FileProblem {
  readonly kind:
    | "missing"
    | "folder"
    | "not-a-file"
    | "too-large"
    | "binary"
    | "utf-16"
    | "encoding"
    | "denied"
    | "link-loop"
    | "outside"
    | "full"
    | "exists"
    | "failed";
  readonly line?: number;
  readonly character?: number;
  /** The byte that is no UTF-8, or the system's name for what failed. */
  readonly detail?: string;
}

export interface FolderEntry {
  readonly name: string;
  readonly kind: "file" | "folder" | "link" | "other";
}

/** Where texts come from and go to. */
export interface Files {
  /** The text of a file; a byte order mark stays its first character. */
  readonly readText: (path: string) => { readonly text: string } | { readonly problem: FileProblem };
  /** The bytes of a file, for pictures. */
  readonly readBytes: (path: string) => { readonly bytes: Uint8Array } | { readonly problem: FileProblem };
  /** What is in a folder, ordered by name. */
  readonly list: (
    path: string,
  ) => { readonly entries: readonly FolderEntry[] } | { readonly problem: FileProblem };
  /** What a path leads to, links followed. */
  readonly look: (
    path: string,
  ) => { readonly kind: "file" | "folder" | "other" } | { readonly problem: FileProblem };
  /** The path with every link in it followed. */
  readonly realPath: (path: string) => { readonly path: string } | { readonly problem: FileProblem };
  /** Writes a file whole or not at all, and makes the folders it needs; null when it is written. */
  readonly write: (path: string, contents: string | Uint8Array) => FileProblem | null;
  /**
   * Writes files that must not be there yet, by their path from a folder: all of them or none, and never over another.
   * null when they are written; else `path` is the one that could not be.
   */
  readonly create: (
    folder: string,
    contents: Readonly<Record<string, string>>,
  ) => { readonly path: string; readonly problem: FileProblem } | null;
}

const WORDS: Readonly<Record<FileProblem["kind"], string>> = {
  missing: "There is no such file or folder.",
  folder: "This is a folder, and a file is needed here.",
  "not-a-file": "This is neither a file nor a folder.",
  "too-large": "This file is over 16 MB, the most that is read. Split it into files that use each other.",
  binary: "This is not a text: there is a zero byte here. Give a text file.",
  "utf-16": "This text is in UTF-16. Save it as UTF-8.",
  encoding: "This is not UTF-8: the byte {detail} cannot stand here. Save the file as UTF-8.",
  denied: "You have no permission for this.",
  "link-loop": "This link leads back to where it came from. Take it out, or point it elsewhere.",
  outside:
    'This link leads outside the project folder, where nothing is read. Take it out, or name it under "skip" in torquil.json.',
  full: "The disk is full.",
  exists: "Something stands there already, and nothing is written over it.",
  failed: "The system could not do this ({detail}).",
};

/** A problem as a sentence, and the way out; whoever shows it puts the path in front. */
export function fileProblemText(problem: FileProblem): string {
  return WORDS[problem.kind].replace("{detail}", problem.detail ?? "no reason given");
}
