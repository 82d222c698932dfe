/**
 * The projects that an editor has open: which project a document belongs to, the texts it lays over the disk, and
 * how files are called on its side.
 */
import { fileURLToPath, pathToFileURL } from "node:url";
import { applyEdits, type Document, type Edit, readDocument } from "../../grammar";
import {
  absolutePath,
  createWorkspace,
  discover,
  type Files,
  findRoot,
  joinPath,
  memoryFiles,
  nameOf,
  parentOf,
  SETTINGS_FILE,
  type Workspace,
  within,
} from "../project";

/** A document's place: its project, and its path in it. */
export interface Located {
  readonly workspace: Workspace;
  readonly file: string;
}

/** A document that the editor has open. */
export interface OpenDocument extends Located {
  readonly uri: string;
  readonly version: number;
  readonly document: Document;
}

/** A change on the disk. */
export interface DiskChange {
  readonly uri: string;
  readonly appearedOrVanished: boolean;
}

export interface Projects {
  /** Sets the folders that are open in the editor. */
  readonly setFolders: (uris: readonly string[]) => void;
  readonly folders: () => readonly string[];
  readonly open: (uri: string, version: number, text: string) => void;
  /** Changes an open document; one that is not open is left alone, and false is given. */
  readonly change: (
    uri: string,
    version: number,
    edits: readonly (Edit | { readonly text: string })[],
  ) => boolean;
  readonly close: (uri: string) => void;
  readonly opened: (uri: string) => OpenDocument | undefined;
  /** The place of a document, open or not; undefined for one that belongs to no project. */
  readonly locate: (uri: string) => Located | undefined;
  readonly diskChanged: (changes: readonly DiskChange[]) => void;
  /** Looks at the disk again, for a client that does not say what has changed there. */
  readonly lookAgain: () => void;
  /** Every project with an open document. */
  readonly inUse: () => readonly Workspace[];
  /** Whether the editor cares for a file: it has it open, has a folder open that it lies in, or an open file uses it. */
  readonly concerns: (workspace: Workspace, file: string) => boolean;
  /** Every project in the folders of the editor, and those in use. Looks at the disk. */
  readonly all: () => readonly Workspace[];
  /** How the editor calls a file of a project. */
  readonly uriOf: (workspace: Workspace, file: string) => string;
}

/** No projects yet. */
export function createProjects(files: Files): Projects {
  let folderUris: readonly string[] = [];
  let folders: readonly string[] = [];
  const workspaces = new Map<string, Workspace>();
  const documents = new Map<string, OpenDocument>();

  const workspaceAt = (root: string): Workspace => {
    const workspace = workspaces.get(root) ?? createWorkspace(files, root);
    workspaces.set(root, workspace);
    return workspace;
  };
  const locate = (uri: string): Located | undefined => {
    const known = documents.get(uri);
    if (known) return known;
    const path = pathOf(uri);
    if (path === undefined) return undefined;
    const real = realPathOf(files, path);
    const folder = parentOf(real);
    const root = findRoot(files, folder) ?? folders.find((f) => within(f, real) !== null);
    if (root === undefined) return undefined;
    const workspace = workspaceAt(root);
    const file = workspace.fileAt(real);
    return file === null ? undefined : { workspace, file };
  };
  const put = (document: OpenDocument): void => {
    documents.set(document.uri, document);
    document.workspace.setOverlay(document.file, document.document);
  };
  const placeAgain = (): void => {
    const open = [...documents.values()];
    documents.clear();
    workspaces.clear();
    for (const one of open) put({ ...one, ...(locate(one.uri) ?? alone(files, one.uri)) });
  };

  return {
    setFolders: (uris) => {
      folderUris = uris;
      const paths = uris.flatMap((uri) => pathOf(uri) ?? []).map((path) => realPathOf(files, path));
      // The innermost folder that a file lies in is the one that counts.
      folders = paths.sort((a, b) => b.length - a.length);
      placeAgain();
    },
    folders: () => folderUris,
    open: (uri, version, text) => {
      put({ uri, version, document: readDocument(text), ...(locate(uri) ?? alone(files, uri)) });
    },
    change: (uri, version, edits) => {
      const known = documents.get(uri);
      if (!known) return false;
      put({ ...known, version, document: edited(known.document, edits) });
      return true;
    },
    close: (uri) => {
      const known = documents.get(uri);
      if (!known) return;
      documents.delete(uri);
      known.workspace.remove(known.file);
      known.workspace.refresh([known.file]);
      // The same file may be open under another name, by a link.
      const twin = [...documents.values()].find(
        (d) => d.workspace === known.workspace && d.file === known.file,
      );
      if (twin) put(twin);
    },
    opened: (uri) => documents.get(uri),
    locate,
    diskChanged: (changes) => {
      if (changes.some((c) => c.appearedOrVanished && nameOf(pathOf(c.uri) ?? "") === SETTINGS_FILE)) {
        placeAgain();
        return;
      }
      const paths = changes.flatMap((c) => pathOf(c.uri) ?? []).map((path) => realPathOf(files, path));
      for (const workspace of new Set([
        ...workspaces.values(),
        ...[...documents.values()].map((d) => d.workspace),
      ])) {
        const names = paths.flatMap((path) => within(workspace.root, path) ?? []);
        if (names.length > 0) workspace.refresh(names);
      }
    },
    lookAgain: () => {
      for (const workspace of new Set([...documents.values()].map((d) => d.workspace))) workspace.refresh();
    },
    inUse: () => [...new Set([...documents.values()].map((d) => d.workspace))],
    concerns: (workspace, file) => {
      const path = joinPath(workspace.root, file);
      if (folders.some((folder) => within(folder, path) !== null)) return true;
      const open = [...documents.values()].filter((d) => d.workspace === workspace);
      return open.some((d) => d.file === file || uses(workspace, d.file, file));
    },
    all: () => {
      const found = folders.flatMap((folder) => discover(files, folder, [folder]).projects);
      const open = [...documents.values()].map((d) => d.workspace);
      return [...new Set([...found.map((p) => workspaceAt(p.root)), ...open])];
    },
    uriOf: (workspace, file) => {
      const open = [...documents.values()].find((d) => d.workspace === workspace && d.file === file);
      return open?.uri ?? pathToFileURL(joinPath(workspace.root, file)).href;
    },
  };
}

/** Whether a file names another, or something that stands in it. */
function uses(workspace: Workspace, file: string, other: string): boolean {
  return (
    workspace
      .project()
      .files.get(file)
      ?.links.some((link) => link.file === other) ?? false
  );
}

/** One document for itself: outside every folder and project, or not on the disk at all. It sees the files beside it. */
function alone(files: Files, uri: string): Located {
  const path = pathOf(uri);
  if (path === undefined) {
    const file = `${uri.replace(/[^\p{L}\p{N}]+/gu, "-")}.torquil`;
    return { workspace: createWorkspace(memoryFiles(), "/", [file]), file };
  }
  const real = realPathOf(files, path);
  return { workspace: createWorkspace(files, parentOf(real), [nameOf(real)]), file: nameOf(real) };
}

/** Edits that follow each other are made at once: the text is put together again only then. */
function edited(before: Document, edits: readonly (Edit | { readonly text: string })[]): Document {
  let document = before;
  let waiting: Edit[] = [];
  for (const edit of edits) {
    if ("start" in edit) waiting.push(edit);
    else {
      waiting = [];
      document = readDocument(edit.text);
    }
  }
  return waiting.length > 0 ? applyEdits(document, waiting) : document;
}

/** The path of a document on the disk; undefined for one that is not on the disk. */
function pathOf(uri: string): string | undefined {
  if (!uri.startsWith("file:")) return undefined;
  try {
    return absolutePath("/", fileURLToPath(uri));
  } catch {
    // A host, or an escaped slash: no path on this machine.
    return undefined;
  }
}

function realPathOf(files: Files, path: string): string {
  const real = files.realPath(path);
  if ("path" in real) return real.path;
  const folder = files.realPath(parentOf(path));
  return "path" in folder ? joinPath(folder.path, nameOf(path)) : path;
}
